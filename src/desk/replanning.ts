import type { BenchState } from '../bench/fold.ts';
import type { BenchPlan, Trouble } from '../bench/planning/plan-bench.ts';
import { planNow, standingPlan } from '../bench/planning/standing.ts';
import { type Studio, sameStaffing } from '../bench/studio.ts';
import { remindOf, tellTroubles } from '../cards/trouble-card.ts';
import { type Card, MOST_BUTTONS } from '../chat/card.ts';
import { nextIndex } from '../job/state.ts';
import { HOUR, MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, say, strong, type Text } from '../words/text.ts';

/** A bench with its studio, as they were or are. */
export interface Standing {
  readonly state: BenchState;
  readonly studio: Studio;
}

/**
 * After something was told the rest is planned again: what does not fit any more stands on the card that answers, with what can
 * be done about it; and what fits again. What was said before is said again in few words, and of the job that was told about.
 */
export function replanned(shown: Card, before: Standing, after: Standing, now: number): Card {
  if (isSame(before, after)) return shown;
  const plan = planNow(after.state, after.studio, now);
  const stood = standingPlan(before.state, before.studio);
  const said = new Set(stood.troubles.map(keyOf));
  const fresh = plan.troubles.filter((trouble) => !said.has(keyOf(trouble)));
  const still = plan.troubles.filter((trouble) => said.has(keyOf(trouble)) && wasToldOf(trouble.job, before, after));
  const mended = mendedJobs(before, stood, plan, now);
  const told = new Set([...fresh, ...mended].map(({ job }) => job));
  const ready = readyLines(before, after, { stood, plan, now, told });
  const again = remindOf('Still', still, plan, { studio: after.studio, now });
  const lines = [...shown.lines, ...mended.map((trouble) => fitsLine(trouble, plan)), ...ready, ...again.lines];
  if (fresh.length === 0) return { ...shown, lines, buttons: withWays(shown.buttons, again.ways) };
  const found = tellTroubles(fresh, plan, after.studio, now);
  return {
    ...shown,
    lines: [...lines, ...found.lines],
    buttons: withWays(shown.buttons, found.ways),
    data: { ...shown.data, troubles: found.data },
    tone: shown.tone === 'late' ? 'late' : 'soon',
  };
}

/** A card keeps its buttons but the last, which makes room for what would do. */
const withWays = (buttons: readonly Way[], ways: readonly Way[]): Way[] =>
  [...buttons.slice(0, MOST_BUTTONS - Math.min(ways.length, 1)), ...ways].slice(0, MOST_BUTTONS);

const wasToldOf = (job: string, before: Standing, after: Standing): boolean =>
  before.state.jobs.get(job)?.touchedSeq !== after.state.jobs.get(job)?.touchedSeq;

/** Of each job that is in no trouble any more, what was wrong with it last. */
function mendedJobs({ state, studio }: Standing, stood: BenchPlan, plan: BenchPlan, now: number): Trouble[] {
  const found = [...stood.troubles, ...planNow(state, studio, now).troubles];
  const mended = found.filter(({ job }) => plan.plans.has(job) && !plan.troubles.some((trouble) => trouble.job === job));
  return mended.filter(({ job }, index) => mended.findIndex((each) => each.job === job) === index);
}

/** "Lion fits again: Fourth coat 11:55, ready Wed 09:20." */
function fitsLine({ job, name, step, cause }: Trouble, { plans }: BenchPlan): Text {
  const plan = plans.get(job);
  const time = cause.kind === 'late' ? undefined : plan?.steps.find((each) => each.step === step);
  const fits = cause.kind === 'late' ? say`is in time again` : say`fits again`;
  return say`${strong(say`${name}`)} ${fits}: ${time ? say`${time.title} ${strong(clock(time.startsAt))}, ` : say``}ready ${clock(plan?.readyAt ?? 0)}.`;
}

/** When the jobs are ready that have gone on, or whose end was moved. */
function readyLines(
  before: Standing,
  after: Standing,
  { stood, plan, now, told }: { stood: BenchPlan; plan: BenchPlan; now: number; told: ReadonlySet<string> },
): Text[] {
  // Where no shifts are kept it would count the nights as well.
  if (plan.world.staffed === null) return [];
  // What others do moves a job now and then; it is told where it moves it far, or where the temperature or the shifts do.
  const roomChanged =
    before.state.temperatures !== after.state.temperatures ||
    before.state.expectations !== after.state.expectations ||
    !sameStaffing(before.studio, after.studio);
  const lines = [...plan.plans.values()].flatMap(({ job: id, steps, readyAt }): Text[] => {
    const job = after.state.jobs.get(id ?? '');
    const [first] = steps;
    if (!job || !first) return [];
    const was = before.state.jobs.get(job.id);
    if (told.has(job.id)) return [];
    if (!was || nextIndex(was) !== nextIndex(job)) return [say`As planned it is ready ${clock(readyAt)}.`];
    const stoodAt = stood.plans.get(job.id)?.readyAt;
    const least = roomChanged ? WORTH_SAYING : MUCH;
    if (stoodAt === undefined || stoodAt < now || Math.abs(stoodAt - readyAt) < least) return [];
    return [say`As planned ${job.name} is ready ${clock(readyAt)}, no longer ${clock(stoodAt)}.`];
  });
  return lines.slice(0, MOST_READY);
}

/** An end that moves by less is not news. */
const WORTH_SAYING = 15 * MINUTE;
/** Because of another job's step, not by less. */
const MUCH = 4 * HOUR;
const MOST_READY = 3;

const keyOf = ({ job, step, cause, clash }: Trouble): string =>
  [job, step, cause.kind, ...clash.map((other) => other.job)].join('/');

const isSame = (before: Standing, after: Standing): boolean =>
  before.state === after.state && sameStaffing(before.studio, after.studio);
