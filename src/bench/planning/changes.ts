import { Clocks } from '../../job/chain.ts';
import { type Spans, without } from '../../trade/plan/spans.ts';
import { DAY, type Hours, MINUTE } from '../../trade/time/calendar.ts';
import { type Conditions, celsiusAt } from '../../trade/time/conditions.ts';
import type { Demand } from './demand.ts';
import { isUnfit, lastBeginOf, planJob, type Towards, type Unfit } from './plan-job.ts';
import { freeSpans, type World } from './world.ts';

/** One thing that, changed alone, lets a job be done; each was planned with it. Instants in milliseconds since the epoch. */
export type Change =
  | { readonly kind: 'start'; readonly at: number; readonly laterMinutes: number }
  /** One more pair of hands; `next`: it follows what is staffed, or goes before it. */
  | { readonly kind: 'hands'; readonly from: number; readonly until: number; readonly next: 'after' | 'before' | null }
  | { readonly kind: 'room'; readonly celsius: number; readonly now: number | null }
  | { readonly kind: 'ready-by'; readonly at: number };

/** Nobody stays longer, or comes earlier, for a coat. */
const MOST_EXTRA_MINUTES = 240;
/** Who stays on stays until a round time. */
const ROUND_MINUTES = 5;
/** So many gaps in the free hands are tried, those nearest to what does not fit. */
const MOST_GAPS = 5;
/** So many changes of a kind are made for real, to see whether they hold. */
const MOST_HELD = 4;
/** A start this far off is another plan. */
const MOST_MOVED = 7 * DAY;
/** In no other room does anybody work for hours. */
const WORKSHOP_CELSIUS = { from: 15, until: 26 };
/** Where nobody has said how warm it is, data sheets mean this. */
const USUAL_CELSIUS = 23;

/** Whether the job can be done once a change is made for real, and the other jobs are planned with it, too. */
export type Holds = (change: Change) => boolean;

/**
 * The nearest changes that would each let `unfit` be done: another start, one more pair of hands, another room temperature,
 * a later end. The smallest of each kind that holds; none where none alone does.
 */
export function nearestChanges(world: World, unfit: Unfit, holds: Holds, towards: Towards = 'early'): Change[] {
  const { demand } = unfit;
  const fits = (other: World, asked: Demand = demand) => !isUnfit(planJob(other, asked, towards));
  return [
    ...otherStart(world, demand).filter(holds),
    ...moreHands(world, unfit, fits, holds),
    ...otherRoom(world, demand, fits, holds),
    ...laterEnd(world, demand).filter(holds),
  ];
}

/** Only a job that has not begun can begin at another time. */
function otherStart(world: World, demand: Demand): Change[] {
  const { begin } = demand;
  const at = demand.wish ?? (demand.job === null && begin.until === begin.from ? begin.from : null);
  if (at === null) return [];
  const later = planJob(world, { ...demand, begin: { from: at, until: null } });
  const starts = [
    isUnfit(later) ? null : (later.steps[0]?.startsAt ?? null),
    lastBeginOf(world, { ...demand, begin: { from: world.now, until: at } }),
  ].filter((start) => start !== null);
  const [nearest] = starts.sort((a, b) => Math.abs(a - at) - Math.abs(b - at));
  if (nearest === undefined || nearest === at || Math.abs(nearest - at) > MOST_MOVED) return [];
  return [{ kind: 'start', at: nearest, laterMinutes: Math.round((nearest - at) / MINUTE) }];
}

type Fits = (world: World, demand?: Demand) => boolean;

function moreHands(world: World, { demand, step, misfit }: Unfit, fits: Fits, holds: Holds): Change[] {
  // Where hands at all hours do not help, no four of them do.
  if (!fits(withHands(world, Math.floor(world.now / MINUTE), Math.ceil(world.until / MINUTE)))) return [];
  const free = freeSpans(world);
  const at = misfit.window.map(({ from }) => from).find(Number.isFinite) ?? Math.ceil(demand.begin.from / MINUTE);
  const gaps = gapsNear(free, at, Math.ceil(world.now / MINUTE));
  const found = gaps.flatMap(({ from, until }): (Change & { kind: 'hands' })[] => {
    const most = Math.min(MOST_EXTRA_MINUTES, until - from + 1);
    const after = least(most, (minutes) => fits(withHands(world, from, from + minutes)));
    const before = least(most, (minutes) => fits(withHands(world, until + 1 - minutes, until + 1)));
    return [
      ...(after === null
        ? []
        : [
            hands(
              world,
              from,
              Math.min(roundUp(from + after), until + 1),
              free.some((span) => span.until === from - 1) ? 'after' : null,
            ),
          ]),
      ...(before === null
        ? []
        : [
            hands(
              world,
              Math.max(from, roundDown(until + 1 - before)),
              until + 1,
              free.some((span) => span.from === until + 1) ? 'before' : null,
            ),
          ]),
    ];
  });
  const needed = Math.ceil(step.handsMinutes);
  const alone = misfit.window
    .flatMap(({ from, until }) => [from, until])
    .filter((start) => needed <= MOST_EXTRA_MINUTES && Number.isFinite(start) && fits(withHands(world, start, start + needed)))
    .map((start) => hands(world, start, start + needed, null));
  // Somebody who only has to stay on is easier found than somebody who comes in the night.
  const easier = ({ next }: Change & { kind: 'hands' }) => (next === null ? 1 : 0);
  const chosen = [...found, ...alone]
    .sort((a, b) => easier(a) - easier(b) || a.until - a.from - (b.until - b.from))
    .slice(0, MOST_HELD)
    .find(holds);
  return chosen ? [chosen] : [];
}

