import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import { type Cause, causeOf } from '../../src/bench/planning/cause.ts';
import { type Change, nearestChanges } from '../../src/bench/planning/changes.ts';
import type { Demand } from '../../src/bench/planning/demand.ts';
import { planBench } from '../../src/bench/planning/plan-bench.ts';
import { isUnfit, planJob } from '../../src/bench/planning/plan-job.ts';
import { type Taken, withTaken } from '../../src/bench/planning/world.ts';
import type { Studio } from '../../src/bench/studio.ts';
import type { PlannedStep } from '../../src/job/events.ts';

import type { Speed } from '../../src/trade/time/cure.ts';
import { cure, fixed, given, RUBBER, recoat, step, t, warmed } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

/** One pair of hands in these shifts, every day. All times below are worked out by hand. */
const works = (shifts: string[] = ['08:00-16:00'], more: Partial<Studio> = {}) =>
  studio({ shifts: { hours: shifts.map(hours), days: [1, 2, 3, 4, 5, 6, 7] }, hands: { all: 1, byShift: {} }, ...more });
const at = (from: string, until: string) => ({ from: t(from), until: t(until) });
const taken = (from: string, until: string, job = 'owl'): Taken => ({ ...at(from, until), job, name: job, title: 'Cast' });

interface Asked {
  readonly steps?: readonly PlannedStep[];
  readonly begin: Demand['begin'];
  readonly readyBy?: number;
  readonly now?: string;
  readonly on?: Studio;
  readonly busy?: readonly Taken[];
  readonly told?: readonly BenchEvent[];
}
/** What is said of a new job that does not fit. */
function unfit({
  steps = [step('a')],
  begin,
  readyBy,
  now = '08:00',
  on = works(),
  busy = [],
  told = [],
}: Asked): [Cause, Change[]] {
  const demand: Demand = { job: null, name: 'new', steps, begin, wish: null, readyBy: readyBy ?? null, atHand: null };
  const world = withTaken(planBench(given(...told).state, on, t(now), { ahead: steps }).world, busy);
  const plan = planJob(world, demand);
  if (!isUnfit(plan)) throw new Error('it fits');
  return [causeOf(world, plan), nearestChanges(world, plan, () => true)];
}
const exactly = (clock: string) => at(clock, clock);
const handsIn = (asked: Asked) => unfit(asked)[1].find(({ kind }) => kind === 'hands');
const roomIn = (asked: Asked) => unfit(asked)[1].find(({ kind }) => kind === 'room');

describe('why not', () => {
  test('of two windows the one that somebody comes nearest to', () => {
    // After work from 08:00 to 08:45 or 12:00 to 12:45: from 10:15 to 11:30, half an hour before noon, or from 14:15 to 15:30.
    const steps = [step('a', recoat(120, 150)), step('b')];
    const [cause] = unfit({ steps, begin: at('08:00', '13:00'), on: works(['08:00-09:00', '12:00-13:00']) });
    expect(cause).toEqual({ kind: 'nobody', window: at('10:15', '11:30'), goneAt: t('09:00'), backAt: t('12:00') });
  });
  test('the window in which all hands are at work, over two shifts', () => {
    const [cause] = unfit({
      begin: at('10:00', '14:00'),
      on: works(['08:00-11:00', '12:00-16:00']),
      busy: [taken('08:00', '15:00')],
    });
    expect(cause).toMatchObject({ kind: 'busy', window: at('10:00', '14:00'), by: [{ job: 'owl' }] });
  });
  test('who is at work: whoever begins before it would be over, and has not ended when it would begin', () => {
    const busy = [taken('09:00', '10:00', 'hen'), taken('10:14', '10:40'), taken('10:40', '11:00', 'fox')];
    const [cause] = unfit({ begin: exactly('10:00'), busy });
    expect(cause).toMatchObject({ kind: 'busy', by: [{ job: 'owl' }] });
  });
  test('a shift that ends too soon', () =>
    expect(unfit({ begin: exactly('15:46') })[0]).toEqual({
      kind: 'too-long',
      window: exactly('15:46'),
      handsMinutes: 15,
      goneAt: t('16:00'),
    }));
  test('a bench too cold for what is last: by the clock in time, and no later end helps', () => {
    const last = step('a', cure(60), { material: RUBBER, usable: { fromCelsius: 15, untilCelsius: 32 } });
    const asked = { steps: [last], begin: exactly('12:00'), readyBy: t('13:15'), now: '12:00', told: [warmed(9, '11:00')] };
    const [cause, changes] = unfit(asked);
    expect(cause).toEqual({ kind: 'outside', celsius: 9, after: last });
    expect(changes.map(({ kind }) => kind)).not.toContain('ready-by');
  });
});

