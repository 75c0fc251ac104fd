import type { PlannedStep } from '../../job/events.ts';
import { type JobState, nextIndex } from '../../job/state.ts';
import { beginsAt } from '../../job/window.ts';
import type { Conditions } from '../../trade/time/conditions.ts';
import { conditionsOf } from '../conditions.ts';
import { type BenchState, openJobs } from '../fold.ts';
import type { Studio } from '../studio.ts';
import { type Cause, causeOf } from './cause.ts';
import { type Demand, demandOf, longestMinutes, sinceOf } from './demand.ts';
import { interleaved } from './interleave.ts';
import type { JobPlan } from './plan.ts';
import { isUnfit, lastBeginOf, planJob, takenBy, takenNow, type Unfit } from './plan-job.ts';
import { type World, withTaken, worldOf } from './world.ts';

/** All jobs of a bench, planned around each other. */
export interface BenchPlan {
  /** What was planned, and the world before any of it was. */
  readonly demands: readonly Demand[];
  readonly alone: World;
  readonly plans: ReadonlyMap<string, JobPlan>;
  readonly troubles: readonly Trouble[];
  /** The world with the hands of all plans taken: where another job must find its place. */
  readonly world: World;
}

/** That something does not fit any more. */
export interface Trouble {
  readonly job: string;
  readonly name: string;
  /** The step that cannot be done, its id and its title. */
  readonly step: string;
  readonly title: string;
  readonly cause: Cause;
  /** The jobs without which it could be done; empty where it cannot be done even alone. */
  readonly clash: readonly { readonly job: string; readonly name: string }[];
  readonly unfit: Unfit;
}

/** What else is to be thought of. */
interface Beside {
  /** Other temperatures than those of the bench. */
  readonly conditions?: Conditions;
  /** The steps of a job that is to be planned in what is left: how far to look ahead. */
  readonly ahead?: readonly PlannedStep[];
  /** When that is to begin, where it is not now. */
  readonly from?: number;
}

/** Every active job of a bench that can be planned, around the others. */
export function planBench(
  state: BenchState,
  studio: Studio,
  now: number,
  { conditions = conditionsOf(state, studio), ahead = [], from = now }: Beside = {},
): BenchPlan {
  const jobs = openJobs(state).filter(({ status }) => status === 'active');
  const world = worldOf(studio, conditions, {
    now,
    from: sinceOf(jobs, conditions, now),
    begins: Math.max(from, ...jobs.map((job) => Math.max(beginsAt(job), job.planned?.readyBy ?? 0))),
    longestMinutes: Math.max(longestMinutes(ahead), ...jobs.map((job) => longestMinutes(left(job)))),
  });
  const demands = jobs.flatMap((job) => {
    const demand = demandOf(job, world);
    return demand === null || typeof demand === 'string' ? [] : [demand];
  });
  return planTogether(world, demands);
}

const left = (job: JobState) => job.steps.slice(Math.max(0, nextIndex(job) - 1)).map(({ plan }) => plan);

/**
 * Plans one job after the other, each exactly, around those before it. First comes what closes first, then who was there first;
 * where that leaves something without its place, the orders by promise are tried, then whatever was left out is put first, and at
 * last all are planned step by step.
 */
export function planTogether(world: World, demands: readonly Demand[]): BenchPlan {
  const waiting: (readonly Demand[])[] = [
    sorted(demands, closing),
    sorted(sorted(demands, promised), closing),
    sorted(demands, promised),
  ];
  const seen = new Set<string>();
  let best: Ordered | null = null;
  for (let order = waiting.shift(); order && seen.size < MOST_ORDERS; order = waiting.shift()) {
    if (seen.has(keyOf(order))) continue;
    seen.add(keyOf(order));
    const tried = planInOrder(world, order);
    if (best === null || isBetter(tried, best)) best = tried;
    if (best.behind.length === 0) break;
    waiting.push(...withFirst(order, tried.behind));
  }
  const turns = best && best.behind.length > 0 && demands.length <= MOST_IN_TURNS ? interleaved(world, demands) : null;
  const { plans, unfit: left, world: after } = turns ? wholly(world, turns) : (best ?? wholly(world, new Map()));
  const troubles = left.map((unfit, index) => troubleOf(world, demands, plans, unfit, index < MOST_SOUGHT));
  return { demands, alone: world, plans, troubles, world: after };
}

/** So many jobs are planned step by step, where no order of whole jobs serves them all. */
const MOST_IN_TURNS = 8;

const wholly = (world: World, plans: Map<string, JobPlan>): Ordered => ({
  plans,
  unfit: [],
  behind: [],
  world: withTaken(world, [...plans.values()].flatMap(takenBy)),
});

/** What is alike stays in the order in which it was. */
const sorted = (demands: readonly Demand[], by: (demand: Demand) => number): Demand[] =>
  [...demands].sort((a, b) => by(a) - by(b));

/** The orders in which one of those comes first, or all of them do. */
function withFirst(order: readonly Demand[], behind: readonly Demand[]): (readonly Demand[])[] {
  const front = (some: readonly Demand[]) => [...some, ...order.filter((demand) => !some.includes(demand))];
  return [...behind.slice(0, MOST_ALONE).map((one) => front([one])), front(behind)];
}

/** So many of those left out are put first by themselves. */
const MOST_ALONE = 2;

/** Where many jobs want the same hands, no order helps, and an answer must not wait for all of them. */
const MOST_ORDERS = 8;
/** For so many troubles it is looked which job is in the way, and among so many jobs. */
const MOST_SOUGHT = 3;
const MOST_SUSPECTS = 8;

