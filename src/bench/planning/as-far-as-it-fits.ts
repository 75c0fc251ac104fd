import type { JobPlan } from './plan.ts';
import { type BenchPlan, type Trouble, withoutJob } from './plan-bench.ts';
import { isUnfit, planJob } from './plan-job.ts';

/**
 * The steps of a job that still have a time, before the one that does not fit; null where none has. None of them has a latest
 * time: nothing is known of what follows.
 */
export function asFarAsItFits(bench: BenchPlan, { job, step, unfit: { demand } }: Trouble): JobPlan | null {
  const world = withoutJob(bench, job);
  for (let count = demand.steps.findIndex(({ id }) => id === step); count > 0; count -= 1) {
    const plan = planJob(world, { ...demand, steps: demand.steps.slice(0, count), readyBy: null });
    if (!isUnfit(plan)) return { ...plan, steps: plan.steps.map((time) => ({ ...time, latestAt: null })) };
  }
  return null;
}
