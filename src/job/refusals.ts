import { MINUTE } from '../trade/time/calendar.ts';
import { named, nearest } from '../words/nearest.ts';
import { Refusal, type Way } from '../words/refusal.ts';
import { clock, joined, person, say } from '../words/text.ts';
import { isOpen, type JobState, nextIndex, type StepState } from './state.ts';
import { fingerMayOpen, type Window } from './window.ts';

/** Why something cannot be told of a job just now, and what can be done instead. */

export function whyNotNow(job: JobState): Refusal | null {
  if (job.status === 'held')
    return new Refusal('on-hold', say`${job.name} is on hold. Take it up again first.`, {
      ways: [{ label: 'Resume', command: 'job resume', options: { job: job.id } }],
      example: `/job resume job:${job.id}`,
    });
  if (!isOpen(job))
    return new Refusal('job-closed', say`${job.name} is ${job.status === 'finished' ? 'finished' : 'closed'}.`, {
      example: '/job list',
    });
  return null;
}

export function stepIndex(job: JobState, typed: string): number | Refusal {
  const ids = job.steps.map((step) => step.plan.id);
  const titles = job.steps.map((step) => step.plan.title);
  const found = ids.indexOf(named(typed, ids) ?? '');
  const titled = found === -1 ? titles.indexOf(named(typed, titles) ?? '') : found;
  if (titled !== -1) return titled;
  const near = nearStep(typed, job.steps);
  const listed = (near.length > 0 ? near : job.steps).map(({ plan }) => say`${plan.title}`);
  return new Refusal(
    'unknown-step',
    say`Expected a step of ${job.name}, got “${typed}”. ${near.length > 0 ? say`Did you mean ${joined(listed, ', ', ' or ')}?` : say`Its steps are ${joined(listed, ', ', ' and ')}.`}`,
    {
      example: `/done job:${job.id} step:${near[0]?.plan.id ?? ids[nextIndex(job)] ?? ids[0]}`,
    },
  );
}

/** The steps whose id or title looks like a slip of what was typed. */
function nearStep(typed: string, steps: readonly StepState[]): StepState[] {
  const byId = nearest(
    typed,
    steps.map(({ plan }) => plan.id),
  ).flatMap((id) => steps.find(({ plan }) => plan.id === id) ?? []);
  const byTitle = nearest(
    typed,
    steps.map(({ plan }) => plan.title),
  ).flatMap((title) => steps.find(({ plan }) => plan.title === title) ?? []);
  const near = [...new Set([...byId, ...byTitle])];
  // What is done already was hardly meant.
  return [...near.filter(({ done }) => !done), ...near.filter(({ done }) => done)].slice(0, 3);
}

export const alreadyDone = (step: StepState, mark: { by: string; at: number }) =>
  new Refusal(
    'already-done',
    say`${step.plan.title} was already logged: by ${person(mark.by)}, done at ${clock(mark.at)}. Nothing was changed.`,
    { example: '/board' },
  );

/** `first`: what comes of logging the step that is next. */
export function outOfOrder(job: JobState, step: StepState, first: readonly unknown[] | Refusal): Refusal {
  const next = job.steps[nextIndex(job)]?.plan;
  return new Refusal(
    'out-of-order',
    say`${step.plan.title} comes after ${next?.title ?? ''}, which is not logged yet. Log that first, backdated if need be.`,
    {
      // That one may have to wait for its own time.
      example: (first instanceof Refusal ? first.example : undefined) ?? `/done job:${job.id} step:${next?.id ?? ''}`,
    },
  );
}

export function notOpenYet(job: JobState, step: StepState, opensAt: number): Refusal {
  const before = job.steps[nextIndex(job) - 1];
  const coat = before?.plan.wait?.kind === 'recoat';
  return new Refusal(
    'too-soon',
    say`${before?.plan.title ?? ''} was logged by ${person(before?.done?.by ?? '')}, done at ${clock(before?.done?.at ?? 0)}. ${step.plan.title} opens at ${clock(opensAt)}. If it is done all the same, say so with early:yes${coat ? '; if the coat feels ready now, log a tack check first' : ''}.`,
    { example: `/done job:${job.id} step:${step.plan.id} early:yes` },
  );
}

/** Nobody can tell when the step opens: the finger must. */
export function touchFirst(job: JobState, step: StepState, window: Window): Refusal {
  const before = job.steps[nextIndex(job) - 1]?.plan;
  return new Refusal(
    'touch-first',
    say`The bench was too cold or too warm for ${before?.material?.name ?? ''} at ${clock(window.outside?.at ?? 0)}: no clock can tell when ${step.plan.title} may go on. Touch it and log what you find, or say early:yes if it is done all the same.`,
    {
      ways: [
        { label: 'It is ready', command: 'check', options: { job: job.id, result: 'ready' } },
        { label: 'Not yet', command: 'check', options: { job: job.id, result: 'not-yet' } },
      ],
      example: `/check result:ready job:${job.id}`,
    },
  );
}

