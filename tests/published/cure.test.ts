import { describe, expect, test } from 'vitest';
import { DAY, MINUTE } from '../../src/trade/calendar.ts';
import { rate, waitOver } from '../../src/trade/cure.ts';

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
    waitOver([{ at: 0, celsius: 55 }], speed(referenceCelsius), 0, (365 * DAY) / MINUTE) / DAY;

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
