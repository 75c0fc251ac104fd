import { linkOf } from '../../job/chain.ts';
import type { PlannedStep } from '../../job/events.ts';
import { type JobState, nextIndex } from '../../job/state.ts';
import { atWork, isMissed, lastCall, needsTouch, nextWindow } from '../../job/window.ts';
import { MINUTE } from '../../trade/time/calendar.ts';
import type { Conditions } from '../../trade/time/conditions.ts';
import type { World } from './world.ts';

/** What is to be planned of one job; instants in milliseconds since the epoch. */
export interface Demand {
  /** Null: it has not begun. */
  readonly job: string | null;
  readonly name: string;
  /** All that is to be planned, in order; at least one. */
  readonly steps: readonly PlannedStep[];
  /** The first of them begins within. */
  readonly begin: { readonly from: number; readonly until: number | null };
  /** When the first of them is to begin where that can be, and it has not begun; null: as soon as may be. */
  readonly wish: number | null;
  readonly readyBy: number | null;
  /** The step that hands are at, and until when they are taken to be; it is not among `steps`. */
  readonly atHand: { readonly step: PlannedStep; readonly from: number; readonly until: number } | null;
}

/** Why a job cannot be planned before somebody has looked. */
export type NotYet = 'missed' | 'touch';

/** What is still to be planned of a job that runs; null where nothing is. */
export function demandOf(job: JobState, { now, clocks }: Pick<World, 'now' | 'clocks'>): Demand | NotYet | null {
  const { conditions } = clocks;
  const window = nextWindow(job, conditions);
  const index = nextIndex(job);
  const next = job.steps[index];
  if (window === null || !next) return null;
  if (isMissed(job, conditions, now)) return 'missed';
  if (needsTouch(window)) return 'touch';
  const steps = job.steps.slice(index).map(({ plan }) => plan);
  const about = { job: job.id, name: job.name, readyBy: job.planned?.readyBy ?? null };
  if (atWork(job, now)) {
    // A cup that is mixed a little before its window waits for it in the hand.
    const from = Math.max(next.poured[0]?.at ?? now, index === 0 ? 0 : window.opensAt);
    const until = Math.max(now, from + next.plan.handsMinutes * MINUTE);
    const { wait } = linkOf(next.plan, clocks);
    const end = Math.ceil(until / MINUTE);
    const closes = wait?.closes(end) ?? Number.POSITIVE_INFINITY;
    return {
      ...about,
      steps: steps.slice(1),
      wish: null,
      begin: { from: (wait?.opens(end) ?? end) * MINUTE, until: closes === Number.POSITIVE_INFINITY ? null : closes * MINUTE },
      atHand: { step: next.plan, from, until },
    };
  }
  // A job that has not begun may begin sooner than it was planned to.
  const opensAt = index === 0 ? job.startedAt : window.opensAt;
  const wish = index === 0 && job.planned !== null && job.planned.beginsAt >= now ? job.planned.beginsAt : null;
  return { ...about, steps, wish, begin: { from: Math.max(now, opensAt), until: lastCall(job, window) }, atHand: null };
}

/** The earliest instant whose temperature still matters to these jobs. */
export const sinceOf = (jobs: readonly JobState[], conditions: Conditions, now: number): number =>
  Math.min(now, ...jobs.map((job) => nextWindow(job, conditions)?.opensAt ?? now), ...jobs.flatMap((job) => lastDone(job)));

const lastDone = (job: JobState): number[] => {
  const done = job.steps[nextIndex(job) - 1]?.done;
  return done ? [done.at] : [];
};

/** What the waits of all steps take together, in minutes of their data sheets. */
export const longestMinutes = (steps: readonly PlannedStep[]): number =>
  steps.reduce((sum, { wait }) => sum + (wait?.untilMinutes ?? wait?.fromMinutes ?? 0), 0);
