import type { PlannedStep } from '../../job/events.ts';
import { type JobState, nextIndex } from '../../job/state.ts';
import type { Conditions } from '../../trade/time/conditions.ts';
import { conditionsOf } from '../conditions.ts';
import { type BenchState, openJobs } from '../fold.ts';
import type { Studio } from '../studio.ts';
import { type Cause, causeOf } from './cause.ts';
import { type Demand, demandOf, longestMinutes, sinceOf } from './demand.ts';
import type { JobPlan } from './plan.ts';
import { isUnfit, planJob, takenBy, takenNow, type Unfit } from './plan-job.ts';
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
}

/** Every active job of a bench that can be planned, around the others. */
export function planBench(
  state: BenchState,
  studio: Studio,
  now: number,
  { conditions = conditionsOf(state, studio), ahead = [] }: Beside = {},
): BenchPlan {
  const jobs = openJobs(state).filter(({ status }) => status === 'active');
  const world = worldOf(studio, conditions, {
    now,
    from: sinceOf(jobs, conditions, now),
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
 * Plans one job after the other, each exactly, around those before it. First comes what closes first; whatever then finds no
 * place goes to the front, and all is planned anew, as long as that leaves fewer out.
 */
export function planTogether(world: World, demands: readonly Demand[]): BenchPlan {
  let order = [...demands].sort((a, b) => closing(a) - closing(b) || a.begin.from - b.begin.from);
  let best = planInOrder(world, order);
  const seen = new Set([keyOf(order)]);
  while (best.unfit.length > 0) {
    const behind = best.unfit.map(({ demand }) => demand);
    order = [...behind, ...order.filter((demand) => !behind.includes(demand))];
    if (seen.has(keyOf(order))) break;
    seen.add(keyOf(order));
    const next = planInOrder(world, order);
    if (next.unfit.length <= best.unfit.length) best = next;
  }
  const troubles = best.unfit.map((unfit) => troubleOf(world, demands, best, unfit));
  return { demands, alone: world, plans: best.plans, troubles, world: best.world };
}

const closing = ({ begin, atHand }: Demand): number => (atHand ? 0 : (begin.until ?? Number.POSITIVE_INFINITY)) || 0;
const keyOf = (order: readonly Demand[]): string => order.map(({ job }) => job).join();

interface Ordered {
  readonly plans: Map<string, JobPlan>;
  readonly unfit: readonly Unfit[];
  readonly world: World;
}

function planInOrder(alone: World, order: readonly Demand[]): Ordered {
  let world = withTaken(alone, order.flatMap(takenNow));
  const plans = new Map<string, JobPlan>();
  const unfit: Unfit[] = [];
  for (const demand of order) {
    const plan = planJob(world, demand);
    if (isUnfit(plan)) unfit.push(plan);
    // Too late is no reason to leave it lying.
    const planned = isUnfit(plan) && demand.readyBy !== null ? planJob(world, { ...demand, readyBy: null }) : plan;
    if (isUnfit(planned)) continue;
    plans.set(demand.job ?? '', { ...planned, readyBy: demand.readyBy });
    world = withTaken(world, takenBy(planned).slice(takenNow(demand).length));
  }
  return { plans, unfit, world };
}

function troubleOf(world: World, demands: readonly Demand[], { plans, world: full }: Ordered, { demand }: Unfit): Trouble {
  const alone = planJob(world, demand);
  const among = planJob(full, demand);
  const unfit = isUnfit(alone) ? alone : (among as Unfit);
  const clash = isUnfit(alone) ? [] : hindering(world, plans, demand, demands);
  const { step } = unfit;
  return {
    job: demand.job ?? '',
    name: demand.name,
    step: step.id,
    title: step.title,
    cause: causeOf(isUnfit(alone) ? world : full, unfit),
    clash,
    unfit,
  };
}

/** The jobs each of which is in the way; all that have a plan, where only several together are. */
function hindering(world: World, plans: Map<string, JobPlan>, demand: Demand, demands: readonly Demand[]) {
  const others = demands.filter(({ job }) => plans.has(job ?? ''));
  const takenWithout = (left: Demand) =>
    others.filter((each) => each !== left).flatMap(({ job }) => takenBy(plans.get(job ?? '') as JobPlan));
  const single = others.filter((left) => !isUnfit(planJob(withTaken(world, takenWithout(left)), demand)));
  return (single.length > 0 ? single : others).map(({ job, name }) => ({ job: job ?? '', name }));
}

/** The world with the hands of all plans but that of one job taken. */
export const withoutJob = ({ alone, plans }: BenchPlan, job: string): World =>
  withTaken(
    alone,
    [...plans].flatMap(([id, plan]) => (id === job ? [] : takenBy(plan))),
  );
