import { begunMinute, MINUTE } from '../trade/time/calendar.ts';
import type { Conditions } from '../trade/time/conditions.ts';
import { Refusal } from '../words/refusal.ts';
import { clock, person, say } from '../words/text.ts';
import type { JobEvent, MissedChoice, TackResult } from './events.ts';
import {
  alreadyDone,
  begunLongAgo,
  begunTooSoon,
  notOpenYet,
  outOfOrder,
  stepIndex,
  touchFirst,
  whyNotNow,
  windowMissed,
} from './refusals.ts';
import { type JobState, nextIndex, type StepState } from './state.ts';
import { hasOpened, isMissed, needsTouch, nextWindow, windowOf } from './window.ts';

/** Who says it, when it happened, and what time it is; and what its waits went through. */
export interface Told {
  readonly by: string;
  readonly at: number;
  readonly now: number;
  readonly conditions: Conditions;
}

type Decision = JobEvent[] | Refusal;

const stampOf = ({ by, at, now }: Told, job: JobState) => ({ version: 1 as const, at, enteredAt: now, by, job: job.id });

/** A second "done" this soon after somebody else's is taken for the same step, not for the next one. */
const SAME_STEP_MINUTES = 2;
/** Said of a coat that went on after the end of its window. */
const LATE_REMARK = 'its window was over by the clock, and it was still tacky to the touch';
/** Said of a step that was finished after its window, and begun in it. */
const BEGUN_IN_TIME = 'begun before its window closed';
/** Logged this little before the window opens is no deviation: nobody's watch is that good. */
const EARLY_SLACK_MINUTES = 1;

export interface Done {
  readonly step: string | null;
  readonly note: string | null;
  /** Log it although the window had not opened. */
  readonly early: boolean;
  /** When hands began with it, where that is told: a window that closes over their work was not missed. */
  readonly begun: number | null;
  /** Somebody has said when it was done. */
  readonly whenTold?: boolean;
}

/** A step was finished. */
export function done(job: JobState, { step: typed, note, early, begun, whenTold = false }: Done, told: Told): Decision {
  const target = typed === null ? nextIndex(job) : stepIndex(job, typed);
  if (target instanceof Refusal) return target;
  const step = job.steps[target];
  if (step?.done) return alreadyDone(step, step.done);
  const closed = whyNotNow(job);
  if (closed) return closed;
  if (!step) return new Refusal('nothing-left', say`Every step of ${job.name} is done.`, { example: `/job show job:${job.id}` });
  if (target > nextIndex(job))
    return outOfOrder(job, step, done(job, { step: null, note: null, early: false, begun: null }, told));
  const before = job.steps[target - 1]?.done;
  const impossible = begun === null ? null : cannotHaveBegun(job, step, { begun, before: before?.at ?? null }, told);
  if (impossible) return impossible;
  if (before && told.at < before.at)
    return new Refusal(
      'out-of-order',
      say`${step.plan.title} cannot have been done before ${job.steps[target - 1]?.plan.title ?? ''}, which was at ${clock(before.at)}.`,
      {
        example: `/done job:${job.id} step:${step.plan.id}`,
      },
    );
  const [cup] = step.poured;
  if (cup && told.at < cup.at)
    return new Refusal(
      'out-of-order',
      say`${step.plan.title} cannot have been done before its cup, which was mixed at ${clock(cup.at)}.`,
      { example: `/done job:${job.id} step:${step.plan.id}` },
    );
  const window = windowOf(job, target, told.conditions);
  const since = begun === null ? told.at : Math.min(begun, told.at);
  const tooSoon = window !== null && target > 0 && !hasOpened(window, since + EARLY_SLACK_MINUTES * MINUTE);
  if (tooSoon && !early) {
    if (needsTouch(window)) return touchFirst(job, step, window);
    const isOpen = begun !== null && hasOpened(window, told.at);
    return isOpen ? begunTooSoon(job, step, begun, window.opensAt) : notOpenYet(job, step, window.opensAt);
  }
  if (typed === null && before && before.by !== told.by && told.now - before.enteredAt < SAME_STEP_MINUTES * MINUTE)
    return new Refusal(
      'just-logged',
      say`${job.steps[target - 1]?.plan.title ?? ''} was logged by ${person(before.by)} at ${clock(before.at)}, just now. Next is ${step.plan.title}: name it if you mean that one.`,
      { example: `/done job:${job.id} step:${step.plan.id}` },
    );
  const late = isMissed(job, told.conditions, told.at);
  // A window is told in whole minutes, and closes with its last.
  if (late && (begun === null || isMissed(job, told.conditions, begunMinute(begun))))
    return windowMissed(job, step, window, { ...told, note, mayHaveBegun: begun === null });
  const longAgo = late && begun !== null && !whenTold && told.at === told.now ? begunLongAgo(job, step, begun, told.at) : null;
  if (longAgo) return longAgo;
  const remark =
    window?.why === 'touched-late' && isMissed(untouched(job), told.conditions, told.at)
      ? LATE_REMARK
      : late
        ? BEGUN_IN_TIME
        : null;
  return [
    {
      ...stampOf(told, job),
      type: 'StepDone',
      step: step.plan.id,
      note: [note, remark].filter((each) => each !== null).join('; ') || null,
      offPlan: tooSoon ? 'early' : null,
    },
  ];
}

