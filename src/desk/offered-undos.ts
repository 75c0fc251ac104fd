import type { BenchState, NumberedEvent } from '../bench/fold.ts';
import { undo, undoable } from '../bench/undo.ts';
import type { Offer } from '../chat/complete.ts';
import type { JobState } from '../job/state.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { isRefusal } from '../words/refusal.ts';
import type { Desk } from './desk.ts';

interface UndoView {
  readonly desk: Desk;
  /** Only what concerns this job; null for everything. */
  readonly job: JobState | null;
  readonly at: (when: number) => string;
  readonly called: (id: string) => string | undefined;
}

/** Whoever wants something older back knows its number; each that is looked at costs a look through the whole log. */
const MOST_LOOKED_AT = 60;

/** What can be taken back by its number, the last first: "First coat, Lion head, 14:05, by Dana". */
export function undoOffers(log: readonly NumberedEvent[], state: BenchState, { desk, job, at, called }: UndoView): Offer[] {
  const said = { by: desk.who, at: desk.now, now: desk.now };
  return undoable(log)
    .filter((event) => job === null || jobsOf(event).includes(job.id))
    .slice(-MOST_LOOKED_AT)
    .reverse()
    .filter((event) => !isRefusal(undo(log, { entry: event.seq, at: event.at }, said)))
    .map((event) => {
      const names = jobsOf(event).flatMap((id) => state.jobs.get(id)?.name ?? []);
      const who = called(event.by) ?? event.by;
      return { value: String(event.seq), title: [whatOf(event, state, desk), ...names, at(event.at), `by ${who}`].join(', ') };
    });
}

function jobsOf(event: NumberedEvent): readonly string[] {
  if ('jobs' in event) return event.jobs;
  return 'job' in event && event.job !== null ? [event.job] : [];
}

function whatOf(event: NumberedEvent, state: BenchState, { studio }: Desk): string {
  const step = (job: string, id: string) => state.jobs.get(job)?.steps.find(({ plan }) => plan.id === id)?.plan.title ?? id;
  switch (event.type) {
    case 'StepDone':
      return step(event.job, event.step);
    case 'TackChecked':
      return `${step(event.job, event.step)} touched`;
    case 'MissedWindowDecided':
      return `Decision on ${step(event.job, event.step)}`;
    case 'JobStarted':
      return 'Start of the job';
    case 'JobPlanned':
      return 'When it is planned';
    case 'HandsAsked':
      return 'More hands for its plan';
    case 'NoteAdded':
      return 'Note';
    case 'JobHeld':
      return 'Hold';
    case 'JobResumed':
      return 'End of the hold';
    case 'JobClosed':
      return 'Closing of the job';
    case 'CupStarted':
      return `${event.cup} of ${event.material.name}`;
    case 'CupEnded':
      return `${event.cup} ${event.how}`;
    case 'HandoverOffered':
      return 'Handover';
    case 'HandoverTaken':
      return 'Taking over';
    case 'TemperatureRead':
      return temperatureText(event.celsius, studio.units);
    default:
      return event.type;
  }
}
