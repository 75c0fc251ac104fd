import { chainOf } from '../../job/chain.ts';
import type { PlannedStep } from '../../job/events.ts';
import {
  type Ask,
  type ChainPlan,
  type ChainStep,
  earliestPlan,
  isMisfit,
  lastBegin,
  latestPlan,
  latestStarts,
  type Misfit,
  windowAfter,
} from '../../trade/plan/chain.ts';
import { spansOf } from '../../trade/plan/spans.ts';
import { MINUTE } from '../../trade/time/calendar.ts';
import type { Demand } from './demand.ts';
import type { JobPlan, PlannedTime } from './plan.ts';
import { freeSpans, type Taken, type World } from './world.ts';

/** That a job cannot be planned in a world, and what the search found out about it. */
export interface Unfit {
  readonly demand: Demand;
  readonly step: PlannedStep;
  readonly misfit: Misfit;
}

export const isUnfit = (plan: JobPlan | Unfit): plan is Unfit => 'misfit' in plan;

/** `early`: each step as early as it can be. `late`: as late as it can be with `readyBy` kept. */
export type Towards = 'early' | 'late';

/**
 * The plan of one job in this world; exact: where there is any, it is found. `reserveMinutes`: so long before the end of each
 * window and of what is staffed, and before `readyBy`, all is to be over; a slip of that length then moves the rest and breaks nothing.
 */
export function planJob(world: World, demand: Demand, towards: Towards = 'early', reserveMinutes = 0): JobPlan | Unfit {
  if (demand.steps.length === 0) return onlyAtHand(demand);
  const ask = askOf(world, demand, 0);
  const safe = reserveMinutes === 0 ? ask : askOf(world, demand, reserveMinutes);
  const planned = towards === 'late' && ask.readyBy !== null ? latestPlan(safe) : earliestPlan(safe);
  if (isMisfit(planned)) return { demand, step: demand.steps[planned.step] as PlannedStep, misfit: planned };
  const slipping = mayStartLater(demand) ? { ...ask, begin: { ...ask.begin, until: Number.POSITIVE_INFINITY } } : ask;
  if (safe === ask && slipping === ask) return told(demand, ask, planned);
  return told(demand, ask, { ...planned, latest: latestStarts(slipping, planned.starts) ?? planned.latest });
}

/** Where nothing has begun, a start that was wished for may slip like all else. */
const mayStartLater = ({ job, wish, begin }: Demand): boolean => (job === null || wish !== null) && begin.from === begin.until;

/** The last instant at which its first step can begin so that all can be done; null where there is none. */
export function lastBeginOf(world: World, demand: Demand): number | null {
  const begin = lastBegin(askOf(world, demand, 0));
  return begin === null ? null : begin * MINUTE;
}

/** The question of one job in this world, in whole minutes. */
export function askOf(world: World, { steps, begin, readyBy }: Demand, reserveMinutes: number): Ask {
  const horizon = Math.floor(world.until / MINUTE);
  return {
    steps: chainOf(steps, world.clocks, reserveMinutes),
    begin: {
      from: Math.ceil(begin.from / MINUTE),
      until: begin.until === null ? Number.POSITIVE_INFINITY : Math.floor(begin.until / MINUTE),
    },
    free: spansOf(freeSpans(world).map(({ from, until }) => ({ from, until: Math.min(until, horizon) - reserveMinutes }))),
    readyBy: readyBy === null ? null : Math.floor(readyBy / MINUTE) - reserveMinutes,
  };
}

function told(demand: Demand, ask: Ask, { starts, latest, readyAt }: ChainPlan): JobPlan {
  let window = ask.begin;
  const steps = demand.steps.map((step, index): PlannedTime => {
    const link = ask.steps[index] as ChainStep;
    const start = starts[index] ?? Number.NaN;
    const time = timeOf(step, start * MINUTE, (start + link.handsMinutes) * MINUTE, window, latest[index] ?? null);
    window = windowAfter(link, start);
    return time;
  });
  return { ...headOf(demand), steps: [...atHandOf(demand), ...steps], readyAt: readyAt * MINUTE };
}

const headOf = ({ job, name, readyBy }: Demand) => ({ job, name, readyBy });

const timeOf = (
  { id, title, kind }: PlannedStep,
  startsAt: number,
  endsAt: number,
  window: { readonly from: number; readonly until: number },
  latest: number | null,
): PlannedTime => ({
  step: id,
  title,
  kind,
  startsAt,
  endsAt,
  opensAt: window.from * MINUTE,
  closesAt: window.until === Number.POSITIVE_INFINITY ? null : window.until * MINUTE,
  latestAt: latest === null ? null : latest * MINUTE,
});

const atHandOf = ({ atHand }: Demand): PlannedTime[] =>
  atHand === null
    ? []
    : [timeOf(atHand.step, atHand.from, atHand.until, { from: atHand.from / MINUTE, until: Number.POSITIVE_INFINITY }, null)];

/** Where hands are at the last step, all that is left is its wait. */
function onlyAtHand(demand: Demand): JobPlan | Unfit {
  const { begin, readyBy, atHand } = demand;
  const late = { step: 0, why: 'late' as const, window: [], before: [], readyAt: begin.from / MINUTE };
  if (atHand && readyBy !== null && begin.from > readyBy) return { demand, step: atHand.step, misfit: late };
  return { ...headOf(demand), steps: atHandOf(demand), readyAt: begin.from };
}

/** The hands that are at work for a job now, whatever becomes of the rest. */
export const takenNow = (demand: Demand): Taken[] => takenBy({ ...headOf(demand), steps: atHandOf(demand), readyAt: 0 });

/** The hands that a plan takes; first those that are at work now. */
export const takenBy = ({ job, name, steps }: JobPlan): Taken[] =>
  steps.flatMap(({ startsAt, endsAt, title }) =>
    endsAt > startsAt ? [{ from: startsAt, until: endsAt, job: job ?? '', name, title }] : [],
  );
