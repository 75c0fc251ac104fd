import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOUR, MINUTE } from '../../../src/trade/time/calendar.ts';
import { type Speed, speedAt, waitOver } from '../../../src/trade/time/cure.ts';
import { CureClock } from '../../../src/trade/time/cure-clock.ts';
import { under } from '../../support/conditions.ts';

const START = Date.parse('2026-03-02T08:00Z');
const celsius = fc.double({ min: 8, max: 35, noNaN: true });
const speeds: fc.Arbitrary<Speed | null> = fc.oneof(
  fc.constant(null),
  fc.record({
    law: fc.record({ law: fc.constant('q10' as const), q10: fc.double({ min: 1.2, max: 4, noNaN: true }) }),
    referenceCelsius: fc.double({ min: 15, max: 30, noNaN: true }),
  }),
  fc.record({
    law: fc.record({ law: fc.constant('arrhenius' as const), joulesPerMole: fc.double({ min: 2e4, max: 9e4, noNaN: true }) }),
    referenceCelsius: fc.double({ min: 15, max: 30, noNaN: true }),
  }),
);
const records = fc
  .array(fc.record({ after: fc.integer({ min: 0, max: 60 * HOUR }), celsius }), { maxLength: 8 })
  .map((read) => read.map(({ after, celsius }) => ({ at: START + after, celsius })).sort((a, b) => a.at - b.at));
const instants = fc.integer({ min: -12 * HOUR, max: 70 * HOUR }).map((after) => START + after);
const minutes = fc.double({ min: 0, max: 1500, noNaN: true });

describe('the clock that is wound once', () => {
  test('says what reckoning each wait by itself says, also of waits before it was wound', () =>
    fc.assert(
      fc.property(records, speeds, instants, minutes, (read, speed, begun, wait) => {
        const clock = new CureClock(under(read), speed, START - 1);
        expect(Math.abs(clock.over(begun, wait * MINUTE) - waitOver(under(read), speed, begun, wait))).toBeLessThanOrEqual(1);
      }),
    ));

  test('reads both ways', () =>
    fc.assert(
      fc.property(records, speeds, instants, minutes, (read, speed, begun, wait) => {
        const clock = new CureClock(under(read), speed, START - 1);
        expect(clock.over(clock.begun(begun, wait * MINUTE), wait * MINUTE)).toBe(begun);
      }),
    ));

  test('knows the slowest and the fastest of any stretch of time, whatever it was asked before', () =>
    fc.assert(
      fc.property(records, speeds, instants, instants, (read, speed, one, other) => {
        const [from, until] = [Math.min(one, other), Math.max(one, other)];
        const held = [
          read.findLast(({ at }) => at <= from)?.celsius ?? null,
          ...read.filter(({ at }) => from < at && at <= until).map((told) => told.celsius),
        ];
        // Of several at one moment only the last one holds.
        const rates = held
          .filter((_, index) => {
            const inside = read.filter(({ at }) => from < at && at <= until);
            return index === 0 || inside[index - 1]?.at !== inside[index]?.at;
          })
          .map((told) => (speed === null ? 1 : speedAt(speed, told)));
        expect(new CureClock(under(read), speed, START - 1).ratesBetween(from, until)).toEqual({
          least: Math.min(...rates),
          most: Math.max(...rates),
        });
      }),
    ));

  test('loses less than a thousandth of a millisecond where it is wound near what it is asked', () => {
    // exp(E/R (1/293.15 K - 1/282.811626... K)), reckoned with 50 digits: 81 minutes less 0.50027 ms.
    const speed: Speed = { law: { law: 'arrhenius', joulesPerMole: 45398.109497829355 }, referenceCelsius: 20 };
    const read = [{ at: 1774722966627, celsius: 9.661626238351651 }];
    const begun = 29578717 * MINUTE;
    expect(new CureClock(under(read), speed, 1774722966626).over(begun, 41 * MINUTE)).toBe(begun + 81 * MINUTE - 1);
    expect(waitOver(under(read), speed, begun, 41)).toBe(begun + 81 * MINUTE - 1);
  });
});
