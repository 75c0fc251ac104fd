import { DAY, MINUTE } from '../../trade/time/calendar.ts';
import type { BenchState } from '../fold.ts';
import type { Studio } from '../studio.ts';
import { type Cause, causeOf } from './cause.ts';
import type { Demand } from './demand.ts';
import { type BenchPlan, planBench, type Trouble } from './plan-bench.ts';
import { isUnfit, planJob, takenNow } from './plan-job.ts';
import { lastTold, standingPlan } from './standing.ts';
import { type World, withTaken } from './world.ts';

/** By when the next step of a job must begin, in milliseconds since the epoch, and what becomes of it later. */
export interface LastCall {
  readonly job: string;
  readonly step: string;
  readonly by: number;
  readonly later: Later;
}

export type Later =
  /** This step of the job fits no more, by itself. */
  | { readonly kind: 'misfit'; readonly title: string; readonly cause: Cause }
  /** All still fits, but only from then on. */
  | { readonly kind: 'waits'; readonly startsAt: number; readonly readyAt: number }
  /** The hands do no longer for another job's step, or for its own beside another's. */
  | { readonly kind: 'clash'; readonly trouble: Trouble };

/** Among so many jobs, and for so long, it is looked whether two come to want the same hands: an answer must not wait for it. */
const MOST_JOBS = 6;
const MOST_LIMITS = 3;
const MOST_AHEAD = DAY;

const known = new WeakMap<BenchPlan, readonly LastCall[]>();

/**
 * The last calls of a bench as it stood when something was last told: each depends on that alone, not on what time it is now.
 * What a job must do by itself is reckoned with nobody else at work, since the others can make way; where they cannot, two jobs
 * come to clash, and the one that goes first must begin by then.
 */
export function lastCalls(state: BenchState, studio: Studio): readonly LastCall[] {
  const bench = standingPlan(state, studio);
  const before = known.get(bench);
  if (before) return before;
  const own = bench.demands.flatMap((demand) => ownCalls(bench, demand));
  const clash = firstClash(bench, own, (at) => planBench(state, studio, at), lastTold(state, studio));
  const calls = clash === null ? own : [...own.filter(({ job, by }) => job !== clash.job || by < clash.by), clash];
  known.set(bench, calls);
  return calls;
}

/** What waits for a later shift must begin by then, and so on: what nobody answers is called for so many times. */
const MOST_CALLS = 5;

function ownCalls(bench: BenchPlan, demand: Demand): LastCall[] {
  const plan = bench.plans.get(demand.job ?? '');
  const start = plan?.steps.find(({ step }) => step === demand.steps[0]?.id)?.startsAt;
  if (!plan || start === undefined || demand.atHand !== null || demand.job === null) return [];
  // A promise that is broken already presses nobody any more.
  const readyBy = demand.readyBy !== null && plan.readyAt > demand.readyBy ? null : demand.readyBy;
  const world = withTaken(bench.alone, bench.demands.filter((each) => each !== demand).flatMap(takenNow));
  const { until } = demand.begin;
  const asked = { ...demand, readyBy, wish: null };
  const calls: LastCall[] = [];
  for (let from: number | null = start; from !== null && calls.length < MOST_CALLS; ) {
    const alone = planJob(world, { ...asked, begin: { from, until } });
    const [first] = isUnfit(alone) ? [] : alone.steps;
    if (!first || first.latestAt === null) break;
    // Then its own window is what closes.
    if (until !== null && first.latestAt + MINUTE > until) break;
    const later = laterOf(world, { ...asked, begin: { from: first.latestAt + MINUTE, until } });
    calls.push({ job: demand.job, step: first.step, by: first.latestAt, later });
    from = later.kind === 'waits' ? later.startsAt : null;
  }
  return calls;
}

function laterOf(world: World, demand: Demand): Later {
  const late = planJob(world, demand);
  if (isUnfit(late)) return { kind: 'misfit', title: late.step.title, cause: causeOf(world, late) };
  return { kind: 'waits', startsAt: late.steps[0]?.startsAt ?? demand.begin.from, readyAt: late.readyAt };
}

/** When two jobs first come to clash if nothing is told until then; found to the minute between the limits of the jobs. */
function firstClash(
  bench: BenchPlan,
  own: readonly LastCall[],
  planAt: (at: number) => BenchPlan,
  toldAt: number,
): LastCall | null {
  if (bench.demands.length < 2 || bench.demands.length > MOST_JOBS || bench.troubles.some(({ clash }) => clash.length > 0))
    return null;
  const inTrouble = new Set(bench.troubles.map(({ job }) => job));
  const clashAt = (at: number) => planAt(at).troubles.find(({ job, clash }) => clash.length > 0 && !inTrouble.has(job));
  let good = Math.ceil(toldAt / MINUTE) * MINUTE;
  for (const limit of limitsOf(bench, own, good)) {
    let trouble = clashAt(limit);
    if (!trouble) {
      good = limit;
      continue;
    }
    let bad = limit;
    while (bad - good > MINUTE) {
      const middle = good + Math.floor((bad - good) / MINUTE / 2) * MINUTE;
      const found = clashAt(middle);
      if (found) [bad, trouble] = [middle, found];
      else good = middle;
    }
    return callOf(trouble, planAt(good));
  }
  return null;
}

/** The last moments at which the next steps of the jobs can begin by themselves, earliest first. */
function limitsOf({ demands }: BenchPlan, own: readonly LastCall[], after: number): number[] {
  const closing = demands.flatMap(({ begin, atHand }) => (atHand === null && begin.until !== null ? [begin.until] : []));
  const whole = [...closing, ...own.map(({ by }) => by)].map((at) => Math.floor(at / MINUTE) * MINUTE);
  return [...new Set(whole)]
    .filter((at) => at > after && at - after <= MOST_AHEAD)
    .sort((a, b) => a - b)
    .slice(0, MOST_LIMITS);
}

/** Of those who come to clash, whoever begins first must. */
function callOf(trouble: Trouble, { plans }: BenchPlan): LastCall | null {
  const [first] = [trouble.job, ...trouble.clash.map(({ job }) => job)]
    .map((job) => plans.get(job))
    .filter((plan) => plan !== undefined)
    .sort((a, b) => (a.steps[0]?.startsAt ?? 0) - (b.steps[0]?.startsAt ?? 0));
  const next = first?.steps[0];
  if (!first || !next || first.job === null) return null;
  return { job: first.job, step: next.step, by: next.startsAt, later: { kind: 'clash', trouble } };
}