const closing = ({ begin, atHand }: Demand): number => (atHand ? 0 : (begin.until ?? Number.MAX_VALUE));
const promised = ({ readyBy }: Demand): number => readyBy ?? Number.MAX_VALUE;
const keyOf = (order: readonly Demand[]): string => order.map(({ job }) => job).join();

interface Ordered {
  readonly plans: Map<string, JobPlan>;
  readonly unfit: readonly Unfit[];
  /** What found no place, or another than it was to have. */
  readonly behind: readonly Demand[];
  readonly world: World;
}

const isBetter = (one: Ordered, other: Ordered): boolean =>
  one.unfit.length < other.unfit.length || (one.unfit.length === other.unfit.length && one.behind.length < other.behind.length);

function planInOrder(alone: World, order: readonly Demand[]): Ordered {
  // Who is at work now is so whatever becomes of the rest.
  let world = withTaken(alone, order.flatMap(takenNow));
  const plans = new Map<string, JobPlan>();
  const unfit: Unfit[] = [];
  const behind: Demand[] = [];
  for (const demand of order) {
    const place = placeOf(world, demand);
    if (place.unfit) unfit.push(place.unfit);
    if (place.unfit || place.moved) behind.push(demand);
    if (!place.plan) continue;
    plans.set(demand.job ?? '', place.plan);
    world = withTaken(world, takenBy(place.plan).slice(takenNow(demand).length));
  }
  return { plans, unfit, behind, world };
}

interface Place {
  readonly plan: JobPlan | null;
  readonly unfit: Unfit | null;
  /** It begins later than it was to. */
  readonly moved: boolean;
}

/** Where a job finds its place: when it was to begin, else later, else too late for its promise, else sooner. */
function placeOf(world: World, demand: Demand): Place {
  const { wish, begin, readyBy } = demand;
  const wished = wish === null ? null : planJob(world, { ...demand, begin: { from: wish, until: wish } });
  if (wished && !isUnfit(wished)) return { plan: wished, unfit: null, moved: false };
  const from = wish === null ? begin.from : Math.max(wish, begin.from);
  const later = planJob(world, { ...demand, begin: { ...begin, from } });
  if (!isUnfit(later)) return { plan: later, unfit: null, moved: wish !== null };
  // Too late is no reason to leave it lying, nor to begin at a time that nobody agreed to.
  const late = readyBy === null ? later : planJob(world, { ...demand, begin: { ...begin, from }, readyBy: null });
  const found = isUnfit(late) && wish !== null ? lastBefore(world, demand, wish) : late;
  return { plan: isUnfit(found) ? null : { ...found, readyBy }, unfit: later, moved: false };
}

/** What fits no more when it was to begin is begun no sooner than need be. */
function lastBefore(world: World, demand: Demand, wish: number): JobPlan | Unfit {
  const at = lastBeginOf(world, { ...demand, begin: { from: demand.begin.from, until: wish } });
  return planJob(world, at === null ? demand : { ...demand, begin: { from: at, until: at } });
}

function troubleOf(
  world: World,
  demands: readonly Demand[],
  plans: Map<string, JobPlan>,
  found: Unfit,
  isSought: boolean,
): Trouble {
  const { demand } = found;
  const others = withoutJob({ alone: world, demands, plans }, demand.job);
  const [alone, among] = [planJob(world, demand), planJob(others, demand)];
  // With all others around, there is no more room than there was in its turn.
  const [where, unfit] = isUnfit(alone) ? [world, alone] : [others, isUnfit(among) ? among : found];
  return {
    job: demand.job ?? '',
    name: demand.name,
    step: unfit.step.id,
    title: unfit.step.title,
    cause: asPlanned(causeOf(where, unfit), plans.get(demand.job ?? '')),
    clash: isUnfit(alone) ? [] : hindering(world, plans, demand, demands, isSought),
    unfit,
  };
}

/** When it is ready after all, the plan says: with the others at work that may be later than it could be. */
const asPlanned = (cause: Cause, plan: JobPlan | undefined): Cause =>
  cause.kind === 'late' && plan ? { ...cause, readyAt: Math.max(cause.readyAt, plan.readyAt) } : cause;

/** The jobs each of which is in the way; all that have a plan, where only several together are. */
function hindering(world: World, plans: Map<string, JobPlan>, demand: Demand, demands: readonly Demand[], isSought: boolean) {
  const others = demands.filter(({ job }) => job !== demand.job && plans.has(job ?? ''));
  const takenWithout = (left: Demand) =>
    others.filter((each) => each !== left).flatMap(({ job }) => takenBy(plans.get(job ?? '') as JobPlan));
  const suspects = isSought ? others.slice(0, MOST_SUSPECTS) : [];
  const single = suspects.filter((left) => !isUnfit(planJob(withTaken(world, takenWithout(left)), demand)));
  return (single.length > 0 ? single : others).map(({ job, name }) => ({ job: job ?? '', name }));
}

/** The world with the hands taken that all other jobs have, or are to have. */
export const withoutJob = (
  { alone, demands, plans }: Pick<BenchPlan, 'alone' | 'demands' | 'plans'>,
  job: string | null,
): World =>
  withTaken(
    alone,
    demands.flatMap((each) => {
      const plan = plans.get(each.job ?? '');
      return each.job === job ? [] : plan ? takenBy(plan) : takenNow(each);
    }),
  );
