import fc from 'fast-check';
import { expect, test } from 'vitest';
import { conditionsOf } from '../../src/bench/conditions.ts';
import { openJobs } from '../../src/bench/fold.ts';
import type { JobPlan } from '../../src/bench/planning/plan.ts';
import { type BenchPlan, planBench } from '../../src/bench/planning/plan-bench.ts';
import type { JobState } from '../../src/job/state.ts';
import { waitEnds } from '../../src/job/wait.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { bruteForce, type GridMisfit, type GridPlan, PAST_THE_GRID } from '../support/brute-force.ts';
import { type Bench, benches, crowded, stateOf } from './planning-benches.ts';
import { gridEnd, gridOf, handsAt, leftOf } from './planning-grid.ts';

const RUNS = 300;

const planOf = (bench: Bench): BenchPlan => planBench(stateOf(bench), bench.studio, bench.now);
const jobsOf = (bench: Bench): JobState[] => openJobs(stateOf(bench));
const told = (bench: Bench) => conditionsOf(stateOf(bench), bench.studio);
/** The steps that are planned; the one that hands are at is a fact. */
const plannedOf = (plan: JobPlan, job: JobState, bench: Bench) => {
  const left = leftOf(job, told(bench), bench.now);
  return typeof left !== 'string' && left.atHand !== null ? plan.steps.slice(1) : plan.steps;
};

function alone(job: JobState, bench: Bench): GridPlan | GridMisfit | null {
  const conditions = told(bench);
  const left = leftOf(job, conditions, bench.now);
  if (typeof left === 'string' || left.steps.length === 0) return null;
  const last = left.steps.at(-1);
  const grid = gridOf(left, bench, conditions, job.planned?.readyBy ?? null);
  const found = bruteForce(
    grid,
    bench.studio.shifts.hours.length > 0 && last && last.handsMinutes > 0 ? grid.begin.from : gridEnd(bench.now),
  );
  return found === PAST_THE_GRID ? null : found;
}
/** One that has not begun waits for its time, if it can. */
const waits = ({ steps, planned }: JobState, { now }: Bench) => steps[0]?.done === null && (planned?.beginsAt ?? 0) > now;
const isMisfit = (found: GridPlan | GridMisfit): found is GridMisfit => 'step' in found;

test('each step begins in its window, at whole minutes', { timeout: 120_000 }, () => {
  let checked = 0;
  fc.assert(
    fc.property(benches(), (bench) => {
      const { plans } = planOf(bench);
      const conditions = told(bench);
      for (const job of jobsOf(bench)) {
        const plan = plans.get(job.id);
        const left = leftOf(job, conditions, bench.now);
        if (!plan || typeof left === 'string') continue;
        let window = { opensAt: left.from, closesAt: left.until };
        const steps = plannedOf(plan, job, bench);
        expect(steps.map(({ step }) => step)).toEqual(left.steps.map(({ id }) => id));
        for (const [index, { startsAt, endsAt }] of steps.entries()) {
          const laid = left.steps[index];
          if (!laid) throw new Error('more steps are planned than are left');
          expect(startsAt % MINUTE).toBe(0);
          expect(endsAt - startsAt).toBe(Math.ceil(laid.handsMinutes) * MINUTE);
          expect(startsAt).toBeGreaterThanOrEqual(window.opensAt);
          expect(startsAt).toBeLessThanOrEqual(window.closesAt);
          const after = waitEnds(laid, conditions, endsAt);
          if (index < steps.length - 1) expect(after.outside).toBeNull();
          window = { opensAt: after.opensAt, closesAt: after.closesAt ?? Number.POSITIVE_INFINITY };
          checked += 1;
        }
        if (steps.length > 0) expect(plan.readyAt).toBe(Math.ceil(window.opensAt / MINUTE) * MINUTE);
      }
    }),
    { numRuns: RUNS },
  );
  expect(checked).toBeGreaterThan(RUNS);
});

test('at no minute are more hands at work than are there', { timeout: 120_000 }, () => {
  let minutes = 0;
  fc.assert(
    fc.property(benches(), (bench) => {
      const { plans } = planOf(bench);
      const working = new Map<number, number>();
      const planned = new Set<number>();
      for (const job of jobsOf(bench)) {
        const plan = plans.get(job.id);
        if (!plan) continue;
        const ahead = plannedOf(plan, job, bench);
        for (const each of plan.steps) {
          // What takes no time takes no hands, also between two minutes.
          if (each.endsAt === each.startsAt) continue;
          const last = Math.ceil(each.endsAt / MINUTE);
          for (let minute = Math.floor(each.startsAt / MINUTE); minute < last; minute += 1) {
            working.set(minute, (working.get(minute) ?? 0) + 1);
            if (ahead.includes(each)) planned.add(minute);
          }
        }
      }
      for (const minute of planned) {
        expect(working.get(minute)).toBeLessThanOrEqual(handsAt(bench.studio, minute));
        minutes += 1;
      }
    }),
    { numRuns: RUNS },
  );
  expect(minutes).toBeGreaterThan(10 * RUNS);
});

