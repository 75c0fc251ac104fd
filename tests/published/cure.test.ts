import { describe, expect, test } from 'vitest';
import { DAY, HOUR, MINUTE } from '../../src/trade/time/calendar.ts';
import { type Conditions, stretches } from '../../src/trade/time/conditions.ts';
import { goneThrough, rate, waitOver } from '../../src/trade/time/cure.ts';
import { under } from '../support/conditions.ts';

const ELEMENTARY_CHARGE = 1.602176634e-19;
const AVOGADRO = 6.02214076e23;

describe('Arrhenius', () => {
  // The documentation of the Python package `reliability`, and its own test, give 88.29574588463338 for these.
  test('1.2 eV from 60 to 100 °C is 88.2957459 times as fast', () => {
    const joulesPerMole = 1.2 * ELEMENTARY_CHARGE * AVOGADRO;
    const fast = rate({ law: { law: 'arrhenius', joulesPerMole }, referenceCelsius: 60 }, 100);
    expect(Math.abs(fast / 88.2957459 - 1)).toBeLessThan(1e-8);
  });
});

describe('Q10', () => {
  const speed = (referenceCelsius: number) => ({ law: { law: 'q10', q10: 2 } as const, referenceCelsius });
  const daysAt55 = (referenceCelsius: number) =>
    waitOver(under([{ at: 0, celsius: 55 }]), speed(referenceCelsius), 0, (365 * DAY) / MINUTE) / DAY;

  // The formula of the standard guide to accelerated aging of sterile packages, ASTM F1980, from memory; arithmetic from there.
  test('2, at 55 against 25 °C: 8 times, and a year takes 45.625 days', () => {
    expect(rate(speed(25), 55)).toBeCloseTo(8, 9);
    expect(daysAt55(25)).toBeCloseTo(45.625, 8);
  });
  test('2, at 55 against 22 °C: 9.84916 times, and a year takes 37.059 days', () => {
    expect(Math.abs(rate(speed(22), 55) / 9.84916 - 1)).toBeLessThan(1e-6);
    expect(Math.abs(daysAt55(22) / 37.059 - 1)).toBeLessThan(1e-5);
  });

  // Worked out from the CODATA 2018 gas constant: no published value.
  test.each([
    [51_216, 2],
    [33_500, 1.5736],
  ])('%d J/mol over 20 to 30 °C is %d', (joulesPerMole, q10) => {
    const fast = rate({ law: { law: 'arrhenius', joulesPerMole }, referenceCelsius: 20 }, 30);
    expect(Math.abs(fast / q10 - 1)).toBeLessThan(1e-4);
  });
});

describe('equivalent age', () => {
  const GAS_CONSTANT = 8.314462618;
  // The form of ASTM C1074, with its quotient Q = E/R of 5000 K and 20 °C as the reference, from memory; the numbers were worked out from there.
  const speed = { law: { law: 'arrhenius', joulesPerMole: 5000 * GAS_CONSTANT } as const, referenceCelsius: 20 };
  test.each([
    [10, 0.54751],
    [30, 1.75528],
  ])('Q 5000 K: at %d °C %d times as fast as at 20 °C', (celsius, times) =>
    expect(Math.abs(rate(speed, celsius) / times - 1)).toBeLessThan(1e-4),
  );
  // A second implementation, not published: worked out by hand from the same form.
  test('6 h at 10 °C, 6 h at 20 °C and 12 h at 30 °C are 30.348 h at 20 °C', () => {
    const history = under([
      { at: 0, celsius: 10 },
      { at: 6 * HOUR, celsius: 20 },
      { at: 12 * HOUR, celsius: 30 },
    ]);
    expect(Math.abs(goneThrough(history, speed, 0, 24 * HOUR) / 60 / 30.348 - 1)).toBeLessThan(1e-4);
  });
  // EN 1992-1-1, expression (B.10), from memory: the temperature-adjusted age exp(13.65 - 4000/(273 + T)) a day. Its 273 stands
  // for the 273.15 of ours, hence the tolerance.
  test.each([
    [10, 0.616],
    [20, 0.998],
  ])('by the Eurocode, a day at %d °C counts as %d days', (celsius, days) => {
    const reference = 4000 / 13.65 - 273;
    const code = { law: { law: 'arrhenius', joulesPerMole: 4000 * GAS_CONSTANT } as const, referenceCelsius: reference };
    expect(Math.abs(rate(code, celsius) / days - 1)).toBeLessThan(1e-3);
  });
  // The Danish TI-B 103 has exp(E/R (1/293 - 1/(273 + T))), and 33.5 kJ/mol from 20 °C on, the figures from memory; below that
  // its E grows, which no law here does. Its 273 stands for the 273.15 of ours.
  test('by the Danish rule, a day at 30 °C counts as 1.574 days', () => {
    const danish = { law: { law: 'arrhenius', joulesPerMole: 33_500 } as const, referenceCelsius: 20 };
    expect(Math.abs(rate(danish, 30) / 1.574 - 1)).toBeLessThan(1e-3);
  });
});

/**
 * Maturity after Nurse and Saul, Σ (T + 11 °C) · Δt, is no law of any material here: these check the record of temperatures, whose
 * stretches it is summed over.
 */
describe('maturity, summed over the record', () => {
  const degreeHours = (conditions: Conditions, until: number) => {
    let [sum, from] = [0, 0];
    for (const stretch of stretches(conditions, 0)) {
      sum += (((stretch.celsius ?? Number.NaN) + 11) * (Math.min(stretch.until, until) - from)) / HOUR;
      if (stretch.until >= until) return sum;
      from = stretch.until;
    }
    return Number.NaN;
  };
  // civilmint.com, "maturity of concrete" (read there).
  test('28 d at 18 °C are 19 488 °C·h', () => expect(degreeHours(under([{ at: 0, celsius: 18 }]), 28 * DAY)).toBe(19_488));
  // civinnovate.com, article 18387 (read there).
  test('28 d at 15 °C are 728 °C·d', () => expect(degreeHours(under([{ at: 0, celsius: 15 }]), 28 * DAY) / 24).toBe(728));
  // An example in Shetty's Concrete Technology, from memory; its sum was worked out again.
  test('7 d with 12 h a day at 20 °C and 12 h at 10 °C are 4368 °C·h', () => {
    const day = { fromMinute: 7 * 60, untilMinute: 19 * 60 };
    const expected = { at: 0, dayCelsius: 20, nightCelsius: 10, day, zone: 'Etc/UTC' };
    expect(degreeHours(under([], { expectations: [expected] }), 7 * DAY)).toBe(4368);
    const read = Array.from({ length: 14 }, (_, half) => ({ at: half * 12 * HOUR, celsius: half % 2 === 0 ? 20 : 10 }));
    expect(degreeHours(under(read), 7 * DAY)).toBe(4368);
  });
});
