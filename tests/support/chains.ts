import fc from 'fast-check';
import { type Ask, type ChainPlan, earliestPlan, latestPlan, type Misfit } from '../../src/trade/plan/chain.ts';
import { EVER, type Span, spansOf, without } from '../../src/trade/plan/spans.ts';
import { waitMap } from '../../src/trade/plan/wait-map.ts';
import { DAY, HOUR, type Hours, MINUTE, shiftsBetween } from '../../src/trade/time/calendar.ts';
import type { Conditions } from '../../src/trade/time/conditions.ts';
import type { Speed } from '../../src/trade/time/cure.ts';
import { CureClock } from '../../src/trade/time/cure-clock.ts';
import { under } from './conditions.ts';
import type { GridAsk, GridStep, GridWait } from './grid.ts';

/** The same chain for the planner. */
export const asked = ({ steps, begin, staffed, busy, readyBy, conditions }: GridAsk): Ask => ({
  steps: steps.map(({ handsMinutes, wait }) => ({
    handsMinutes,
    wait: wait && waitMap({ ...wait, blind: spansOf(wait.blind ?? []) }, clockFor(wait, conditions)),
  })),
  begin,
  free: without(staffed === null ? EVER : spansOf(staffed), spansOf(busy)),
  readyBy,
});

/** Wound where the temperatures begin: before, it goes as the data sheet says. */
function clockFor({ speed }: GridWait, conditions: Conditions): CureClock {
  const told = [...conditions.readings.slice(0, 1), ...conditions.expectations].map(({ at }) => at);
  return new CureClock(conditions, speed, told.length === 0 ? 0 : Math.min(...told) - 1);
}

/** What the planner says. */
export const earliest = (ask: GridAsk): ChainPlan | Misfit => earliestPlan(asked(ask));
export const latest = (ask: GridAsk): ChainPlan | Misfit => latestPlan(asked(ask));

/** Staffed minutes from wall-clock hours, every day, for as many days from `from` (in minutes) on. */
export const shiftMinutes = (hours: readonly Hours[], zone: string, from: number, days: number): Span[] =>
  shiftsBetween({ hours, days: [1, 2, 3, 4, 5, 6, 7] }, zone, from * MINUTE, from * MINUTE + days * DAY).map((shift) => ({
    from: shift.from / MINUTE,
    until: shift.until / MINUTE - 1,
  }));

const hours = (from: number, until: number): Hours => ({ fromMinute: from * 60, untilMinute: (until % 24) * 60 });
const PATTERNS: readonly (readonly Hours[])[] = [
  [hours(8, 16)],
  [hours(6, 14), hours(14, 22)],
  [hours(22, 6)],
  [hours(7, 12), hours(13, 17)],
  [hours(0, 12), hours(12, 24)],
];
/** Noon, by Berlin's clock, of an ordinary day and of the days before its two nights with a change of the clocks. */
const DATES = ['2026-03-02T11:00Z', '2026-03-28T11:00Z', '2026-10-24T10:00Z'].map((date) => Date.parse(date) / MINUTE);
const ZONE = 'Europe/Berlin';

const between = (min: number, max: number) => fc.integer({ min, max });
const fraction = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Those that are ten kelvin apart make waits that end just on the minute. */
const celsius = fc.oneof(fraction(8, 34), fc.constantFrom(13, 23, 33));

const speeds: fc.Arbitrary<Speed | null> = fc.oneof(
  fc.constant(null),
  fc.constant({ law: { law: 'q10' as const, q10: 2 }, referenceCelsius: 23 }),
  fc.record({ law: fc.record({ law: fc.constant('q10' as const), q10: fraction(1.2, 3) }), referenceCelsius: between(18, 25) }),
  fc.record({
    law: fc.record({ law: fc.constant('arrhenius' as const), joulesPerMole: fraction(20_000, 80_000) }),
    referenceCelsius: between(18, 25),
  }),
);

const window = (
  from: fc.Arbitrary<number>,
  width: fc.Arbitrary<number>,
  speed: fc.Arbitrary<Speed | null> = speeds,
): fc.Arbitrary<GridWait> =>
  fc
    .record({ fromMinutes: from, width, speed })
    .map(({ width: wide, ...wait }) => ({ ...wait, untilMinutes: wait.fromMinutes + wide }));

/** Windows of no width, of less than a minute or of a few: most of the starts before them miss them. */
export const narrowWaits: fc.Arbitrary<GridWait> = fc.oneof(
  window(between(0, 300), fc.constant(0), fc.constant(null)),
  window(fraction(0, 300), fraction(0, 1)),
  window(fraction(0, 300), fraction(0, 8)),
  window(
    between(0, 3000).map((tenths) => tenths / 10),
    fc.constant(0.7),
  ),
);
/** The same, and all of them by temperature. */
export const narrowClocks: fc.Arbitrary<GridWait> = fc
  .tuple(
    speeds.filter((speed) => speed !== null),
    fraction(60, 500),
    fc.oneof(fraction(0, 1.5), fraction(0, 10)),
  )
  .map(([speed, fromMinutes, width]) => ({ fromMinutes, untilMinutes: fromMinutes + width, speed }));
