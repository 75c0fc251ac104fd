import { boardCard } from '../src/cards/board-card.ts';
import { command } from '../src/desk/desk.ts';

export default command({
  name: 'board',
  summary: 'Every job of this bench on one timeline, what is due first at the head',
  options: {},
  examples: [],
  // The channel has its live board; whoever asks for one wants to look for themselves.
  run: async (_, desk) => ({
    ...boardCard({ state: await desk.bench.state(), studio: desk.studio, now: desk.now }),
    aside: true,
  }),
});
