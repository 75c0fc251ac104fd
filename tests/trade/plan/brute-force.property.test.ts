import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ChainPlan, isMisfit, type Misfit } from '../../../src/trade/plan/chain.ts';
import { intersect } from '../../../src/trade/plan/spans.ts';
import { bruteForce, type GridMisfit, type GridPlan, PAST_THE_GRID } from '../../support/brute-force.ts';
import { anyWaits, asks, earliest, latest, narrowClocks, narrowWaits, restless, stepsOf } from '../../support/chains.ts';
import { under } from '../../support/conditions.ts';
import { type GridAsk, type GridStep, wrongWith } from '../../support/grid.ts';

const RUNS = 800;
/** At the temperatures and with the laws that are tried here, nothing goes faster than its data sheet by more than this. */
const FASTEST = 6;
/** What needs no hands, or has them at all times, may lie this many minutes behind the beginning and all staffed time. */
const BEHIND = 3 * 1440;

/** What was asked and how many of the chains could be done: a test that only ever sees one kind tests little. */
interface Seen {
  planned: number;
  misfit: number;
}
/** A window that closes half a millisecond off a whole minute, give or take a thousandth: found by chance. */
const OFF_THE_MINUTE: GridAsk = {
  steps: [
    {
      handsMinutes: 1,
      wait: {
        fromMinutes: 0,
        untilMinutes: 41,
        speed: { law: { law: 'arrhenius', joulesPerMole: 45398.109497829355 }, referenceCelsius: 20 },
      },
    },
    { handsMinutes: 1, wait: { fromMinutes: 0, untilMinutes: 0, speed: null } },
  ],
  begin: { from: 29578260, until: Number.POSITIVE_INFINITY },
  staffed: null,
  busy: [{ from: 29578717, until: 29578797 }],
  readyBy: null,
  conditions: under([{ at: 1774722966627, celsius: 9.661626238351651 }]),
};
/** Exactly on a minute, and after it never again: what lies past the grid is not what lies before. */
const ONCE_ON_THE_MINUTE: GridAsk = {
  steps: [
    { handsMinutes: 1, wait: { fromMinutes: 0, untilMinutes: 30, speed: null } },
    { handsMinutes: 1, wait: null },
    {
      handsMinutes: 1,
      wait: {
        fromMinutes: 1,
        untilMinutes: 1,
        speed: { law: { law: 'arrhenius', joulesPerMole: 20_000 }, referenceCelsius: 18 },
      },
    },
    { handsMinutes: 1, wait: null },
  ],
  begin: { from: 29540820, until: Number.POSITIVE_INFINITY },
  staffed: null,
  busy: [],
  readyBy: null,
  conditions: under([{ at: 1772449439979, celsius: 17.173335605413545 }]),
};
const shareOf = ({ planned, misfit }: Seen) => planned / (planned + misfit);

/** Whether each window holds a whole minute, however warm it is. */
const isWide = ({ wait }: GridStep): boolean =>
  wait?.untilMinutes == null || (wait.untilMinutes - wait.fromMinutes) / FASTEST - (wait.marginMinutes ?? 0) >= 2;

function searched(ask: GridAsk, open = true) {
  const bounded = ask.readyBy !== null || (ask.staffed !== null && (ask.steps.at(-1)?.handsMinutes ?? 0) > 0);
  const found = bruteForce(
    ask,
    Math.max(ask.begin.from, ...(ask.staffed ?? []).map(({ until }) => until)) + (bounded ? 0 : BEHIND),
    open,
  );
  fc.pre(found !== PAST_THE_GRID);
  return found as Exclude<typeof found, typeof PAST_THE_GRID>;
}

/**
 * Past the grid nothing is looked at. What depends on it is one thing where windows are taken to hold minutes there, and another
 * where they are not; where all are wide enough, they do. A chain that is another one then is not tried.
 */
function searchedTwice(ask: GridAsk) {
  const found = searched(ask);
  const least = ask.readyBy !== null || ask.steps.slice(0, -1).every(isWide) ? found : searched(ask, false);
  if ('step' in found || 'step' in least) fc.pre('step' in found && 'step' in least);
  else fc.pre(String(found.earliest) === String(least.earliest));
  return { found, least };
}

function sameMisfit(said: ChainPlan | Misfit, found: GridMisfit): void {
  if (!isMisfit(said)) expect(said).toEqual(found);
  else {
    expect(said).toMatchObject({ step: found.step, why: found.why, readyAt: found.readyAt });
    if (found.why === 'late') return;
    const looked = [{ from: Number.NEGATIVE_INFINITY, until: found.lastMinute }];
    expect({ before: intersect(said.before, looked), window: intersect(said.window, looked) }).toEqual({
      before: found.before,
      window: found.window,
    });
  }
}