describe('another start', () => {
  const monday = (closed: string[]) => works(['08:00-16:00'], { shifts: { hours: [hours('08:00-16:00')], days: [1], closed } });
  const asked = { begin: exactly('18:00'), now: '17:00' };
  test('within a week, and no later', () => {
    expect(unfit({ ...asked, on: monday([]) })[1]).toContainEqual({
      kind: 'start',
      at: t('08:00', 7),
      laterMinutes: 7 * 1440 - 600,
    });
    expect(unfit({ ...asked, on: monday(['2026-03-09']) })[1].map(({ kind }) => kind)).not.toContain('start');
  });
});

describe('one more pair of hands', () => {
  const long = (handsMinutes: number) => [step('a', null, { handsMinutes })];
  test('stays on rather than comes anew, though that is for longer', () =>
    expect(handsIn({ begin: exactly('18:00') })).toEqual({ kind: 'hands', ...at('16:00', '18:15'), next: 'after' }));
  test('for four hours, and no longer', () => {
    expect(handsIn({ steps: long(300), begin: exactly('15:00') })).toEqual({
      kind: 'hands',
      ...at('16:00', '20:00'),
      next: 'after',
    });
    expect(handsIn({ steps: long(301), begin: exactly('15:00') })).toBeUndefined();
  });
  test('in the middle of a shift whose hands are at work, beside them', () =>
    expect(handsIn({ begin: exactly('10:15'), busy: [taken('10:00', '11:00')] })).toEqual({
      kind: 'hands',
      ...at('10:15', '10:30'),
      next: null,
    }));
  test('at the end of the window, where only that leads on', () => {
    // Twelve hours after 20:15 somebody is there again, and after 18:15 nobody is.
    const steps = [step('a', recoat(720, 730)), step('b')];
    expect(handsIn({ steps, begin: at('18:00', '20:00'), on: works(['08:00-14:00']) })).toEqual({
      kind: 'hands',
      ...at('20:00', '20:15'),
      next: null,
    });
  });
  test('is a third where no shifts are kept and two are at work', () => {
    const on = works([], { hands: { all: 2, byShift: {} } });
    const busy = [taken('09:00', '12:00'), taken('09:00', '12:00', 'fox')];
    expect(handsIn({ begin: exactly('10:00'), on, busy })).toMatchObject({ kind: 'hands' });
  });
});

describe('another room', () => {
  /** Twice as fast with each ten degrees more. */
  const speed: Speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 };
  // Two hours at 23 °C are 98 minutes at 26 °C and 91 at 27 °C.
  const cured = (readyBy: string, more: Partial<PlannedStep> = {}): Asked => ({
    steps: [step('a', cure(120, speed), { material: RUBBER, ...more })],
    begin: exactly('08:00'),
    readyBy: t(readyBy),
    told: [warmed(20, '07:00')],
  });
  test('as warm as a workshop may be, and no warmer', () => {
    expect(roomIn(cured('09:53'))).toEqual({ kind: 'room', celsius: 26, now: 20 });
    expect(roomIn(cured('09:47'))).toBeUndefined();
  });
  test('no colder than the material is made for', () => {
    const cold = { ...cured('18:00', { usable: { fromCelsius: 18.5, untilCelsius: 32 } }), told: [warmed(10, '07:00')] };
    expect(roomIn(cold)).toEqual({ kind: 'room', celsius: 19, now: 10 });
  });
  test('nearest to what data sheets mean, where nobody has said how warm it is', () => {
    // Closed after 13 hours at 23 °C, 05:00: 16 of them at 20 °C are 2^0.3 times as many, and a little over.
    const steps = [step('a', recoat(720, 780, speed), { material: RUBBER }), step('b')];
    expect(roomIn({ steps, begin: exactly('15:45'), on: works(['08:00-16:00']) })).toEqual({
      kind: 'room',
      celsius: 20,
      now: null,
    });
  });
  test('is no help to a wait that does not go by it', () =>
    expect(roomIn({ steps: [step('a', fixed(120))], begin: exactly('08:00'), readyBy: t('09:53') })).toBeUndefined());
});

test('what does not hold once it is made is not offered, of whatever kind', () => {
  const demand: Demand = {
    job: null,
    name: 'new',
    steps: [step('a')],
    begin: exactly('18:00'),
    wish: null,
    readyBy: null,
    atHand: null,
  };
  const { world } = planBench(given().state, works(), t('08:00'), { ahead: demand.steps });
  const plan = planJob(world, demand);
  if (!isUnfit(plan)) throw new Error('it fits');
  expect(nearestChanges(world, plan, () => true).map(({ kind }) => kind)).toEqual(['start', 'hands']);
  expect(nearestChanges(world, plan, ({ kind }) => kind !== 'start').map(({ kind }) => kind)).toEqual(['hands']);
  expect(nearestChanges(world, plan, () => false)).toEqual([]);
});

test('a later end: by the clock the first that can be kept', () => {
  const [cause, changes] = unfit({ steps: [step('a', cure(120))], begin: exactly('08:00'), readyBy: t('10:14') });
  expect(cause).toEqual({ kind: 'late', readyAt: t('10:15'), readyBy: t('10:14') });
  expect(changes).toContainEqual({ kind: 'ready-by', at: t('10:15') });
});
