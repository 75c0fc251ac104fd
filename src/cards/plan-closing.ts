import type { BenchState } from '../bench/fold.ts';
import { causeOf } from '../bench/planning/cause.ts';
import { withoutJob } from '../bench/planning/plan-bench.ts';
import { isUnfit, planJob } from '../bench/planning/plan-job.ts';
import { standingPlan } from '../bench/planning/standing.ts';
import type { Studio } from '../bench/studio.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, say, type Text } from '../words/text.ts';
import { causeText } from './plan-trouble.ts';

/** By when the next step of a job must begin, and what does not fit any more if it does not; null where nothing presses. */
export function planCloses(job: string, state: BenchState, studio: Studio): { readonly by: number; readonly why: Text } | null {
  const bench = standingPlan(state, studio);
  const demand = bench.demands.find((each) => each.job === job);
  const by = bench.plans.get(job)?.steps[0]?.latestAt ?? null;
  if (!demand || by === null) return null;
  const world = withoutJob(bench, job);
  const late = planJob(world, { ...demand, begin: { from: by + MINUTE, until: demand.begin.until } });
  if (!isUnfit(late)) return null;
  const cause = causeOf(world, late);
  if (cause.kind === 'late') return { by, why: say`it is not ready by ${clock(cause.readyBy)}.` };
  return { by, why: say`the rest does not fit. ${causeText(late.step.title, cause, studio)}` };
}
