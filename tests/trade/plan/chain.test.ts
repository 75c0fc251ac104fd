import { describe, expect, test } from 'vitest';
import { type Ask, earliestPlan, isMisfit, lastBegin, latestPlan, latestStarts } from '../../../src/trade/plan/chain.ts';
import { EVER, intersect, spansOf, startsWithin, without } from '../../../src/trade/plan/spans.ts';
import { type PlanWait, waitMap } from '../../../src/trade/plan/wait-map.ts';
import { CureClock } from '../../../src/trade/time/cure-clock.ts';
import { under } from '../../support/conditions.ts';

/** All numbers are minutes, worked out by hand. */
const waits = (fromMinutes: number, untilMinutes: number | null, more: Partial<PlanWait> = {}) =>
  waitMap({ fromMinutes, untilMinutes, ...more }, new CureClock(under(), null, 0));
const span = (from: number, until: number) => ({ from, until });
const ask = (more: Partial<Ask> = {}): Ask => ({
  steps: [{ handsMinutes: 15, wait: null }],
  begin: span(0, Number.POSITIVE_INFINITY),
  free: EVER,
  readyBy: null,
  ...more,
});

describe('a wait of 45 to 180 minutes', () => {
  const wide = waits(45, 180);
  test('its window, and over by when', () => {
    expect([wide.opens(100), wide.closes(100)]).toEqual([145, 280]);
    expect(wide.image([span(0, 10)])).toEqual([span(45, 190)]);
    expect(wide.overBy(145)).toEqual([span(Number.NEGATIVE_INFINITY, 100)]);
    expect(wide.preimage([span(200, 210)], [span(-100, 500)])).toEqual([span(20, 165)]);
  });
  test('ten minutes in reserve are taken from its end, and nothing else', () => {
    const kept = waits(45, 180, { marginMinutes: 10 });
    expect([kept.opens(100), kept.closes(100)]).toEqual([145, 270]);
    expect(kept.image([span(0, 10)])).toEqual([span(45, 180)]);
    expect(kept.overBy(145)).toEqual([span(Number.NEGATIVE_INFINITY, 100)]);
    expect(kept.preimage([span(200, 210)], [span(-100, 500)])).toEqual([span(30, 165)]);
  });
  test('after ends of which nobody can tell, nothing follows, and nothing is over', () => {
    const blind = waits(45, 180, { blind: [span(50, 60)] });
    expect(blind.image([span(49, 61)])).toEqual([span(94, 241)]);
    expect(blind.image([span(50, 60)])).toEqual([]);
    expect(blind.preimage([span(200, 210)], [span(0, 100)])).toEqual([span(20, 49), span(61, 100)]);
    expect(blind.overBy(145)).toEqual([span(Number.NEGATIVE_INFINITY, 49), span(61, 100)]);
  });
});

describe('a narrow wait', () => {
  test('of which a reserve leaves one minute, or none', () => {
    const left = (marginMinutes: number) => waits(100, 110, { marginMinutes });
    expect(left(10).image([span(0, 5)])).toEqual([span(100, 105)]);
    expect(left(11).image([span(0, 5)])).toEqual([]);
    expect(left(11).preimage([span(0, 300)], [span(0, 5)])).toEqual([]);
  });
  test('and ends of which nobody can tell', () => {
    const blind = waits(100, 100, { blind: [span(3, 4)] });
    expect(blind.image([span(0, 6)])).toEqual([span(100, 102), span(105, 106)]);
    expect(blind.preimage([span(102, 105)], [span(0, 6)])).toEqual([span(2, 2), span(5, 5)]);
  });
});

describe('one that stays open', () => {
  test('leads to any later start', () => {
    const open = waits(45, null);
    expect(open.image([span(0, 5), span(50, 60)])).toEqual([span(45, Number.POSITIVE_INFINITY)]);
    expect(open.preimage([span(10, 20), span(100, 110)], [span(0, 500)])).toEqual([span(0, 65)]);
  });
});

describe('no wait after the last step', () => {
  test('it is ready when the hands are done', () => {
    expect(latestPlan(ask({ readyBy: 100 }))).toEqual({ starts: [85], latest: [85], readyAt: 100 });
    expect(earliestPlan(ask({ readyBy: 15 }))).toMatchObject({ starts: [0], latest: [0] });
    expect(earliestPlan(ask({ readyBy: 14 }))).toMatchObject({ step: 0, why: 'late', readyAt: 15 });
  });
  test('between two steps the next may begin from the first end on', () => {
    const two = [
      { handsMinutes: 15, wait: null },
      { handsMinutes: 15, wait: null },
    ];
    expect(earliestPlan(ask({ steps: two, free: [span(0, 29), span(50, 70)] }))).toMatchObject({
      starts: [0, 15],
      latest: [15, 56],
    });
  });
});

describe('how late', () => {
  const WEEK = 7 * 24 * 60;
  const until = (last: number, more: Partial<Ask> = {}) => {
    const plan = earliestPlan(ask({ free: [span(0, last + 14)], ...more }));
    return isMisfit(plan) ? plan.why : plan.latest;
  };
  test('the end of what is looked at is no limit where it is more than a week off', () => {
    expect(until(WEEK)).toEqual([WEEK]);
    expect(until(WEEK + 1)).toEqual([null]);
  });
  test('but a promise is, and the end of a window', () => {
    expect(until(WEEK + 100, { readyBy: WEEK + 50 })).toEqual([WEEK + 35]);
    expect(until(WEEK + 100, { begin: span(0, WEEK + 60) })).toEqual([WEEK + 60]);
  });
  test('the last beginning lies in the last of the times in which there are hands', () => {
    expect(lastBegin(ask({ free: [span(0, 59), span(100, 159)] }))).toBe(145);
    expect(lastBegin(ask({ free: [span(0, 13)] }))).toBeNull();
  });
  test('of starts that were planned for another end', () => {
    expect(latestStarts(ask({ readyBy: 90 }), [20])).toEqual([75]);
    expect(latestStarts(ask({ readyBy: 10 }), [20])).toBeNull();
  });
  test('up to the first start that leads nowhere', () => {
    // Begun at 20 to 45, what follows 100 minutes later would find nobody; begun at 46, somebody again.
    const steps = [
      { handsMinutes: 0, wait: waits(100, 100) },
      { handsMinutes: 15, wait: null },
    ];
    const free = [span(0, 133), span(146, 300)];
    expect(earliestPlan(ask({ steps, free, begin: span(0, 90) }))).toMatchObject({ starts: [0, 100], latest: [19, 100] });
  });
});

test('sets of minutes', () => {
  expect(spansOf([span(5, 9), span(0, 4), span(11, 12), span(20, 19)])).toEqual([span(0, 9), span(11, 12)]);
  expect(intersect([span(0, 9)], [span(9, 12)])).toEqual([span(9, 9)]);
  expect(without([span(0, 9)], [span(0, 3), span(9, 9)])).toEqual([span(4, 8)]);
  expect(startsWithin([span(0, 14), span(20, 33)], 15)).toEqual([span(0, 0)]);
});
