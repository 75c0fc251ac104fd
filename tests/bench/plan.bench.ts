import { bench, describe } from 'vitest';
import { earliestPlan, isMisfit, latestPlan } from '../../src/trade/plan/chain.ts';
import type { Span } from '../../src/trade/plan/spans.ts';
import { DAY, type Hours } from '../../src/trade/time/calendar.ts';
import type { Speed } from '../../src/trade/time/cure.ts';
import { bruteForce } from '../support/brute-force.ts';
import { asked, shiftMinutes } from '../support/chains.ts';
import { under } from '../support/conditions.ts';
import type { GridAsk, GridWait } from '../support/grid.ts';

const ZONE = 'Europe/Berlin';
/** Over the night in which the clocks change. */
const BEGIN = Date.parse('2026-03-16T05:00Z') / 60_000;
const hours = (from: number, until: number): Hours => ({ fromMinute: from * 60, untilMinute: until * 60 });
const Q10: Speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 };
const ARRHENIUS: Speed = { law: { law: 'arrhenius', joulesPerMole: 50_000 }, referenceCelsius: 23 };

/** In turn: a short window, a long one, overnight, and one without an end; all by temperature. */
const WAITS: readonly GridWait[] = [
  { fromMinutes: 45, untilMinutes: 180, speed: Q10 },
  { fromMinutes: 240, untilMinutes: 960, speed: ARRHENIUS },
  { fromMinutes: 720, untilMinutes: 1800, speed: Q10 },
  { fromMinutes: 960, untilMinutes: null, speed: ARRHENIUS },
];

/** `jobs` other jobs, each with a step of 40 minutes every day and a half, at ever other hours. */
const taken = (jobs: number, days: number): Span[] =>
  Array.from({ length: jobs }, (_, job) =>
    Array.from({ length: Math.floor(days / 1.5) }, (_, turn) => {
      const from = BEGIN + turn * 2160 + ((job * 487 + turn * 131) % 2160);
      return { from, until: from + 39 };
    }),
  ).flat();

/** A chain of `length` steps in `days` days of two shifts, warm days and cool nights, ready by the end of them. */
const chain = (length: number, days: number): GridAsk => ({
  steps: Array.from({ length }, (_, index) => ({
    handsMinutes: 10 + ((index * 7) % 50),
    wait: WAITS[index % WAITS.length] as GridWait,
  })),
  begin: { from: BEGIN, until: Number.POSITIVE_INFINITY },
  staffed: shiftMinutes([hours(6, 14), hours(14, 22)], ZONE, BEGIN, days),
  busy: taken(20, days),
  readyBy: BEGIN + days * 1440,
  conditions: under([{ at: BEGIN * 60_000 - DAY / 2, celsius: 19.5 }], {
    expectations: [{ at: BEGIN * 60_000 - DAY / 2, dayCelsius: 21, nightCelsius: 16, day: hours(7, 19), zone: ZONE, seq: 1 }],
  }),
});

const [small, large] = [chain(20, 30), chain(40, 60)];
const [smallAsk, largeAsk] = [asked(small), asked(large)];
const found = [earliestPlan(largeAsk), latestPlan(largeAsk), earliestPlan(smallAsk)];
if (found.some(isMisfit)) throw new Error(`nothing to measure: ${JSON.stringify(found)}`);

// Compare the rows of one run with one another. On the machine it was written on: twice the steps in twice the days take about
// 6 times as long (25 against 4 ms), and the search over all minutes takes some 300 times as long as the planner.
describe('a chain among the work of twenty other jobs', () => {
  bench('20 steps in 30 days, with the making of its maps', () => void earliestPlan(asked(small)));
  bench('40 steps in 60 days, with the making of its maps', () => void earliestPlan(asked(large)));
  bench('20 steps in 30 days, as early as can be', () => void earliestPlan(smallAsk));
  bench('40 steps in 60 days, as early as can be', () => void earliestPlan(largeAsk));
  bench('40 steps in 60 days, as late as can be', () => void latestPlan(largeAsk));
});

describe('the same by a search over all minutes', () => {
  const once = { iterations: 1, warmupIterations: 0, time: 0, warmupTime: 0 };
  bench('20 steps in 30 days', () => void bruteForce(small), once);
  bench('40 steps in 60 days', () => void bruteForce(large), once);
});