/** Why hands cannot have begun with it then; null where they can. */
function cannotHaveBegun(
  job: JobState,
  step: StepState,
  { begun, before }: { readonly begun: number; readonly before: number | null },
  { at }: Told,
): Refusal | null {
  const example = `/done job:${job.id} step:${step.plan.id}`;
  const { title } = step.plan;
  if (begun > at)
    return new Refusal('out-of-order', say`${title} was done at ${clock(at)}, so it was not begun at ${clock(begun)}.`, {
      example,
    });
  if (before !== null && begun < before)
    return new Refusal(
      'out-of-order',
      say`${title} cannot have been begun at ${clock(begun)}: the step before it was done at ${clock(before)}.`,
      { example },
    );
  return null;
}

/** The job as the clock alone sees it. */
const untouched = (job: JobState): JobState => ({ ...job, steps: job.steps.map((step) => ({ ...step, check: null })) });

/** Why nobody can have touched the last coat at `at`; null where it can be told. */
export function whyNoCheck(job: JobState, at: number): Refusal | null {
  const closed = whyNotNow(job);
  if (closed) return closed;
  const last = job.steps[nextIndex(job) - 1];
  if (!last?.done || last.plan.wait === null || last.plan.wait.kind === 'fixed')
    return new Refusal(
      'nothing-to-check',
      say`Nothing on ${job.name} is curing that a finger could tell: no coat or shell was logged last.`,
      { example: `/job show job:${job.id}` },
    );
  if (at < last.done.at)
    return new Refusal(
      'out-of-order',
      say`${last.plan.title} was finished at ${clock(last.done.at)}; a check cannot have been before that.`,
      { example: `/check job:${job.id} result:ready` },
    );
  return null;
}

/** Whether the last coat can go past the point at which it takes another one. */
export const hasEnd = (job: JobState): boolean => job.steps[nextIndex(job) - 1]?.plan.wait?.untilMinutes != null;

/** Whether what was laid last cures until it is hard, instead of until it takes another coat. */
export const isCure = (job: JobState): boolean => job.steps[nextIndex(job) - 1]?.plan.wait?.kind === 'cure';