/** The planner finds what the search over all minutes finds, or neither finds anything. */
function agree(ask: GridAsk, seen: Seen): GridPlan | null {
  const { found, least } = searchedTwice(ask);
  if ('step' in found || 'step' in least) {
    seen.misfit += 1;
    sameMisfit(earliest(ask), found as GridMisfit);
    if (ask.readyBy !== null) sameMisfit(latest(ask), found as GridMisfit);
    return null;
  }
  seen.planned += 1;
  // The least start of every step by itself, and yet together a plan.
  expect(wrongWith(ask, found.earliest)).toBeNull();
  const said = earliest(ask);
  const limits = isMisfit(said) ? [] : said.latest;
  const isBetween = (index: number) =>
    (limits[index] ?? Number.POSITIVE_INFINITY) >= (least.latestAfterEarliest[index] ?? Number.POSITIVE_INFINITY) &&
    (limits[index] ?? Number.POSITIVE_INFINITY) <= (found.latestAfterEarliest[index] ?? Number.POSITIVE_INFINITY);
  const latestOf = found.latestAfterEarliest.map((limit, index) => (isBetween(index) ? limits[index] : limit));
  expect(said).toEqual({ starts: found.earliest, latest: latestOf, readyAt: found.readyAt });
  if (found.latest === null) return found;
  expect(wrongWith(ask, found.latest)).toBeNull();
  expect(latest(ask)).toMatchObject({ starts: found.latest, latest: found.latest });
  return found;
}

describe('the planner against a search over all minutes', () => {
  const never = () => fc.constant(null);

  test('as early as can be', { timeout: 120_000 }, () => {
    const seen: Seen = { planned: 0, misfit: 0 };
    fc.assert(
      fc.property(asks(stepsOf(anyWaits, 6), never), (ask) => void agree(ask, seen)),
      { numRuns: RUNS, examples: [[OFF_THE_MINUTE], [ONCE_ON_THE_MINUTE]] },
    );
    expect(shareOf(seen)).toBeGreaterThan(0.2);
    expect(shareOf(seen)).toBeLessThan(0.8);
  });

  test('ready by some minute, as early and as late as can be', { timeout: 120_000 }, () => {
    const seen: Seen = { planned: 0, misfit: 0 };
    const some = (date: number) => fc.integer({ min: date, max: date + 4 * 1440 });
    fc.assert(
      fc.property(asks(stepsOf(anyWaits, 5), some), (ask) => void agree(ask, seen)),
      { numRuns: RUNS },
    );
    expect(shareOf(seen)).toBeGreaterThan(0.15);
    expect(shareOf(seen)).toBeLessThan(0.8);
  });

  test('ready by the first minute that can be kept, and not a minute sooner', { timeout: 120_000 }, () => {
    const seen: Seen = { planned: 0, misfit: 0 };
    fc.assert(
      fc.property(asks(stepsOf(anyWaits, 4), never), fc.integer({ min: 0, max: 5 }), (ask, spare) => {
        const { found } = searchedTwice(ask);
        fc.pre(!('step' in found));
        const { readyAt } = found as GridPlan;
        expect(agree({ ...ask, readyBy: readyAt + spare }, seen)).not.toBeNull();
        expect(agree({ ...ask, readyBy: readyAt - 1 }, seen)).toBeNull();
      }),
      { numRuns: RUNS / 4 },
    );
    expect(seen.misfit).toBeGreaterThan(RUNS / 8);
  });

  test('windows of less than a minute', { timeout: 120_000 }, () => {
    const seen: Seen = { planned: 0, misfit: 0 };
    const late = (date: number) => fc.option(fc.integer({ min: date + 1440, max: date + 4 * 1440 }));
    fc.assert(
      fc.property(asks(stepsOf(narrowWaits, 4), late), (ask) => void agree(ask, seen)),
      { numRuns: RUNS },
    );
    expect(shareOf(seen)).toBeGreaterThan(0.15);
    expect(shareOf(seen)).toBeLessThan(0.85);
  });

  test('windows of a few minutes on a bench that warms up and cools down', { timeout: 120_000 }, () => {
    const seen: Seen = { planned: 0, misfit: 0 };
    const late = (date: number) => fc.option(fc.integer({ min: date + 1440, max: date + 4 * 1440 }));
    fc.assert(
      fc.property(asks(stepsOf(fc.oneof(narrowClocks, anyWaits), 4), late, restless), (ask) => void agree(ask, seen)),
      { numRuns: RUNS },
    );
    expect(shareOf(seen)).toBeGreaterThan(0.15);
    expect(shareOf(seen)).toBeLessThan(0.85);
  });
});