/** It is open, and was not yet when hands are said to have begun. */
export const begunTooSoon = (job: JobState, { plan }: StepState, begun: number, opensAt: number): Refusal =>
  new Refusal(
    'too-soon',
    say`${plan.title} opened at ${clock(opensAt)}, and is said to be begun at ${clock(begun)}. If it is so all the same, say so with early:yes.`,
    { example: `/done job:${job.id} step:${plan.id} early:yes` },
  );

export function missedWays(job: JobState) {
  return [
    { label: 'Abrade and go on', command: 'missed', options: { job: job.id, choice: 'abrade' } },
    { label: 'Scrap the coat', command: 'missed', options: { job: job.id, choice: 'scrap' } },
  ];
}

/** A `done` as it was told; `mayHaveBegun`: nobody has said when hands began with it. */
interface LateDone {
  readonly at: number;
  readonly now: number;
  readonly note: string | null;
  readonly mayHaveBegun: boolean;
}

/** The step was done after its window. With a button for hands that were at it, where their time reaches back into the window. */
export function windowMissed(job: JobState, step: StepState, window: Window | null, told: LateDone): Refusal {
  const { at, now, note, mayHaveBegun } = told;
  const inTime = mayHaveBegun ? begunInTime(job, step, window, { at, now }) : null;
  return new Refusal(
    'window-missed',
    say`The window for ${step.plan.title} closed at ${clock(window?.closesAt ?? now)}, so it will not bond by itself. Decide: abrade and go on, or scrap the coat. If it went on in time, log it with the time it did${inTime ? ', or say that it was begun in time' : ''}${fingerMayOpen(job, window) ? '; if it is still tacky, log a tack check first' : ''}.`,
    {
      ways: [
        ...missedWays(job),
        ...(inTime ? [{ ...inTime, options: { ...inTime.options, ...(note === null ? {} : { note }) } }] : []),
      ],
      example: `/missed choice:abrade job:${job.id}`,
    },
  );
}

/**
 * To log a step as done that was begun before its window closed; null where hands that are done with it at `at` will not have
 * begun by then. Whoever poured a cup began with it, and was done before it set.
 */
export function begunInTime(
  job: JobState,
  { plan, poured }: StepState,
  window: Window | null,
  { at, now }: { readonly at: number; readonly now: number },
): Way | null {
  if (window === null || window.closesAt === null || window.why === 'touched-past') return null;
  const { closesAt } = window;
  const cup = poured.find((each) => each.at <= closesAt);
  if (!cup && at - longestFor(plan) > closesAt) return null;
  const done = cup ? Math.min(at, cup.until) : at;
  return {
    label: 'Done, begun in time',
    command: 'done',
    options: {
      job: job.id,
      step: plan.id,
      // A cup that is mixed a little before its window waits for it in the hand.
      begun: iso(cup ? Math.max(cup.at, window.opensAt) : closesAt),
      // Without a cup it is done when that is said.
      ...(done === now && !cup ? {} : { at: iso(done) }),
    },
  };
}

/** Whoever is slow, or was called away, may take twice as long for a step, or half an hour more; not an afternoon. */
const longestFor = ({ handsMinutes }: StepState['plan']): number => Math.max(2 * handsMinutes, handsMinutes + 30) * MINUTE;

/** It was begun in time, and is said to be done only now, long after; null where that may be. */
export function begunLongAgo(job: JobState, { plan }: StepState, begun: number, at: number): Refusal | null {
  if (at - begun <= longestFor(plan)) return null;
  const done = begun + plan.handsMinutes * MINUTE;
  const ago = (moment: number) => `${Math.round((at - moment) / MINUTE)}m ago`;
  return new Refusal(
    'begun-long-ago',
    say`${plan.title} takes ${plan.handsMinutes} min of hands, and was begun at ${clock(begun)}: say when it was done.`,
    {
      example: `/done job:${job.id} step:${plan.id} begun:${ago(begun)} at:${ago(done)}`,
      ways: [
        {
          label: `It was done ${Math.round((at - done) / MINUTE)} min ago`,
          command: 'done',
          options: { job: job.id, step: plan.id, begun: iso(begun), at: iso(done) },
        },
      ],
    },
  );
}

/** Rounded down, so that a window's last moment stays in it. */
const iso = (at: number) => new Date(Math.floor(at / 1000) * 1000).toISOString();
