import type { BenchState } from '../fold.ts';
import { type Staffing, type Studio, sameStaffing } from '../studio.ts';
import { type BenchPlan, planBench } from './plan-bench.ts';

/** What a plan depends on beside the state of the bench. */
type Known = Staffing & Pick<Studio, 'paces'>;

interface Planned {
  readonly studio: Known;
  readonly now: number;
  readonly plan: BenchPlan;
}

/** Of each state of a bench, the plan as it stood, and the last one that was asked for. */
const standing = new WeakMap<BenchState, Planned>();
const asked = new WeakMap<BenchState, Planned>();

/** The plan as it stood when something was last told: nothing of it depends on what time it is now. */
export const standingPlan = (state: BenchState, studio: Studio): BenchPlan =>
  planned(standing, state, studio, lastTold(state, studio));

/** When the bench, or the studio of who is there, was last told anything; milliseconds since the epoch. */
export const lastTold = ({ toldAt }: BenchState, { staffingToldAt }: Studio): number => Math.max(toldAt, staffingToldAt);

/** The plan as it is now. Cards ask for it again and again. */
export const planNow = (state: BenchState, studio: Studio, now: number): BenchPlan =>
  now === lastTold(state, studio) ? standingPlan(state, studio) : planned(asked, state, studio, now);

function planned(known: WeakMap<BenchState, Planned>, state: BenchState, studio: Studio, now: number): BenchPlan {
  const before = known.get(state);
  if (before && before.now === now && same(before.studio, studio)) return before.plan;
  const plan = planBench(state, studio, now);
  known.set(state, { studio, now, plan });
  return plan;
}

const same = (one: Known, other: Known): boolean =>
  sameStaffing(one, other) &&
  one.paces.size === other.paces.size &&
  [...one.paces].every(([material, { factor }]) => other.paces.get(material)?.factor === factor);
