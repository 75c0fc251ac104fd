import type { BenchState } from '../fold.ts';
import type { Studio } from '../studio.ts';
import { type BenchPlan, planBench } from './plan-bench.ts';

/** What a plan depends on beside the state of the bench. */
type Known = Pick<Studio, 'zone' | 'shifts' | 'hands' | 'extras' | 'duty' | 'paces'>;

const known = new WeakMap<BenchState, { readonly studio: Known; readonly plan: BenchPlan }>();

/**
 * The plan as it stood when something was last told: nothing of it depends on what time it is now. Worked out once for each
 * state of a bench.
 */
export function standingPlan(state: BenchState, studio: Studio): BenchPlan {
  const before = known.get(state);
  if (before && same(before.studio, studio)) return before.plan;
  const plan = planBench(state, studio, state.toldAt);
  known.set(state, { studio, plan });
  return plan;
}

const same = (one: Known, other: Known): boolean =>
  one.zone === other.zone &&
  one.shifts === other.shifts &&
  one.hands === other.hands &&
  one.extras === other.extras &&
  one.duty === other.duty &&
  one.paces.size === other.paces.size &&
  [...one.paces].every(([material, { factor }]) => other.paces.get(material)?.factor === factor);