test('a job alone on its bench is planned as a search over all minutes plans it', { timeout: 300_000 }, () => {
  const seen = { planned: 0, misfit: 0 };
  fc.assert(
    fc.property(benches(1), (bench) => {
      const [job] = jobsOf(bench);
      const found = job && alone(job, bench);
      if (!job || !found || waits(job, bench)) return;
      const { plans, troubles } = planOf(bench);
      const plan = plans.get(job.id);
      if (isMisfit(found)) {
        seen.misfit += 1;
        expect(troubles).toMatchObject([{ job: job.id, clash: [], unfit: { misfit: { step: found.step, why: found.why } } }]);
        expect(plan === undefined).toBe(found.why !== 'late');
        return;
      }
      seen.planned += 1;
      expect(troubles).toEqual([]);
      if (!plan) throw new Error('no plan, where there is one');
      const steps = plannedOf(plan, job, bench);
      expect(steps.map(({ startsAt }) => startsAt / MINUTE)).toEqual(found.earliest);
      expect(plan.readyAt / MINUTE).toBe(found.readyAt);
      expect(steps.map(({ latestAt }) => latestAt && latestAt / MINUTE)).toEqual(found.latestAfterEarliest);
    }),
    { numRuns: RUNS / 2 },
  );
  expect(seen.planned).toBeGreaterThan(RUNS / 30);
  expect(seen.misfit).toBeGreaterThan(0);
});

test('every job is planned, or in trouble, or waits for somebody to look', { timeout: 120_000 }, () => {
  const seen = { planned: 0, trouble: 0, late: 0, held: 0, missed: 0, touch: 0 };
  fc.assert(
    fc.property(benches(), (bench) => {
      const { plans, troubles } = planOf(bench);
      for (const job of jobsOf(bench)) {
        const left = leftOf(job, told(bench), bench.now);
        const mine = troubles.filter((trouble) => trouble.job === job.id);
        expect(mine.length).toBeLessThanOrEqual(1);
        const plan = plans.get(job.id);
        if (typeof left === 'string') {
          seen[left] += 1;
          expect([plan, mine]).toEqual([undefined, []]);
        } else if (plan === undefined) {
          seen.trouble += 1;
          expect(mine).toHaveLength(1);
        } else if (mine.length > 0) {
          seen.late += 1;
          // What is late is done all the same.
          expect(job.planned?.readyBy).toBeTypeOf('number');
          // Or in time by the data sheet, which says nothing of a bench as cold as this.
          if (mine[0]?.cause.kind !== 'outside' && !waits(job, bench))
            expect(plan.readyAt).toBeGreaterThan(job.planned?.readyBy ?? 0);
        } else {
          seen.planned += 1;
          if (job.planned?.readyBy != null) expect(plan.readyAt).toBeLessThanOrEqual(job.planned.readyBy);
        }
      }
    }),
    { numRuns: RUNS },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
});

test('in trouble alone, no minute would do; in trouble with others, alone there is a plan', { timeout: 300_000 }, () => {
  const seen = { alone: 0, clash: 0 };
  fc.assert(
    fc.property(fc.oneof(crowded, benches(3)), (bench) => {
      for (const { job: id, clash } of planOf(bench).troubles) {
        const job = jobsOf(bench).find((each) => each.id === id);
        const found = job && alone(job, bench);
        if (!found || waits(job, bench)) continue;
        seen[clash.length === 0 ? 'alone' : 'clash'] += 1;
        expect(isMisfit(found)).toBe(clash.length === 0);
      }
    }),
    { numRuns: RUNS / 3 },
  );
  expect(seen.alone).toBeGreaterThan(3);
  expect(seen.clash).toBeGreaterThan(0);
});

test('the same bench is planned the same, also when its history is read anew', { timeout: 120_000 }, () =>
  fc.assert(
    fc.property(benches(), (bench) => {
      const [one, other] = [planOf(bench), planOf(bench)];
      expect([...one.plans]).toEqual([...other.plans]);
      expect(one.troubles).toEqual(other.troubles);
    }),
    { numRuns: RUNS / 4 },
  ),
);
