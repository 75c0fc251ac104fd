import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import { leftBehind } from '../../src/bench/pings.ts';
import { pingsOf } from '../../src/job/pings.ts';
import { under } from '../support/conditions.ts';
import { did, given, held, poured, recoat, resumed, started, step, t } from '../support/given.ts';
import { hours, studio } from '../support/studio.ts';

const dues = (...events: BenchEvent[]) => pingsOf(given(...events).job, under()).map(({ kind, dueAt }) => [kind, dueAt]);

describe('a job that is entered ahead of its time', () => {
  const ahead = (begins: string): BenchEvent => {
    const start = started('08:00', { steps: [step('a'), step('b')] });
    return start.type === 'JobStarted' ? { ...start, planned: { beginsAt: t(begins), readyBy: null } } : start;
  };
  test('rings when its first step is to begin', () => {
    expect(dues(ahead('10:00'))).toEqual([['step-due', t('10:00')]]);
    expect(dues(ahead('08:00'))).toEqual([]);
    const ids = ['10:00', '11:00'].map((begins) => pingsOf(given(ahead(begins)).job, under())[0]?.id);
    // Where its start is moved, it rings anew.
    expect(new Set(ids).size).toBe(2);
  });
  test('not while hands are at that step already', () => {
    expect(dues(ahead('10:00'), poured('cup-1', 'a', '09:55'))).toEqual([]);
    // That cup's 20 minutes of pot life and 15 of work are over by then.
    expect(dues(ahead('10:00'), poured('cup-1', 'a', '09:20'))).toEqual([['step-due', t('10:00')]]);
  });
  test('nor once it was done sooner', () => expect(dues(ahead('10:00'), did('a', '09:00'))).toEqual([]));
});

test('of what fell due during a hold the last is rung, also where it is due at the minute of its end', () => {
  // Open at 09:45, closing at 11:30, missed at 12:00.
  const on = (at: string) => dues(started(), did('seal', '08:30'), did('coat-1', '09:00'), held('09:10'), resumed(at));
  expect(on('11:29').map(([kind]) => kind)).toEqual(['recoat-open', 'recoat-closing', 'recoat-missed']);
  expect(on('11:30').map(([kind]) => kind)).toEqual(['recoat-closing', 'recoat-missed']);
  expect(on('12:00').map(([kind]) => kind)).toEqual(['recoat-missed']);
});

describe('who goes home and leaves a job behind', () => {
  // Dana works the early shift; the next step opens at 12:45 and closes at 15:00.
  const { state } = given(started('08:00', { steps: [step('a', recoat(45, 180)), step('b')] }), did('a', '12:00'));
  const left = (early: string, late: string) => {
    const [one, two] = [hours(`06:00-${early}`), hours(`${early}-${late}`)];
    const of = studio({
      shifts: { hours: [one, two], days: [1, 2, 3, 4, 5] },
      duty: { always: [], byShift: { [`06:00-${early}`]: ['dana'], [`${early}-${late}`]: ['kim'] } },
    });
    const shift = (each: typeof one, from: string, until: string) => ({ hours: each, from: t(from), until: t(until) });
    return leftBehind(state, of, shift(one, '06:00', early), shift(two, early, late)).map(({ id }) => id);
  };
  test.each([
    ['14:59', '22:00', ['lion']],
    ['15:00', '22:00', []],
    ['12:30', '12:46', ['lion']],
    ['12:30', '12:45', []],
  ])('at %s, while the next shift is until %s', (early, late, expected) => expect(left(early, late)).toEqual(expected));
});