const otherWaits: fc.Arbitrary<GridWait | null> = fc.oneof(
  { weight: 1, arbitrary: fc.constant(null) },
  { weight: 1, arbitrary: fc.record({ fromMinutes: fraction(0, 500), untilMinutes: fc.constant(null), speed: speeds }) },
  { weight: 2, arbitrary: window(between(0, 500), between(0, 240)) },
  { weight: 2, arbitrary: window(fraction(0, 300), fraction(30, 400)) },
);
export const anyWaits: fc.Arbitrary<GridWait | null> = fc.oneof(
  { weight: 1, arbitrary: narrowWaits },
  { weight: 4, arbitrary: otherWaits },
);

const hands: fc.Arbitrary<number> = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: between(1, 90) });
export const stepsOf = (waits: fc.Arbitrary<GridWait | null>, most: number): fc.Arbitrary<GridStep[]> =>
  fc.array(fc.record({ handsMinutes: hands, wait: waits }), { minLength: 1, maxLength: most });

/** Milliseconds around `date`: thermometers are not read on the minute. */
const around = (date: number) => between(-12 * HOUR, 60 * HOUR).map((after) => date * MINUTE + after);
const readings = (date: number) =>
  fc
    .array(fc.record({ at: around(date), celsius }), { maxLength: 4 })
    .map((list) => list.sort((a, b) => a.at - b.at).map((reading, index) => ({ ...reading, seq: 2 * index })));
const expectations = (date: number) =>
  fc.array(
    fc.record({
      at: around(date),
      dayCelsius: fc.option(celsius, { freq: 9 }),
      nightCelsius: fc.option(celsius, { freq: 9 }),
      day: fc.constantFrom(hours(7, 19), hours(2, 14), hours(20, 4)),
      zone: fc.constant(ZONE),
      seq: fc.constantFrom(1, 3, 5),
    }),
    { maxLength: 1 },
  );
/**
 * A bench that is now warm and now cool. Where it gets warmer during a wait, windows come closer together than the work that
 * they follow, and where it gets cooler, further apart.
 */
export const restless = (date: number): fc.Arbitrary<Conditions> =>
  fc
    .array(fc.record({ after: between(-6 * HOUR, 60 * HOUR), celsius }), { minLength: 6, maxLength: 30 })
    .map((list) =>
      under(list.sort((a, b) => a.after - b.after).map((read) => ({ at: date * MINUTE + read.after, celsius: read.celsius }))),
    );
const conditionsOn = (date: number): fc.Arbitrary<Conditions> =>
  fc
    .record({ readings: readings(date), expectations: fc.oneof({ weight: 2, arbitrary: fc.constant([]) }, expectations(date)) })
    .map((told) => under(told.readings, { expectations: told.expectations }));

const staffedFrom = (date: number): fc.Arbitrary<Span[] | null> =>
  fc.oneof(
    {
      weight: 4,
      arbitrary: fc
        .record({ pattern: fc.constantFrom(...PATTERNS), days: between(1, 3) })
        .map(({ pattern, days }) => shiftMinutes(pattern, ZONE, date, days)),
    },
    { weight: 2, arbitrary: spansFrom(date, 12, 600) },
    { weight: 1, arbitrary: fc.constant(null) },
  );
const spansFrom = (date: number, most: number, longest: number): fc.Arbitrary<Span[]> =>
  fc.array(
    fc.record({ from: between(0, 3 * 1440), long: between(0, longest) }).map(({ from, long }) => ({
      from: date + from,
      until: date + from + long,
    })),
    { minLength: 0, maxLength: most },
  );
const beginFrom = (date: number): fc.Arbitrary<Span> =>
  fc
    .record({
      from: between(-300, 1440),
      long: fc.oneof(between(0, 60), between(0, 1440), fc.constant(Number.POSITIVE_INFINITY)),
    })
    .map(({ from, long }) => ({ from: date + from, until: date + from + long }));

/** Nobody can tell what follows after an end in these minutes; of the last step nothing follows. */
const blindAfter = (steps: readonly GridStep[], blind: readonly Span[]): GridStep[] =>
  steps.map((step, index) => (index < steps.length - 1 && step.wait ? { ...step, wait: { ...step.wait, blind } } : step));

const reserving =
  (marginMinutes: number) =>
  (step: GridStep): GridStep =>
    step.wait ? { ...step, wait: { ...step.wait, marginMinutes } } : step;

/** Whole questions; `readyBy` as it is told. */
export const asks = (
  steps: fc.Arbitrary<GridStep[]>,
  readyBy: (date: number) => fc.Arbitrary<number | null>,
  conditions: (date: number) => fc.Arbitrary<Conditions> = conditionsOn,
): fc.Arbitrary<GridAsk> =>
  fc.constantFrom(...DATES).chain((date) =>
    fc
      .record({
        steps,
        blind: fc.oneof({ weight: 2, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: spansFrom(date, 4, 600) }),
        margin: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: between(1, 20) }),
        begin: beginFrom(date),
        staffed: staffedFrom(date),
        busy: spansFrom(date, 6, 120),
        readyBy: readyBy(date),
        conditions: conditions(date),
      })
      .map(({ blind, margin, ...ask }) => ({ ...ask, steps: blindAfter(ask.steps, blind).map(reserving(margin)) })),
  );
