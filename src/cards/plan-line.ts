import type { BenchState } from '../bench/fold.ts';
import { type PlannedLater, plannedLater } from '../bench/planning/planned-later.ts';
import { planNow } from '../bench/planning/standing.ts';
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
  readonly now: number;
}

/** What differs by less is the same to whoever works. */
const A_LITTLE = 5 * MINUTE;
/** What is further off presses nobody. */
const SOON = 12 * HOUR;

/** That the next step of a job is to wait, as the plan is now; and why, in a sentence. Null where it need not. */
export function toWait(job: JobState, { state, studio, now }: Seen): (PlannedLater & { readonly line: Text }) | null {
  const later = plannedLater(planNow(state, studio, now), job);
  return later && { ...later, line: lineOf(later, studio) };
}

function lineOf({ at, why, breaks }: PlannedLater, studio: Studio): Text {
  const said = say`As planned: ${strong(clock(at))}`;
  if (why === null) return say`${said}.`;
  if (breaks) return say`${said}. Begun sooner, the rest does not fit: ${causeText(why.title, why.cause, studio)}`;
  switch (why.cause.kind) {
    case 'busy':
      return say`${said}, when a pair of hands is free.`;
    case 'too-long':
      return say`${said}: before that no shift is left that is long enough.`;
    default:
      return say`${said}, when somebody is there.`;
  }
}

/**
 * Where the plan knows better than the window alone: that the next step is to wait, and why, or by when it must begin so that
 * the rest fits.
 */
export function planLine(job: JobState, seen: Seen): Text[] {
  const later = toWait(job, seen);
  return later === null ? begunBy(job, seen) : [later.line];
}

/** By when it must begin, where that is still to come, and sooner than its window closes. */
function begunBy(job: JobState, { state, studio, now }: Seen): Text[] {
  const bench = planNow(state, studio, now);
  const [first] = bench.plans.get(job.id)?.steps ?? [];
  if (bench.world.staffed === null || first?.step !== nextStep(job)?.plan.id) return [];
  const closes = planCloses(job.id, { state, studio, now });
  if (closes === null || closes.by - now > SOON) return [];
  const window = nextWindow(job, bench.world.clocks.conditions);
  if (window?.closesAt != null && window.closesAt - closes.by < A_LITTLE) return [];
  return [say`Begin by ${strong(clock(closes.by))}: later, ${closes.why}`];
}
