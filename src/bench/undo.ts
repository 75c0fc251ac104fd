import type { JobState } from '../job/state.ts';
import { Refusal } from '../words/refusal.ts';
import { clock, person, say } from '../words/text.ts';
import { type Said, stampOf } from './decide.ts';
import { type BenchEvent, UNDOABLE } from './events.ts';
import type { NumberedEvent } from './fold.ts';

/**
 * What to take back: one entry by its number, the last one of a job, or (null) this person's own last one. An entry may also
 * be named by its time, in milliseconds since the epoch: after a studio was forgotten, numbers begin anew.
 */
export type UndoAsk = { readonly entry: number; readonly at: number | null } | { readonly job: JobState } | null;

/** What may still be taken back, the last at the end. */
export function undoable(log: readonly NumberedEvent[]): NumberedEvent[] {
  const gone = new Set(log.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));
  return log.filter((event) => UNDOABLE.has(event.type) && !gone.has(event.seq));
}

/** Takes back something that was told. */
export function undo(
  log: readonly NumberedEvent[],
  ask: UndoAsk,
  said: Said,
): { events: BenchEvent[]; undone: NumberedEvent } | Refusal {
  const live = undoable(log);
  const by =
    ask && 'entry' in ask
      ? log.find((event) => event.type === 'Undone' && event.target === ask.entry && isThat(log, ask))
      : undefined;
  if (by)
    return new Refusal('already-undone', say`${person(by.by)} took that back already, at ${clock(by.at)}.`, {
      example: '/board',
    });
  const last =
    ask === null
      ? live.findLast((event) => event.by === said.by)
      : live.findLast((event) => ('entry' in ask ? event.seq === ask.entry && isThat(log, ask) : concerns(event, ask.job.id)));
  if (!last)
    return new Refusal(
      'nothing-to-undo',
      ask === null
        ? say`You have logged nothing here that could be taken back.`
        : 'job' in ask
          ? say`There is nothing left to undo on ${ask.job.name}.`
          : say`There is no such entry on this bench that could be taken back.`,
      {
        example: '/board',
      },
    );
  // What another step stands on cannot be pulled out from under it.
  const later = live.find((event) => event.seq > last.seq && standsOn(event, last));
  if (later)
    return new Refusal('not-the-last', say`Something was logged after it, by ${person(later.by)}. Take that back first.`, {
      example: 'job' in last && last.job !== null ? `/undo job:${last.job}` : '/undo',
    });
  const events = [last, ...live.filter((event) => toldAlong(event, last))].map(
    ({ seq }): BenchEvent => ({ ...stampOf(said), type: 'Undone', target: seq }),
  );
  return { events, undone: last };
}

/** The room that a plan counts on is told right before the job, in the same breath. */
const toldAlong = (event: NumberedEvent, job: NumberedEvent): boolean =>
  (job.type === 'JobStarted' || job.type === 'JobPlanned' || job.type === 'HandsAsked') &&
  event.type === 'TemperatureExpected' &&
  event.seq === job.seq - 1 &&
  event.by === job.by &&
  event.enteredAt === job.enteredAt;

const isThat = (log: readonly NumberedEvent[], { entry, at }: { entry: number; at: number | null }): boolean =>
  at === null || log[entry - 1]?.at === at;

const CHAIN: ReadonlySet<BenchEvent['type']> = new Set(['StepDone', 'MissedWindowDecided']);

function standsOn(event: NumberedEvent, ground: NumberedEvent): boolean {
  if (!('job' in ground) || ground.job === null || !concerns(event, ground.job)) return false;
  // The cups of a step that is done were used for it.
  if (ground.type === 'CupStarted') return event.type === 'StepDone' && event.step === ground.step;
  return ground.type === 'JobStarted' || (CHAIN.has(ground.type) && CHAIN.has(event.type));
}

const concerns = (event: NumberedEvent, job: string): boolean =>
  ('job' in event && event.job === job) || ('jobs' in event && event.jobs.includes(job));
