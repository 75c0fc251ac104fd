import fc from 'fast-check';
import { expect, test } from 'vitest';
import { HOUR, MINUTE } from '../../../src/trade/time/calendar.ts';
import { celsiusAt } from '../../../src/trade/time/conditions.ts';
import { goneThrough, rate, type Speed, waitOver } from '../../../src/trade/time/cure.ts';
import { under } from '../../support/conditions.ts';

const START = Date.parse('2026-03-02T08:00Z');
const Q10: Speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 };

const speed: fc.Arbitrary<Speed> = fc.record({
  law: fc.oneof(
    fc.record({ law: fc.constant('q10' as const), q10: fc.double({ min: 1.2, max: 4, noNaN: true }) }),
    fc.record({ law: fc.constant('arrhenius' as const), joulesPerMole: fc.double({ min: 2e4, max: 9e4, noNaN: true }) }),
  ),
  referenceCelsius: fc.double({ min: 15, max: 30, noNaN: true }),
});
/** In order of time, some before the wait begins, some at the same moment. */
const record = fc
  .array(fc.record({ at: fc.integer({ min: -600, max: 1200 }), celsius: fc.double({ min: 8, max: 35, noNaN: true }) }), {
    maxLength: 8,
  })
  .map((readings) => readings.map(({ at, celsius }) => ({ at: START + at * MINUTE, celsius })).sort((a, b) => a.at - b.at));

/** The integral, one small step of time after the other; the laws written out anew. */
function byFineSteps(
  readings: { at: number; celsius: number }[],
  { law, referenceCelsius }: Speed,
  begun: number,
  minutes: number,
) {
  const step = 5_000;
  let gone = 0;
  for (let at = begun; ; at += step) {
    const middle = at + step / 2;
    let celsius = referenceCelsius;
    for (const reading of readings) if (reading.at <= middle) celsius = reading.celsius;
    const kelvin = celsius + 273.15;
    const pace =
      law.law === 'q10'
        ? Math.exp((Math.log(law.q10) * (celsius - referenceCelsius)) / 10)
        : Math.exp(-law.joulesPerMole / (8.314462618 * kelvin)) /
          Math.exp(-law.joulesPerMole / (8.314462618 * (referenceCelsius + 273.15)));
    gone += step * pace;
    if (gone >= minutes * MINUTE) return at + step;
  }
}

test('a wait is over when the integral says so', () =>
  fc.assert(
    fc.property(
      record,
      speed,
      fc.integer({ min: 0, max: 300 }),
      fc.integer({ min: 1, max: 600 }),
      (readings, at, begun, minutes) => {
        const exact = waitOver(under(readings), at, START + begun * MINUTE, minutes);
        const stepped = byFineSteps(readings, at, START + begun * MINUTE, minutes);
        // Readings stand at whole minutes, and so at whole steps: only the last step is coarse.
        expect(Math.abs(exact - stepped)).toBeLessThanOrEqual(5_001);
      },
    ),
    { numRuns: 200 },
  ));

test('who begins later is never ready earlier', () =>
  fc.assert(
    fc.property(record, speed, fc.nat(1000), fc.nat(1000), fc.integer({ min: 0, max: 900 }), (readings, at, a, b, minutes) => {
      const [sooner, later] = [Math.min(a, b), Math.max(a, b)].map((minute) =>
        waitOver(under(readings), at, START + minute * MINUTE, minutes),
      );
      expect(later).toBeGreaterThanOrEqual(sooner as number);
    }),
  ));

test('a longer wait is never over earlier, and none before it begins', () =>
  fc.assert(
    fc.property(record, speed, fc.nat(900), fc.nat(900), (readings, at, a, b) => {
      const over = (minutes: number) => waitOver(under(readings), at, START, minutes);
      expect(over(0)).toBe(START);
      expect(over(Math.max(a, b))).toBeGreaterThanOrEqual(over(Math.min(a, b)));
      expect(over(a)).toBeGreaterThanOrEqual(START);
    }),
  ));

test('without a law, and before the first reading, the data sheet’s own time passes', () => {
  expect(waitOver(under([{ at: START, celsius: 5 }]), null, START, 90)).toBe(START + 90 * MINUTE);
  expect(waitOver(under([]), Q10, START, 90)).toBe(START + 90 * MINUTE);
  expect(waitOver(under([{ at: START + 2 * HOUR, celsius: 5 }]), Q10, START, 90)).toBe(START + 90 * MINUTE);
});

test('ten degrees below the reference take twice as long, and from the middle on twice the rest', () => {
  expect(waitOver(under([{ at: START, celsius: 13 }]), Q10, START, 60)).toBe(START + 120 * MINUTE);
  expect(waitOver(under([{ at: START + 30 * MINUTE, celsius: 13 }]), Q10, START, 60)).toBe(START + 90 * MINUTE);
});

test('a reading that comes in late moves the wait as one made in time', () => {
  const cold = { at: START + 30 * MINUTE, celsius: 13 };
  const warm = { at: START + 50 * MINUTE, celsius: 23 };
  expect(waitOver(under([cold, warm]), Q10, START, 60)).toBe(START + 70 * MINUTE);
  expect(celsiusAt(under([cold, warm]), START + 49 * MINUTE)).toBe(13);
  expect(celsiusAt(under([cold, warm]), START)).toBeNull();
});

test('the rate is 1 at the reference, and grows with warmth', () =>
  fc.assert(
    fc.property(speed, fc.double({ min: 0, max: 40, noNaN: true }), (at, celsius) => {
      expect(rate(at, at.referenceCelsius)).toBe(1);
      expect(rate(at, celsius + 1)).toBeGreaterThan(rate(at, celsius));
    }),
  ));

test('before a wait has begun nothing is gone through, never less', () => {
  const warm = under([{ at: START - 2 * HOUR, celsius: 33 }]);
  for (const speed of [null, Q10])
    for (const early of [0, 1, HOUR]) expect(goneThrough(warm, speed, START, START - early)).toBe(0);
  expect(goneThrough(warm, null, START, START + HOUR)).toBe(60);
  expect(goneThrough(warm, Q10, START, START + HOUR)).toBeCloseTo(120, 9);
});
