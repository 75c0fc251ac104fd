import { type JobState, nextStep } from '../../job/state.ts';
import { nextWindow } from '../../job/window.ts';
import { MINUTE } from '../../trade/time/calendar.ts';
import { type Cause, causeOf } from './cause.ts';
import { type BenchPlan, withoutJob } from './plan-bench.ts';
import { isUnfit, planJob } from './plan-job.ts';

/** That the next step of a job is to wait longer than its window asks. */
export interface PlannedLater {
  /** When it is planned, in milliseconds since the epoch. */
  readonly at: number;
  /** Why it cannot be done sooner; null where it could, and is wanted later. */
  readonly why: { readonly step: string; readonly title: string; readonly cause: Cause } | null;
  /** Begun sooner, what comes after it finds no place. */
  readonly breaks: boolean;
}

/** What differs by less is the same to whoever works. */
const A_LITTLE = 5 * MINUTE;

/**
 * Where a plan has the next step of a job begin later than its window would let it; null where it does not. Null where no shifts
 * are kept, too: then no plan knows when somebody is there.
 */
export function plannedLater(bench: BenchPlan, job: JobState): PlannedLater | null {
  const known = found.get(bench) ?? new Map<JobState, PlannedLater | null>();
  found.set(bench, known);
  const before = known.get(job);
  if (before !== undefined) return before;
  const later = sought(bench, job);
  known.set(job, later);
  return later;
}

/** A card asks for it several times. */
const found = new WeakMap<BenchPlan, Map<JobState, PlannedLater | null>>();

function sought(bench: BenchPlan, job: JobState): PlannedLater | null {
  const demand = bench.demands.find((each) => each.job === job.id);
  const [first] = bench.plans.get(job.id)?.steps ?? [];
  if (bench.world.staffed === null || !demand || !first || demand.atHand !== null || first.step !== nextStep(job)?.plan.id)
    return null;
  const from = Math.max(demand.begin.from, nextWindow(job, bench.world.clocks.conditions)?.opensAt ?? 0);
  if (first.startsAt - from < A_LITTLE) return null;
  const world = withoutJob(bench, job.id);
  const sooner = planJob(world, { ...demand, begin: { from, until: first.startsAt - MINUTE } });
  if (!isUnfit(sooner)) return { at: first.startsAt, why: null, breaks: false };
  const { id, title } = sooner.step;
  return { at: first.startsAt, why: { step: id, title, cause: causeOf(world, sooner) }, breaks: id !== first.step };
}