/** Adjacent to what is staffed, or in the middle of it, where all hands are at work. */
function hands(world: World, from: number, until: number, next: 'after' | 'before' | null): Change & { kind: 'hands' } {
  const staffed = world.staffed ?? [];
  const within = staffed.some((each) => each.from < until * MINUTE && each.until > from * MINUTE);
  return { kind: 'hands', from: from * MINUTE, until: until * MINUTE, next: within ? null : next };
}

function gapsNear(free: Spans, at: number, from: number): Spans {
  const until = at + (2 * DAY) / MINUTE;
  const away = (gap: { from: number; until: number }) => Math.max(0, gap.from - at, at - gap.until);
  return [...without([{ from, until }], free)].sort((a, b) => away(a) - away(b)).slice(0, MOST_GAPS);
}

/** The world with one more pair of hands between two whole minutes. */
export function withHands(world: World, from: number, until: number): World {
  const there = world.staffed ?? [{ from: world.now, until: world.until, hands: world.anyTimeHands, hours: null }];
  return { ...world, staffed: [...there, { from: from * MINUTE, until: until * MINUTE, hands: 1, hours: null }] };
}

/** The least of 1 to `most` that is enough, where more is never worse; null where not even `most` is. */
function least(most: number, enough: (count: number) => boolean): number | null {
  if (most < 1 || !enough(most)) return null;
  let [low, high] = [1, most];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (enough(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

const roundUp = (minute: number) => Math.ceil(minute / ROUND_MINUTES) * ROUND_MINUTES;
const roundDown = (minute: number) => Math.floor(minute / ROUND_MINUTES) * ROUND_MINUTES;

function otherRoom(world: World, demand: Demand, fits: Fits, holds: Holds): Change[] {
  const timed = demand.steps.filter(({ wait }) => wait?.speed);
  if (timed.length === 0) return [];
  const from = Math.max(WORKSHOP_CELSIUS.from, ...timed.map(({ usable }) => Math.ceil(usable?.fromCelsius ?? 0)));
  const until = Math.min(WORKSHOP_CELSIUS.until, ...timed.map(({ usable }) => Math.floor(usable?.untilCelsius ?? 100)));
  const now = celsiusAt(world.clocks.conditions, world.now);
  const temperatures = Array.from({ length: Math.max(0, until - from + 1) }, (_, index) => from + index);
  const change = temperatures
    .sort((a, b) => Math.abs(a - (now ?? USUAL_CELSIUS)) - Math.abs(b - (now ?? USUAL_CELSIUS)))
    .filter((celsius) => fits(withRoomAt(world, celsius)))
    .slice(0, MOST_HELD)
    .map((celsius) => ({ kind: 'room' as const, celsius, now }))
    .find(holds);
  return change === undefined ? [] : [change];
}

const ALL_DAY: Hours = { fromMinute: 0, untilMinute: 0 };

/** The bench at `celsius` day and night, from `at` on. */
export const keptAt = (conditions: Conditions, celsius: number, at: number): Conditions => ({
  ...conditions,
  expectations: [
    ...conditions.expectations,
    { at, dayCelsius: celsius, nightCelsius: celsius, day: ALL_DAY, zone: 'UTC', seq: Number.POSITIVE_INFINITY },
  ],
});

export const withRoomAt = (world: World, celsius: number): World => ({
  ...world,
  clocks: new Clocks(keptAt(world.clocks.conditions, celsius, world.now), world.clocks.from),
});

function laterEnd(world: World, demand: Demand): Change[] {
  if (demand.readyBy === null) return [];
  const plan = planJob(world, { ...demand, readyBy: null });
  // At a temperature at which nobody can tell when it is ready, no later end helps.
  if (isUnfit(plan) || isUnfit(planJob(world, { ...demand, readyBy: plan.readyAt }))) return [];
  return [{ kind: 'ready-by', at: plan.readyAt }];
}
