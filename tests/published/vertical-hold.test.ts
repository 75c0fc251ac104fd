import { describe, expect, it } from 'vitest';
import { holdMillimetres, runsFromDegrees } from '../../src/trade/cover/hold.ts';
import { parsePressure } from '../../src/trade/measures/quantity.ts';
import { good } from '../trade/asks.ts';

const near = (value: number | null, expected: number, percent: number) =>
  expect(Math.abs((value ?? 0) / expected - 1)).toBeLessThan(percent / 100);

describe('a coat on a wall', () => {
  // Fox and McDonald's Introduction to Fluid Mechanics, 8th edition, problem 8.46, read in the copy at vaia.com, whose solution
  // rounds to 4 mm.
  it('of 40 Pa and the density of water holds 4.08 mm', () => {
    near(holdMillimetres(good(parsePressure('40 Pa')), 1), 4.08, 0.2);
    near(holdMillimetres(40, 1, 90), 4.08, 0.2);
  });

  // A problem from Darby's Chemical Engineering Fluid Mechanics, whose text was read; its yield stress and its answer from memory.
  it('of 3 mm, 1.3 g/mL and 150 dyn/cm² starts to run at 23.1°', () => {
    near(runsFromDegrees(3, good(parsePressure('150 dyn/cm2')), 1.3), 23.1, 0.5);
  });
});
