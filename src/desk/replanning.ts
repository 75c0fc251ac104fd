import type { BenchState } from '../bench/fold.ts';
import type { BenchPlan, Trouble } from '../bench/planning/plan-bench.ts';
import { planNow, standingPlan } from '../bench/planning/standing.ts';
import type { Studio } from '../bench/studio.ts';
import { tellTroubles } from '../cards/trouble-card.ts';
import { type Card, MOST_BUTTONS } from '../chat/card.ts';
import { nextIndex } from '../job/state.ts';
import { beginsAt } from '../job/window.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, say, type Text } from '../words/text.ts';

/** A bench with its studio, as they were or are. */
export interface Standing {
  readonly state: BenchState;
  readonly studio: Studio;
}

/**
 * After something was told the rest is planned again: what does not fit any more stands on the card that answers, with what can
 * be done about it. What was said before is not said again.
 */
export function replanned(shown: Card, before: Standing, after: Standing, now: number): Card {
  if (isSame(before, after)) return shown;
  const plan = planNow(after.state, after.studio, now);
  const stood = standingPlan(before.state, before.studio);
  const said = new Set(stood.troubles.map(keyOf));
  const fresh = plan.troubles.filter((trouble) => !said.has(keyOf(trouble)));
  const told = new Set(fresh.map(({ job }) => job));
  const ready = readyLines(before, after, { stood, plan, now, told });
  if (fresh.length === 0) return { ...shown, lines: [...shown.lines, ...ready] };
  const { lines, ways, data } = tellTroubles(fresh, plan, after.studio, now);
  return {
    ...shown,
    lines: [...shown.lines, ...ready, ...lines],
    buttons: [...shown.buttons.slice(0, MOST_BUTTONS - Math.min(ways.length, 1)), ...ways].slice(0, MOST_BUTTONS),
    data: { ...shown.data, troubles: data },
    tone: shown.tone === 'late' ? 'late' : 'soon',
  };
}

/** When the jobs are ready that have gone on, or whose end was moved. */
function readyLines(
  before: Standing,
  after: Standing,
  { stood, plan, now, told }: { stood: BenchPlan; plan: BenchPlan; now: number; told: ReadonlySet<string> },
): Text[] {
  // Where no shifts are kept it would count the nights as well.
  if (plan.world.staffed === null) return [];
  // What others do moves a job now and then; it is told where the temperature or the shifts do.
  const roomChanged =
    before.state.temperatures !== after.state.temperatures ||
    before.state.expectations !== after.state.expectations ||
    !sameStudio(before, after);
  const lines = [...plan.plans.values()].flatMap(({ job: id, steps, readyAt }): Text[] => {
    const job = after.state.jobs.get(id ?? '');
    const [first] = steps;
    if (!job || !first) return [];
    const was = before.state.jobs.get(job.id);
    if (!was && first.startsAt > Math.max(now, beginsAt(job)) + A_LITTLE)
      return [say`No hands are free for it then: as planned it begins ${clock(first.startsAt)} and is ready ${clock(readyAt)}.`];
    if (told.has(job.id)) return [];
    if (!was || nextIndex(was) !== nextIndex(job)) return [say`As planned it is ready ${clock(readyAt)}.`];
    const stoodAt = stood.plans.get(job.id)?.readyAt;
    if (!roomChanged || stoodAt === undefined || stoodAt < now || Math.abs(stoodAt - readyAt) < WORTH_SAYING) return [];
    return [say`As planned ${job.name} is ready ${clock(readyAt)}, no longer ${clock(stoodAt)}.`];
  });
  return lines.slice(0, MOST_READY);
}

/** An end that moves by less is not news. */
const WORTH_SAYING = 15 * MINUTE;
const MOST_READY = 3;
/** So much later nobody minds. */
const A_LITTLE = 5 * MINUTE;

const keyOf = ({ job, step, cause, clash }: Trouble): string =>
  [job, step, cause.kind, ...clash.map((other) => other.job)].join('/');

const isSame = (before: Standing, after: Standing): boolean => before.state === after.state && sameStudio(before, after);

const sameStudio = ({ studio: one }: Standing, { studio: other }: Standing): boolean =>
  one.zone === other.zone &&
  one.shifts === other.shifts &&
  one.hands === other.hands &&
  one.extras === other.extras &&
  one.duty === other.duty;
