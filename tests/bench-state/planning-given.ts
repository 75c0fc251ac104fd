import type { BenchEvent } from '../../src/bench/events.ts';
import type { JobPlan } from '../../src/bench/planning/plan.ts';
import { planBench } from '../../src/bench/planning/plan-bench.ts';
import type { Studio } from '../../src/bench/studio.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { did, given, recoat, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** From 08:00 until 16:00 on every day. All times below are worked out by hand. */
export const works = (hands: number, more: Partial<Studio> = {}) =>
  studio({
    shifts: { hours: [hours('08:00-16:00')], days: [1, 2, 3, 4, 5, 6, 7] },
    hands: { all: hands, byShift: {} },
    ...more,
  });
type Planned = { readonly beginsAt: number; readonly readyBy: number | null } | null;
export const job = (id: string, steps: readonly PlannedStep[], planned: Planned = null): BenchEvent => {
  const start = started('08:00', { job: id, steps });
  return start.type === 'JobStarted' ? { ...start, name: id, planned } : start;
};
export const long = (id: string, handsMinutes: number, wait: PlannedStep['wait'] = null) => step(id, wait, { handsMinutes });
/** A job whose next step may begin from so many minutes after 12:00 until so many, and takes some. */
export const open = (id: string, from: number, until: number | null, handsMinutes: number): BenchEvent[] => [
  job(id, [step('a', recoat(from, until)), long('b', handsMinutes)]),
  did('a', '12:00', { job: id }),
];
export const bench = (at: string, on: Studio, ...events: BenchEvent[]) => planBench(given(...events).state, on, t(at));
export const clock = (at: number | undefined) => at && new Date(at).toISOString().slice(11, 16);
export const begins = ({ plans }: { plans: ReadonlyMap<string, JobPlan> }) =>
  Object.fromEntries([...plans].map(([id, { steps }]) => [id, steps.map(({ startsAt }) => clock(startsAt)).join(' ')]));
