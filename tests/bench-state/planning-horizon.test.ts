import { describe, expect, test } from 'vitest';
import type { Demand } from '../../src/bench/planning/demand.ts';
import { isUnfit, planJob } from '../../src/bench/planning/plan-job.ts';
import { standingPlan } from '../../src/bench/planning/standing.ts';
import { freeSpans, withTaken } from '../../src/bench/planning/world.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { DAY, MINUTE } from '../../src/trade/time/calendar.ts';
import { did, fixed, given, RUBBER, recoat, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';
import { begins, bench, clock, job, open, works } from './planning-given.ts';

// All times below are worked out by hand.
describe('how far ahead', () => {
  test('over two waits of forty days each', () => {
    const days = (count: number) => fixed(count * 24 * 60);
    const plan = bench('08:00', works(1), job('owl', [step('a', days(40)), step('b', days(40)), step('c')])).plans.get('owl');
    expect(plan?.steps.map(({ startsAt }) => Math.floor((startsAt - t('00:00')) / DAY))).toEqual([0, 40, 80]);
  });
  test('to a promise in 75 days: a quarter of an hour before it is the last start', () => {
    const planned = { beginsAt: t('08:00'), readyBy: t('12:00', 75) };
    expect(bench('08:00', works(1), job('owl', [step('a')], planned)).plans.get('owl')?.steps[0]?.latestAt).toBe(t('11:45', 75));
  });
  test('from a start in seventy days', () => {
    const planned = { beginsAt: t('09:00', 70), readyBy: null };
    expect(bench('08:00', works(1), job('owl', [step('a')], planned)).plans.get('owl')?.steps[0]?.startsAt).toBe(t('09:00', 70));
  });
});

describe('whose hands', () => {
  const two = [...open('owl', 45, 180, 60), ...open('fox', 45, 180, 60)];
  const noShifts = (more: Partial<Studio>) => studio({ duty: { always: ['ann'], byShift: {} }, ...more });
  test('without shifts, of whoever is on duty, and of who comes besides', () => {
    expect(begins(bench('12:10', noShifts({}), ...two))).toEqual({ owl: '12:45', fox: '13:45' });
    expect(begins(bench('12:10', noShifts({ duty: { always: ['ann', 'bob'], byShift: {} } }), ...two))).toEqual({
      owl: '12:45',
      fox: '12:45',
    });
    const extras = [{ from: t('13:00'), until: t('14:00'), hands: 1 }];
    expect(begins(bench('12:10', noShifts({ extras }), ...two))).toEqual({ owl: '12:45', fox: '13:00' });
  });
  test('a minute in which somebody is still at work is not free', () => {
    const { world } = bench('12:00', works(1), job('owl', [step('a')]));
    const at = { from: t('12:30') + 20_000, until: t('12:40') + 20_000, job: 'x', name: 'x', title: 'x' };
    expect(freeSpans(withTaken({ ...world, taken: [] }, [at])).slice(0, 2)).toEqual([
      { from: t('12:00') / MINUTE, until: t('12:29') / MINUTE },
      { from: t('12:41') / MINUTE, until: t('15:59') / MINUTE },
    ]);
  });
  test('the plan as it stands is another one as soon as the studio is', () => {
    const { state } = given(...two);
    const one = works(1, { duty: { always: [], byShift: {} }, hands: { all: null, byShift: {} } });
    const fox = (on: Studio) => clock(standingPlan(state, on).plans.get('fox')?.steps[0]?.startsAt);
    expect(fox(one)).toBe('13:45');
    expect(fox({ ...one, hands: { all: 2, byShift: {} } })).toBe('12:45');
    expect(fox(one)).toBe('13:45');
    expect(fox({ ...one, extras: [{ from: t('13:00'), until: t('14:00'), hands: 1 }] })).toBe('13:00');
    expect(fox(one)).toBe('13:45');
    expect(fox({ ...one, duty: { always: ['ann', 'bob'], byShift: {} } })).toBe('12:45');
    expect(fox({ ...one, shifts: { ...one.shifts, hours: [hours('08:00-12:00'), hours('13:00-18:00')] } })).toBe('14:00');
  });
  test('or what it has learned of a material', () => {
    const { state } = given(
      job('owl', [step('a', recoat(60, 180), { material: RUBBER }), step('b')]),
      did('a', '12:00', { job: 'owl' }),
    );
    const on = works(1);
    const owl = (factor: number) =>
      clock(
        standingPlan(state, { ...on, paces: new Map([[RUBBER.id, { factor, checks: 5 }]]) }).plans.get('owl')?.steps[0]?.startsAt,
      );
    expect([owl(1), owl(1.5), owl(0.5)]).toEqual(['13:00', '13:30', '12:30']);
  });
});

describe('a job that has not begun', () => {
  const demand: Demand = {
    job: null,
    name: 'new',
    steps: [step('a', recoat(45, 180)), step('b')],
    begin: { from: t('10:00'), until: t('10:00') },
    wish: null,
    readyBy: null,
    atHand: null,
  };
  const { world } = bench('08:00', works(1), job('owl', [step('a')]));
  const planned =
    (...more: Parameters<typeof planJob> extends [unknown, unknown, ...infer Rest] ? Rest : never) =>
    (of: Demand) => {
      const plan = planJob({ ...world, taken: [] }, of, ...more);
      if (isUnfit(plan)) throw new Error(plan.misfit.why);
      return plan.steps.map(({ startsAt, latestAt }) => [clock(startsAt), clock(latestAt ?? undefined)]);
    };
  test('its start may slip as long as the rest still fits: an hour before 15:45', () =>
    expect(planned()(demand)).toEqual([
      ['10:00', '14:45'],
      ['11:00', '13:15'],
    ]));
  test('with a reserve all is over so much before a promise', () =>
    // The last step begins at 11:15 and could at 11:45.
    expect(planned('late', 30)({ ...demand, begin: { from: t('08:00'), until: null }, readyBy: t('12:00') }).at(-1)).toEqual([
      '11:15',
      '11:45',
    ]));
  test('and so much before the shift is', () => {
    const alone = (clock: string) => ({ ...demand, steps: [step('a')], begin: { from: t(clock), until: t(clock) } });
    expect(planned('early', 30)(alone('15:15'))[0]?.[0]).toBe('15:15');
    expect(() => planned('early', 30)(alone('15:16'))).toThrow('no-start');
    expect(planned()(alone('15:16'))[0]?.[0]).toBe('15:16');
  });
});
