import type { Demand } from './demand.ts';
import type { JobPlan } from './plan.ts';
import { type BenchPlan, planTogether, withoutJob } from './plan-bench.ts';
import { isUnfit, planJob, type Towards } from './plan-job.ts';
import type { World } from './world.ts';

/** Where a job finds its place on a bench. */
export interface Found {
  readonly plan: JobPlan;
  readonly towards: Towards;
  readonly reserveMinutes: number;
  /** The jobs whose steps must move for it, as they are then. */
  readonly moved: readonly JobPlan[];
}

/** Where so much cannot be had, less is tried. */
const LESS_RESERVE_MINUTES = [20, 10, 5, 0];

/** With the reserve that was wished for; else with what can be had of it. */
function search(world: World, demand: Demand, towards: Towards, wished: number): Found | null {
  for (const reserveMinutes of [wished, ...LESS_RESERVE_MINUTES.filter((minutes) => minutes < wished)]) {
    const plan = planJob(world, demand, towards, reserveMinutes);
    if (!isUnfit(plan)) return { plan, towards, reserveMinutes, moved: [] };
  }
  return null;
}

/** Where a new job finds no place around the others, they may find theirs around it: then it comes as early as it can. */
function squeezedIn(others: BenchPlan, demand: Demand): Found | null {
  if (demand.job !== null || others.troubles.length > 0 || others.demands.length === 0) return null;
  const { begin } = demand;
  const wish = begin.until === begin.from ? begin.from : null;
  const free = { ...demand, wish, begin: { from: others.alone.now, until: null } };
  const all = planTogether(others.alone, [...others.demands, free]);
  const plan = all.plans.get('');
  if (!plan || all.troubles.length > 0 || (wish !== null && plan.steps[0]?.startsAt !== wish)) return null;
  const moved = [...all.plans.values()].filter(({ job, steps }) => {
    const before = job === null ? undefined : others.plans.get(job);
    return before?.steps.some(({ startsAt }, index) => startsAt !== steps[index]?.startsAt) ?? false;
  });
  return { plan, towards: 'early', reserveMinutes: 0, moved };
}

/** Around the others; else with the others around it. */
export const placeFor = (bench: BenchPlan, demand: Demand, towards: Towards, wished: number): Found | null =>
  search(withoutJob(bench, demand.job), demand, towards, wished) ?? squeezedIn(bench, demand);
