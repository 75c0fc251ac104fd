import { conditionsOf } from '../src/bench/conditions.ts';
import { snooze } from '../src/bench/decide.ts';
import type { BenchState } from '../src/bench/fold.ts';
import { pingsOf, potOverAt } from '../src/bench/pings.ts';
import { card } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { inLine, inMinutes, line } from '../src/desk/examples.ts';
import { nextWindow, timesOf, type Window } from '../src/job/window.ts';
import { parseDuration } from '../src/trade/measures/quantity.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, say } from '../src/words/text.ts';

/** The ping that is meant: the named one, or the last that went out; null if it no longer concerns anybody. */
function pingMeant(state: BenchState, desk: Desk, typedPing: string | undefined) {
  // What has gone out is left out of the list of coming pings; without that record they are all there.
  const live = pingsOf({ ...state, sent: new Map() }, desk.studio, desk.now).filter((ping) => state.sent.has(ping.id));
  return typedPing === undefined ? live.at(-1) : live.find((ping) => ping.id === typedPing || ping.base === typedPing);
}

export default command({
  name: 'snooze',
  summary: 'Put a ping off for a while',
  options: {
    ping: text({ about: 'Which ping; left out, the last one', complete: 'ping' }).optional(),
    for: typed(
      inLine(parseDuration, (_, typedText) => line('snooze', { for: inMinutes(typedText, '20 min') })),
      { about: 'For how long, if not the studio’s usual time: 20 min' },
    ).optional(),
  },
  examples: ['for:20 min'],
  run: async (input, desk) => {
    const decided = await desk.bench.decide((state) => {
      const ping = pingMeant(state, desk, input.ping);
      if (!ping) return new Refusal('nothing-to-snooze', say`No ping is waiting for an answer here.`, { example: '/board' });
      const cup = ping.cup === null ? undefined : state.cups.get(ping.cup);
      const job = ping.job === null ? undefined : state.jobs.get(ping.job);
      const endsAt = cup ? potOverAt(state, cup) : job ? closingOf(nextWindow(job, conditionsOf(state, desk.studio))) : null;
      const gone = endsAt !== null && endsAt <= desk.now;
      return snooze({ base: ping.base, endsAt: gone ? null : endsAt }, input.for ?? desk.studio.snoozeMinutes, {
        by: desk.who,
        at: desk.now,
        now: desk.now,
      });
    });
    if (isRefusal(decided)) return decided;
    const event = decided.events[0];
    const until = event?.type === 'PingSnoozed' ? event.until : desk.now;
    return card(say`I will ring again at ${clock(until)}`, [], { aside: true });
  },
});

/** When a window closes, as far as anybody can tell. */
const closingOf = (window: Window | null): number | null => (window === null ? null : timesOf(window).closesAt);
