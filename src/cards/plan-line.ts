import type { BenchState } from '../bench/fold.ts';
import { causeOf } from '../bench/planning/cause.ts';
import { withoutJob } from '../bench/planning/plan-bench.ts';
import { isUnfit, planJob } from '../bench/planning/plan-job.ts';
import { standingPlan } from '../bench/planning/standing.ts';
import type { Studio } from '../bench/studio.ts';
import { type JobState, nextStep } from '../job/state.ts';
import { nextWindow } from '../job/window.ts';
import { HOUR, MINUTE } from '../trade/time/calendar.ts';
import { clock, say, strong, type Text } from '../words/text.ts';
import { planCloses } from './plan-closing.ts';
import { causeText } from './plan-trouble.ts';

interface Seen {
  readonly state: BenchState;
  readonly studio: Studio;
}

/** What differs by less is the same to whoever works. */
const A_LITTLE = 5 * MINUTE;
/** What is further off presses nobody. */
const SOON = 12 * HOUR;

/**
 * Where the plan knows better than the window alone: that the next step is to wait, and why, or by when it must begin so that
 * the rest fits. Nothing where no shifts are kept: then no plan knows when somebody is there.
 */
export function planLine(job: JobState, { state, studio }: Seen): Text[] {
  const bench = standingPlan(state, studio);
  const demand = bench.demands.find((each) => each.job === job.id);
  const [first] = bench.plans.get(job.id)?.steps ?? [];
  const step = nextStep(job);
  if (bench.world.staffed === null || !demand || !first || demand.atHand !== null || first.step !== step?.plan.id) return [];
  const window = nextWindow(job, bench.world.clocks.conditions);
  const from = Math.max(demand.begin.from, state.toldAt, window?.opensAt ?? 0);
  if (first.startsAt - from < A_LITTLE) return begunBy(job, { state, studio });
  const sooner = planJob(withoutJob(bench, job.id), {
    ...demand,
    begin: { from, until: first.startsAt - MINUTE },
  });
  const at = say`As planned: ${strong(clock(first.startsAt))}`;
  // It could begin sooner, and is wanted later.
  if (!isUnfit(sooner)) return [say`${at}.`];
  const cause = causeOf(withoutJob(bench, job.id), sooner);
  if (sooner.step.id !== first.step)
    return [say`${at}. Begun sooner, the rest does not fit: ${causeText(sooner.step.title, cause, studio)}`];
  if (cause.kind === 'busy') return [say`${at}, when a pair of hands is free.`];
  return [say`${at}, when somebody is there.`];
}

/** By when it must begin, where that is sooner than its window closes. */
function begunBy(job: JobState, view: Seen): Text[] {
  const closes = planCloses(job.id, view.state, view.studio);
  if (closes === null) return [];
  const window = nextWindow(job, standingPlan(view.state, view.studio).world.clocks.conditions);
  if (window?.closesAt != null && window.closesAt - closes.by < A_LITTLE) return [];
  if (closes.by - view.state.toldAt > SOON) return [];
  return [say`Begin by ${strong(clock(closes.by))}: later, ${closes.why}`];
}
