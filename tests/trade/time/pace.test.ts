import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MINUTE } from '../../../src/trade/time/calendar.ts';
import { learnedPace, observedPace, type Touch, type TouchedCoat } from '../../../src/trade/time/pace.ts';
import { under } from '../../support/conditions.ts';

const BEGUN = Date.parse('2026-03-02T08:00Z');
const touch = (minutes: number, result: Touch['result']): Touch => ({
  at: BEGUN + minutes * MINUTE,
  enteredAt: BEGUN + minutes * MINUTE,
  result,
});
/** Ready after 40 minutes, past after 200, says its sheet. */
const coat = (...touches: Touch[]): TouchedCoat => ({
  material: 'x',
  begun: BEGUN,
  fromMinutes: 40,
  untilMinutes: 200,
  speed: { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 },
  touches,
});

describe('one coat', () => {
  test.each([
    ['ready early: it was no slower', [touch(30, 'ready')], 30 / 40],
    ['ready long after: nobody has seen when', [touch(150, 'ready')], 1],
    ['not yet, then ready: in between', [touch(40, 'not-yet'), touch(62.5, 'ready')], Math.sqrt(1 * 1.5625)],
    [
      'the last "not yet" and the first "ready" count',
      [touch(20, 'not-yet'), touch(50, 'not-yet'), touch(60, 'ready'), touch(90, 'ready')],
      Math.sqrt(1.25 * 1.5),
    ],
    ['not yet before its time tells nothing', [touch(30, 'not-yet')], null],
    ['not yet after its time: at least so slow', [touch(60, 'not-yet')], 1.5],
    ['past before the end: at most so slow', [touch(150, 'past')], 0.75],
    ['past after the end tells nothing', [touch(220, 'past')], null],
    ['who finds it ready and then not yet has found it not yet', [touch(45, 'ready'), touch(60, 'not-yet')], 1.5],
  ])('%s', (_, touches, ratio) => {
    const observed = observedPace(coat(...touches), under());
    if (ratio === null) expect(observed).toBeNull();
    else expect(observed).toBeCloseTo(ratio, 9);
  });
  test('ten degrees below the reference, half of the time is gone through', () =>
    expect(observedPace(coat(touch(60, 'ready')), under([{ at: BEGUN, celsius: 13 }]))).toBeCloseTo(0.75, 9));
});

describe('what is learned', () => {
  test('nothing yet', () => expect(learnedPace([])).toEqual({ factor: 1, checks: 0 }));
  test('a single coat is believed by a quarter, in the logarithm', () =>
    expect(learnedPace([1.5])).toEqual({ factor: expect.closeTo(1.5 ** 0.25, 9), checks: 1 }));
  test('many that agree are believed', () => expect(learnedPace(Array(20).fill(1.3)).factor).toBeCloseTo(1.3 ** (20 / 23), 9));
  test('only the last twenty count', () => expect(learnedPace([...Array(30).fill(0.5), ...Array(20).fill(1)]).factor).toBe(1));

  const ratios = fc.array(fc.double({ min: 0.8, max: 1.3, noNaN: true }), { minLength: 1, maxLength: 20 });
  test('it stays within what was observed, and nearer to the sheet', () =>
    fc.assert(
      fc.property(ratios, (observed) => {
        const { factor, checks } = learnedPace(observed);
        expect(checks).toBe(observed.length);
        expect(factor).toBeGreaterThanOrEqual(Math.min(1, ...observed));
        expect(factor).toBeLessThanOrEqual(Math.max(1, ...observed));
      }),
    ));
  test('one wild check among four or more moves it no further than the others reach', () =>
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.9, max: 1.1, noNaN: true }), { minLength: 4, maxLength: 15 }),
        fc.oneof(fc.double({ min: 0.001, max: 0.1, noNaN: true }), fc.double({ min: 5, max: 1000, noNaN: true })),
        fc.nat(20),
        (observed, wild, where) => {
          const { factor } = learnedPace([...observed.slice(0, where), wild, ...observed.slice(where)]);
          expect(factor).toBeGreaterThanOrEqual(0.9);
          expect(factor).toBeLessThanOrEqual(1.1);
        },
      ),
    ));
  test('a wild first check moves it by a fifth at most', () => {
    expect(learnedPace([1000]).factor).toBeLessThan(1.2);
    expect(learnedPace([0.001]).factor).toBeGreaterThan(0.8);
  });
  test('twice as slow and twice as fast are each other’s mirror', () =>
    fc.assert(
      fc.property(ratios, (observed) => {
        expect(learnedPace(observed.map((ratio) => 1 / ratio)).factor).toBeCloseTo(1 / learnedPace(observed).factor, 9);
      }),
    ));
});
