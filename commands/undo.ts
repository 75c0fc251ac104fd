import type { NumberedEvent } from '../src/bench/fold.ts';
import { type UndoAsk, undo, undoable } from '../src/bench/undo.ts';
import { entryName } from '../src/cards/entry.ts';
import { jobCard, undoWay, waysOn } from '../src/cards/job-card.ts';
import { card } from '../src/chat/card.ts';
import { text, whole } from '../src/chat/options.ts';
import { stillPlanned } from '../src/desk/counted-on.ts';
import { command } from '../src/desk/desk.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, person, say } from '../src/words/text.ts';

export default command({
  name: 'undo',
  summary: 'Take back the last thing that was logged',
  options: {
    job: text({ about: 'Of which job; left out, the last thing that you logged', complete: 'any-job' }).optional(),
    entry: whole({ about: 'Just this entry, by its number', least: 1, complete: 'entry' }).optional(),
    of: text({ about: 'When that entry happened, as its button says' }).optional(),
  },
  examples: ['job:lion-head'],
  run: async (input, desk) => {
    let undone: NumberedEvent | undefined;
    const decided = await desk.bench.decide((state, log) => {
      const job = input.job === undefined ? null : jobNamed(state, input.job);
      if (isRefusal(job)) return job;
      const ask: UndoAsk = input.entry !== undefined ? { entry: input.entry, at: momentIn(input.of) } : job ? { job } : null;
      const found = undo(log, ask, { by: desk.who, at: desk.now, now: desk.now });
      const last = undoable(log).at(-1);
      // What somebody else logged is taken back only if it is meant.
      if (isRefusal(found) && ask === null && last)
        return new Refusal(
          found.code,
          say`${found.message} The last entry is ${entryName(last, state)}, by ${person(last.by)} at ${clock(last.at)}.`,
          { example: `/undo entry:${last.seq}`, ways: [{ ...undoWay(last), label: 'Take that back' }] },
        );
      if (isRefusal(found)) return found;
      undone = found.undone;
      return found.events;
    });
    if (isRefusal(decided)) return decided;
    if (!undone) throw new Error('something was undone that is not known');
    const { before, state } = decided;
    const ids = 'jobs' in undone ? undone.jobs : 'job' in undone && undone.job !== null ? [undone.job] : [];
    const holders = [before, state].flatMap((each) => ids.flatMap((id) => each.jobs.get(id)?.holder ?? []));
    const to = [...new Set([undone.by, ...holders])].filter((who) => who !== desk.who);
    const title = say`Taken back: ${entryName(undone, before)}`;
    const lines = [say`It was logged by ${person(undone.by)} for ${clock(undone.at)}.`];
    const job = state.jobs.get(ids[0] ?? '');
    // With a tack check taken back, what it taught is unlearned, too.
    const studio = await desk.house.studio();
    const left = stillPlanned({ studio, now: desk.now }, undone);
    lines.push(...left.lines);
    const view = job && { job, state, studio, now: desk.now };
    const buttons = [...left.ways, ...(view ? waysOn(view) : [])];
    return view ? jobCard(view, title, { lines, buttons, to }) : card(title, lines, { buttons, to });
  },
});

/** The time in an Undo button: milliseconds since the epoch in base 36, because a button's id is short. */
const momentIn = (typed: string | undefined): number | null => {
  const at = typed === undefined ? Number.NaN : Number.parseInt(typed.trim(), 36);
  return Number.isFinite(at) ? at : null;
};
