import { boardCard } from '../src/cards/board-card.ts';
import { choice } from '../src/chat/options.ts';
import { shownBoard } from '../src/desk/board.ts';
import { command } from '../src/desk/desk.ts';
import { curePicture, orNone, temperaturePicture } from '../src/desk/pictures.ts';

const PICTURES = ['jobs', 'waits', 'temperature'] as const;

export default command({
  name: 'board',
  summary: 'Every job of this bench on one timeline, what is due first at the head',
  options: {
    picture: choice(PICTURES, { about: 'What the picture shows; left out, the jobs' }).optional(),
  },
  examples: ['', 'picture:waits'],
  // The channel has its live board; whoever asks for one wants to look for themselves.
  run: async ({ picture = 'jobs' }, desk) => {
    const { studio, now, painter } = desk;
    const view = { state: await desk.bench.state(), studio, now };
    if (picture === 'jobs') return { ...(await shownBoard(view, painter)), aside: true };
    const files = await orNone(picture === 'waits' ? curePicture(view, painter) : temperaturePicture(view, painter));
    return { ...boardCard(view), files, aside: true };
  },
});
