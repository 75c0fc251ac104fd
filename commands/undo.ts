import { undo } from '../src/bench/decide.ts';
import type { NumberedEvent } from '../src/bench/fold.ts';
import { jobCard } from '../src/cards/job-card.ts';
import { card } from '../src/chat/card.ts';
import { text, whole } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { clock, person, plain, say, type Text } from '../src/words/text.ts';

const NAMES: Partial<Record<NumberedEvent['type'], string>> = {
  JobStarted: 'the start of the job',
  StepDone: 'the step',
  TackChecked: 'the tack check',
  MissedWindowDecided: 'the decision on the missed window',
  NoteAdded: 'the note',
  JobHeld: 'the hold',
  JobResumed: 'the end of the hold',
  JobClosed: 'the closing of the job',
  CupStarted: 'the start of',
  CupEnded: 'the end of',
  HandoverOffered: 'the handover',
  HandoverTaken: 'the taking over',
  TemperatureRead: 'the temperature',
};

function nameOf(event: NumberedEvent): Text {
  const what = plain(NAMES[event.type] ?? event.type);
  if ('cup' in event) return say`${what} ${event.cup}`;
  if ('step' in event && event.step) return say`${what} ${event.step}`;
  return say`${what}`;
}

export default command({
  name: 'undo',
  summary: 'Take back the last thing that was logged',
  options: {
    job: text({ about: 'Of which job; left out, the last thing that you logged', complete: 'job' }).optional(),
    entry: whole({ about: 'Just this entry, by its number', least: 1 }).optional(),
  },
  examples: ['job:lion-head'],
  run: async (input, desk) => {
    let undone: NumberedEvent | undefined;
    const decided = await desk.bench.decide((state, log) => {
      const job = input.job === undefined ? null : jobNamed(state, input.job);
      if (isRefusal(job)) return job;
      const ask = input.entry !== undefined ? { entry: input.entry } : job ? { job } : null;
      const found = undo(log, ask, { by: desk.who, at: desk.now, now: desk.now });
      if (isRefusal(found)) return found;
      undone = found.undone;
      return found.events;
    });
    if (isRefusal(decided)) return decided;
    if (!undone) throw new Error('something was undone that is not known');
    const title = say`Taken back: ${nameOf(undone)}`;
    const was = say`It was logged by ${person(undone.by)} for ${clock(undone.at)}.`;
    const job = 'job' in undone && undone.job !== null ? decided.state.jobs.get(undone.job) : undefined;
    if (job) return jobCard({ job, state: decided.state, studio: desk.studio, now: desk.now }, title, { lines: [was] });
    return card(title, [was]);
  },
});