/** Somebody touched the last coat. Refusals: why nobody can have, `no-end`, `not-cured`. */
export function check(job: JobState, result: TackResult, told: Told): Decision {
  const refusal = whyNoCheck(job, told.at);
  if (refusal) return refusal;
  const plan = job.steps[nextIndex(job) - 1]?.plan;
  if (!plan) throw new Error('a coat that can be touched is not on the job');
  if (result === 'past' && !hasEnd(job))
    return new Refusal('no-end', say`${plan.title} cannot be past: its wait has no end. If it is cured, it is ready.`, {
      example: `/check job:${job.id} result:ready`,
    });
  const window = nextWindow(job, told.conditions);
  if (result === 'ready' && plan.wait?.kind === 'cure' && window && !needsTouch(window) && told.at < window.opensAt)
    return new Refusal(
      'not-cured',
      say`Tacky is not cured: ${plan.title} cures until ${clock(window.opensAt)}, so leave it alone. If it is hard right through, also what is left in the last cup, go on with early:yes.`,
      { example: `/done job:${job.id} step:${job.steps[nextIndex(job)]?.plan.id ?? ''} early:yes` },
    );
  return [{ ...stampOf(told, job), type: 'TackChecked', step: plan.id, result }];
}

/** What to do about a missed window: abrade and go on, or scrap the coat that cured too far. */
export function decideMissed(job: JobState, choice: MissedChoice, told: Told): Decision {
  const closed = whyNotNow(job);
  if (closed) return closed;
  const step = job.steps[nextIndex(job)];
  const window = nextWindow(job, told.conditions);
  if (!step || window === null || !isMissed(job, told.conditions, told.now + 1))
    return new Refusal('no-missed-window', say`No window of ${job.name} has been missed, so there is nothing to decide.`, {
      example: '/board',
    });
  return [{ ...stampOf(told, job), type: 'MissedWindowDecided', step: step.plan.id, choice }];
}

/** Why its start cannot be moved any more; null where it can. */
export const begunAlready = (job: JobState): Refusal | null =>
  nextIndex(job) === 0 && job.steps[0]?.poured.length === 0
    ? null
    : new Refusal('begun-already', say`${job.name} has begun: only when it is to be ready can be changed.`, {
        example: `/job plan job:${job.id} ready-by:fri 16:00`,
      });

/** When it is to begin, unless it has, and when it is to be ready; undefined leaves what was said. */
export function plan(
  job: JobState,
  { beginsAt, readyBy }: { readonly beginsAt: number | undefined; readonly readyBy: number | null | undefined },
  told: Told,
): Decision {
  const closed = job.status === 'held' ? null : whyNotNow(job);
  if (closed) return closed;
  const begun = beginsAt === undefined ? null : begunAlready(job);
  if (begun) return begun;
  const planned = {
    beginsAt: beginsAt ?? job.planned?.beginsAt ?? job.startedAt,
    readyBy: readyBy === undefined ? (job.planned?.readyBy ?? null) : readyBy,
  };
  if (planned.beginsAt === job.planned?.beginsAt && planned.readyBy === job.planned.readyBy)
    return new Refusal('nothing-to-change', say`${job.name} is planned like that already.`, { example: `/plan job:${job.id}` });
  return [{ ...stampOf(told, job), type: 'JobPlanned', ...planned, extras: [] }];
}

export const addNote = (job: JobState, text: string, told: Told): Decision => [
  { ...stampOf(told, job), type: 'NoteAdded', text },
];

export function hold(job: JobState, reason: string | null, told: Told): Decision {
  if (job.status === 'held')
    return new Refusal('on-hold', say`${job.name} is on hold already.`, { example: `/job resume job:${job.id}` });
  return whyNotNow(job) ?? [{ ...stampOf(told, job), type: 'JobHeld', reason }];
}

export function resume(job: JobState, told: Told): Decision {
  if (job.status !== 'held')
    return new Refusal('not-on-hold', say`${job.name} is not on hold.`, {
      example: `/job hold job:${job.id} text:waiting for silicone`,
    });
  return [{ ...stampOf(told, job), type: 'JobResumed' }];
}

export function close(job: JobState, text: string | null, told: Told): Decision {
  if (job.status === 'closed') return new Refusal('job-closed', say`${job.name} is closed already.`, { example: '/job list' });
  return [{ ...stampOf(told, job), type: 'JobClosed', text }];
}
