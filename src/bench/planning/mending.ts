import { MINUTE } from '../../trade/time/calendar.ts';
import { type Change, nearestChanges, withHands, withRoomAt } from './changes.ts';
import { type BenchPlan, planTogether, type Trouble, withoutJob } from './plan-bench.ts';
import type { World } from './world.ts';

/** The nearest changes that would each do for a job that is entered already: made for real, they bring no other into trouble. */
export function changesThatMend(trouble: Trouble, plan: BenchPlan): Change[] {
  const had = new Set(plan.troubles.map(({ job }) => job));
  had.delete(trouble.job);
  return nearestChanges(withoutJob(plan, trouble.job), trouble.unfit, (change) => {
    const world = madeReal(plan.alone, change);
    // Another start, or another promise, is the job's own: it is planned around the others as they are.
    return world === null || planTogether(world, plan.demands).troubles.every(({ job }) => had.has(job));
  });
}

function madeReal(world: World, change: Change): World | null {
  switch (change.kind) {
    case 'hands':
      return withHands(world, change.from / MINUTE, change.until / MINUTE);
    case 'room':
      return withRoomAt(world, change.celsius);
    default:
      return null;
  }
}
