import { describe, expect, test } from 'vitest';
import type { BenchEvent } from '../../src/bench/events.ts';
import { withoutJob } from '../../src/bench/planning/plan-bench.ts';
import { cure, did, fixed, poured, recoat, step, t } from '../support/given.ts';
import { begins, bench, job, long, open, works } from './planning-given.ts';

// All times below are worked out by hand.
describe('in which order', () => {
  test('what closes first goes first, but behind what would find no place then', () => {
    // The owl closes first and takes an hour; begun at once, it leaves the fox none of its 25 minutes.
    const both = bench('12:40', works(1), ...open('owl', 45, 60, 60), ...open('fox', 45, 70, 15));
    expect(both.troubles).toEqual([]);
    expect(begins(both)).toEqual({ fox: '12:45', owl: '13:00' });
  });
  test('a start that was planned is kept where another job can come after it', () => {
    const hen = job('hen', [long('seal', 15)], { beginsAt: t('13:00'), readyBy: null });
    expect(begins(bench('12:40', works(1), hen, ...open('owl', 50, 180, 30)))).toEqual({ hen: '13:00', owl: '13:15' });
  });
  test('a start that was planned is kept also where it is due now', () => {
    // The owl has been open for ten minutes, and is not urgent.
    const hen = job('hen', [long('seal', 15)], { beginsAt: t('13:00'), readyBy: null });
    expect(begins(bench('13:00', works(1), hen, ...open('owl', 50, 180, 30)))).toEqual({ hen: '13:00', owl: '13:15' });
  });
  describe('of what may begin whenever it suits', () => {
    const whole = (id: string, readyBy: string | null) =>
      job(id, [long('a', 60)], { beginsAt: t('08:00'), readyBy: readyBy === null ? null : t(readyBy) });
    test('who was there first, as long as no promise is broken', () =>
      expect(begins(bench('08:00', works(1), whole('hen', null), whole('owl', '16:00')))).toEqual({
        hen: '08:00',
        owl: '09:00',
      }));
    test('what is promised soonest, where it would be', () => {
      const three = bench('08:00', works(1), whole('hen', null), whole('owl', '10:00'), whole('fox', '09:00'));
      expect(three.troubles).toEqual([]);
      expect(begins(three)).toEqual({ fox: '08:00', owl: '09:00', hen: '10:00' });
    });
  });
  test('who is at work takes one pair of hands, and not two', () => {
    const busy = [job('owl', [long('a', 60, fixed(15)), step('b')]), poured('cup-1', 'a', '12:00', { job: 'owl', potLife: 60 })];
    const both = bench('12:10', works(2), ...busy, ...open('fox', 5, 180, 15));
    expect(begins(both)).toEqual({ owl: '12:00 13:15', fox: '12:10' });
    // And they are taken also where the rest of the job has no plan.
    const late = bench(
      '12:10',
      works(1, { extras: [] }),
      job('owl', [long('a', 60, recoat(300, 310)), step('b')]),
      busy[1] as BenchEvent,
      ...open('fox', 5, 180, 15),
    );
    expect(late.troubles.map((each) => each.job)).toEqual(['owl']);
    expect(withoutJob(late, 'fox').taken).toMatchObject([{ job: 'owl', from: t('12:00'), until: t('13:00') }]);
  });
  test('only the job that is in the way is named, wherever it stands', () => {
    const events = [
      ...open('hen', 200, 210, 15),
      job('owl', [long('a', 60)]),
      poured('cup-1', 'a', '12:30', { job: 'owl', potLife: 60 }),
      ...open('fox', 45, 50, 15),
    ];
    const { troubles } = bench('12:40', works(1), ...events);
    expect(troubles.map((each) => [each.job, each.clash])).toEqual([['fox', [{ job: 'owl', name: 'owl' }]]]);
  });
});

describe('what was promised', () => {
  const promised = (readyBy: string, beginsAt = '10:00') =>
    job('owl', [step('a', cure(120))], { beginsAt: t(beginsAt), readyBy: t(readyBy) });
  test('would be kept by a sooner start: that is told as trouble, and it is planned as was agreed', () => {
    // 15 minutes and two hours before noon is 09:45, and it was to begin at 10:00.
    const sooner = bench('08:05', works(1), promised('12:00'));
    expect(begins(sooner)).toEqual({ owl: '10:00' });
    expect(sooner.troubles.map(({ cause }) => cause.kind)).toEqual(['late']);
  });
  test('and cannot be kept at all: it is planned nevertheless, and the promise stands', () => {
    const late = bench('08:05', works(1), promised('10:19'));
    expect(late.plans.get('owl')).toMatchObject({ readyAt: t('12:15'), readyBy: t('10:19') });
    expect(late.troubles.map(({ cause }) => cause.kind)).toEqual(['late']);
  });
  test('to the minute, also while hands are at the last step', () => {
    const at = poured('cup-1', 'a', '10:00', { job: 'owl', potLife: 30 });
    expect(bench('10:05', works(1), promised('12:15'), at).troubles).toEqual([]);
    expect(bench('10:05', works(1), promised('12:14'), at).troubles).toHaveLength(1);
  });
});

test('a cup that is mixed before its window opens waits for it', () => {
  const chain = [step('a', recoat(45, 180)), step('b', recoat(45, 180)), step('c')];
  const early = [
    job('owl', chain),
    did('a', '12:00', { job: 'owl' }),
    poured('cup-1', 'b', '12:40', { job: 'owl', potLife: 30 }),
  ];
  // Open at 12:45, laid by 13:00; and 45 minutes later the next.
  expect(begins(bench('12:50', works(1), ...early))).toEqual({ owl: '12:45 13:45' });
});

test('hands that are at it longer than they should count as done now', () => {
  const busy = [job('owl', [step('a', recoat(45, 180)), step('b')]), poured('cup-1', 'a', '12:00', { job: 'owl', potLife: 30 })];
  expect(begins(bench('12:10', works(1), ...busy))).toEqual({ owl: '12:00 13:00' });
  expect(begins(bench('12:18', works(1), ...busy))).toEqual({ owl: '12:00 13:03' });
});
