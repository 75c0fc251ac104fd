import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Demand } from '../../src/bench/planning/demand.ts';
import { planTogether } from '../../src/bench/planning/plan-bench.ts';
import type { World } from '../../src/bench/planning/world.ts';
import { Clocks } from '../../src/job/chain.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { recoat, step } from '../support/given.ts';

/** Everything takes a multiple of this, so that whatever is possible at all is possible on this grid. */
const SLOT = 10;
/** One pair of hands for this long: few enough slots for one bit each. */
const SLOTS = 26;
const RUNS = 1500;

interface Link {
  readonly hands: number;
  readonly opens: number;
  readonly closes: number;
}
/** In slots: one step's hands, and the window of the next, counted from its end. */
const link: fc.Arbitrary<Link> = fc
  .record({ hands: fc.integer({ min: 1, max: 3 }), opens: fc.integer({ min: 0, max: 4 }), long: fc.integer({ min: 0, max: 3 }) })
  .map(({ hands, opens, long }) => ({ hands, opens, closes: opens + long }));
const chain = fc.array(link, { minLength: 2, maxLength: 4 });
interface Job {
  readonly links: readonly Link[];
  readonly from: number;
  readonly by: number | null;
}
const job: fc.Arbitrary<Job> = fc.record({
  links: chain,
  from: fc.integer({ min: 0, max: 6 }),
  by: fc.option(fc.integer({ min: 12, max: SLOTS })),
});

const none = { readings: [], expectations: [], paces: new Map<string, number>() };
const world: World = {
  now: 0,
  until: SLOTS * SLOT * MINUTE,
  clocks: new Clocks(none, 0),
  staffed: [{ from: 0, until: SLOTS * SLOT * MINUTE, hands: 1, hours: null }],
  anyTimeHands: 1,
  taken: [],
};

const demandOf = ({ links, from, by }: Job, name: string): Demand => ({
  job: name,
  name,
  steps: links.map(({ hands, opens, closes }, index) =>
    step(`${index}`, index === links.length - 1 ? null : recoat(opens * SLOT, closes * SLOT), { handsMinutes: hands * SLOT }),
  ),
  begin: { from: from * SLOT * MINUTE, until: null },
  wish: null,
  readyBy: by === null ? null : by * SLOT * MINUTE,
  atHand: null,
});

/** The slots at work of every way to do a job, one bit each; tried start by start. */
function waysOf({ links, from, by }: Job): Set<number> {
  const ways = new Set<number>();
  const go = (index: number, first: number, last: number, mask: number): void => {
    const each = links[index];
    if (!each) return void ways.add(mask);
    for (let start = first; start <= last && start + each.hands <= (by ?? SLOTS); start += 1) {
      const end = start + each.hands;
      go(index + 1, end + each.opens, end + each.closes, mask | ((2 ** each.hands - 1) * 2 ** start));
    }
  };
  go(0, from, SLOTS, 0);
  return ways;
}

const bothFit = (one: Set<number>, other: Set<number>): boolean =>
  [...one].some((mask) => [...other].some((another) => (mask & another) === 0));

test('what is planned for two jobs can be done, and where both can be done a plan is nearly always found', () => {
  const seen = { found: 0, missed: 0, impossible: 0 };
  fc.assert(
    fc.property(job, job, (one, other) => {
      const { plans, troubles } = planTogether(world, [demandOf(one, 'one'), demandOf(other, 'other')]);
      const possible = bothFit(waysOf(one), waysOf(other));
      if (troubles.length > 0) {
        seen[possible ? 'missed' : 'impossible'] += 1;
        return;
      }
      seen.found += 1;
      expect(possible).toBe(true);
      // No slot is worked twice.
      const busy = [...plans.values()].flatMap(({ steps }) => steps.map(({ startsAt, endsAt }) => [startsAt, endsAt] as const));
      busy.sort(([a], [b]) => a - b);
      for (const [index, [from]] of busy.entries()) expect(from).toBeGreaterThanOrEqual(busy[index - 1]?.[1] ?? 0);
    }),
    { numRuns: RUNS, seed: 20 },
  );
  expect(seen.impossible).toBeGreaterThan(RUNS / 20);
  // Of these 1500 pairs it misses 11; 20 without its second choices, and some 35 without taking turns.
  expect(seen.missed).toBeLessThan(15);
}, 60_000);
