import fc from 'fast-check';
import { expect, test } from 'vitest';
import { conditionsOf } from '../../src/bench/conditions.ts';
import { causeOf } from '../../src/bench/planning/cause.ts';
import { type Change, keptAt, nearestChanges } from '../../src/bench/planning/changes.ts';
import type { Demand } from '../../src/bench/planning/demand.ts';
import { planBench } from '../../src/bench/planning/plan-bench.ts';
import { isUnfit, planJob, type Unfit } from '../../src/bench/planning/plan-job.ts';
import type { World } from '../../src/bench/planning/world.ts';
import { DAY, MINUTE } from '../../src/trade/time/calendar.ts';
import { bruteForce, PAST_THE_GRID } from '../support/brute-force.ts';
import { type Bench, benches, chains, stateOf } from './planning-benches.ts';
import { gridEnd, gridOf, handsAt } from './planning-grid.ts';

const RUNS = 400;

interface Asked {
  readonly bench: Bench;
  readonly demand: Demand;
}
/** A bench, and a job that is to begin at a certain minute. */
const asked = (jobs: number): fc.Arbitrary<Asked> =>
  fc
    .record({
      bench: benches(jobs),
      steps: chains,
      after: fc.integer({ min: 0, max: 2000 }),
      by: fc.option(fc.integer({ min: 60, max: 4000 })),
    })
    .map(({ bench, steps, after, by }) => {
      const from = (Math.ceil(bench.now / MINUTE) + after) * MINUTE;
      return {
        bench,
        demand: {
          job: null,
          name: 'new',
          steps,
          begin: { from, until: from },
          wish: null,
          readyBy: by === null ? null : from + by * MINUTE,
          atHand: null,
        },
      };
    });

const worldOn = ({ bench, demand }: Asked, conditions = conditionsOf(stateOf(bench), bench.studio)): World =>
  planBench(stateOf(bench), bench.studio, bench.now, { conditions, ahead: demand.steps }).world;
const unfitOf = (question: Asked): { world: World; unfit: Unfit } | null => {
  const world = worldOn(question);
  const plan = planJob(world, question.demand);
  return isUnfit(plan) ? { world, unfit: plan } : null;
};

/** What is asked once the change has been made. */
function changed({ bench, demand }: Asked, change: Change): Asked & { room: number | null } {
  switch (change.kind) {
    case 'start':
      return { bench, demand: { ...demand, begin: { from: change.at, until: change.at } }, room: null };
    case 'hands': {
      const extra = { from: change.from, until: change.until, hands: 1 };
      return { bench: { ...bench, studio: { ...bench.studio, extras: [...bench.studio.extras, extra] } }, demand, room: null };
    }
    case 'room':
      return { bench, demand, room: change.celsius };
    case 'ready-by':
      return { bench, demand: { ...demand, readyBy: change.at }, room: null };
  }
}

/** Whether it can then be done. */
function works(question: Asked, change: Change): boolean {
  const after = changed(question, change);
  const told = conditionsOf(stateOf(after.bench), after.bench.studio);
  const world = worldOn(after, after.room === null ? told : keptAt(told, after.room, after.bench.now));
  return !isUnfit(planJob(world, after.demand));
}

/** The same for the search over all minutes, on a bench where nothing else is under way. */
function searched({ bench, demand }: Asked, begin: { from: number; until: number }) {
  const left = { steps: demand.steps, from: begin.from, until: begin.until, atHand: null };
  const grid = gridOf(left, bench, conditionsOf(stateOf(bench), bench.studio), demand.readyBy);
  return bruteForce(grid, gridEnd(bench.now));
}

test('with each change that is offered, made for real, there is a plan', { timeout: 300_000 }, () => {
  const seen: Record<Change['kind'], number> = { start: 0, hands: 0, room: 0, 'ready-by': 0 };
  fc.assert(
    fc.property(asked(0), (question) => {
      const found = unfitOf(question);
      if (!found) return;
      for (const change of nearestChanges(found.world, found.unfit, () => true)) {
        seen[change.kind] += 1;
        expect(works(question, change), change.kind).toBe(true);
      }
    }),
    { numRuns: RUNS },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
});

test('no start is nearer than the one that is offered, and none is possible where none is', { timeout: 300_000 }, () => {
  const seen = { offered: 0, none: 0 };
  fc.assert(
    fc.property(asked(0), (question) => {
      const found = unfitOf(question);
      if (!found) return;
      const { now } = question.bench;
      const wished = question.demand.begin.from;
      const start = nearestChanges(found.world, found.unfit, () => true).find((change) => change.kind === 'start');
      const away = start ? Math.abs(start.at - wished) : Number.POSITIVE_INFINITY;
      const nearer = searched(question, {
        from: Math.max(now, wished - Math.min(away, 7 * DAY) + MINUTE),
        until: wished + Math.min(away, 7 * DAY) - MINUTE,
      });
      if (nearer === PAST_THE_GRID) return;
      seen[start ? 'offered' : 'none'] += 1;
      expect(nearer).toHaveProperty('why');
      if (start) expect((start.at - wished) / MINUTE).toBe(start.laterMinutes);
    }),
    { numRuns: RUNS / 4 },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
});

test('nobody stays on, or comes early, for longer than is needed to a round time', { timeout: 300_000 }, () => {
  let checked = 0;
  fc.assert(
    fc.property(asked(0), (question) => {
      const found = unfitOf(question);
      const hands = found && nearestChanges(found.world, found.unfit, () => true).find((change) => change.kind === 'hands');
      if (!hands || hands.next === null) return;
      checked += 1;
      const { from, until, next } = hands;
      // They are next to those who are there, and five minutes less do not do.
      expect(handsAt(question.bench.studio, (next === 'after' ? from - MINUTE : until) / MINUTE)).toBeGreaterThan(0);
      const less = next === 'after' ? { from, until: until - 5 * MINUTE } : { from: from + 5 * MINUTE, until };
      if (less.from < less.until) expect(works(question, { ...hands, ...less })).toBe(false);
    }),
    { numRuns: 2 * RUNS },
  );
  expect(checked).toBeGreaterThan(20);
});

test('the cause is true minute by minute', { timeout: 300_000 }, () => {
  const seen = { nobody: 0, 'too-long': 0, busy: 0, outside: 0, late: 0 };
  fc.assert(
    fc.property(asked(2), (question) => {
      const found = unfitOf(question);
      if (!found) return;
      const { studio, now } = question.bench;
      const { world, unfit } = found;
      const cause = causeOf(world, unfit);
      seen[cause.kind] += 1;
      const hands = Math.ceil(unfit.step.handsMinutes);
      const minutesOf = (from: number, until: number) =>
        Array.from({ length: (until - from) / MINUTE }, (_, index) => from / MINUTE + index);
      const there = (minute: number) => minute * MINUTE >= now && handsAt(studio, minute) > 0;
      const stays = (minute: number) => minutesOf(minute * MINUTE, (minute + hands) * MINUTE).every(there);
      if (cause.kind === 'late') expect(cause.readyAt).toBeGreaterThan(cause.readyBy);
      if (!('window' in cause) || cause.window.until === null) return;
      const window = minutesOf(cause.window.from, cause.window.until + MINUTE);
      if (cause.kind === 'nobody') {
        expect(window.some(there)).toBe(false);
        const { goneAt, backAt } = cause;
        if (goneAt !== null) expect(there(goneAt / MINUTE - 1)).toBe(true);
        if (backAt !== null) expect(there(backAt / MINUTE)).toBe(true);
        if (backAt !== null) expect(minutesOf(goneAt ?? Math.ceil(now / MINUTE) * MINUTE, backAt).some(there)).toBe(false);
      }
      if (cause.kind === 'too-long') expect([window.some(there), window.some(stays)]).toEqual([true, false]);
      if (cause.kind === 'busy') expect(cause.by.length).toBeGreaterThan(0);
    }),
    { numRuns: 2 * RUNS },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
});
