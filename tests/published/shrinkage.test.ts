import { describe, expect, test } from 'vitest';
import { linearPercent, sizesFor, sizesOf, volumePercent } from '../../src/trade/casting/shrinkage.ts';
import { cavityFromWater, waterDensity } from '../../src/trade/casting/water.ts';

const none = { mouldPercent: 0, castingPercent: 0, postPercent: 0, expansionPercent: 0 };

describe('shrinkage', () => {
  // Arithmetic, no published value: 1 − 0.995³, and 100 / 0.995.
  test('0.5 % in length are 1.4925 % in volume', () => expect(volumePercent(0.5)).toBeCloseTo(1.4925, 4));
  test('a part of 100 mm that shrinks by 0.5 % needs a mould of 100.5025 mm, not of 100.5', () =>
    expect(sizesFor(100, { ...none, castingPercent: 0.5 }).mouldMillimetres).toBeCloseTo(100.5025, 4));

  // ASTM D6289-13, equivalent to ISO 2577 for the specimens it names: mould shrinkage is the difference between mould and part,
  // post-shrinkage is counted from the part as it was taken out. So l1 = l0·(1 − MS), l2 = l1·(1 − PS), and both
  // together are MS + PS − MS·PS of l0; the example is ours.
  test('mould shrinkage is of the mould, post-shrinkage of the part', () => {
    const [mould, taken, after] = [120, 118.8, 118.4436];
    const shrinkage = {
      ...none,
      castingPercent: ((mould - taken) / mould) * 100,
      postPercent: ((taken - after) / taken) * 100,
    };
    expect(shrinkage.castingPercent).toBeCloseTo(1, 9);
    expect(shrinkage.postPercent).toBeCloseTo(0.3, 9);
    expect(sizesOf(mould, shrinkage).castingMillimetres).toBeCloseTo(after, 9);
    expect(linearPercent(shrinkage)).toBeCloseTo(1 + 0.3 - 1 * 0.3 * 0.01, 9);
  });
});

describe('the density of water', () => {
  // Handbook values in kg/m³, read in the table of thoughtco.com, "What Is the Density of Water?" (article 609413). They go back
  // to older measurements than the formula, so they differ in the sixth digit.
  test.each([
    [0, 999.8395],
    [4, 999.972],
    [10, 999.7026],
    [15, 999.1026],
    [20, 998.2071],
    [22, 997.7735],
    [25, 997.0479],
    [30, 995.6502],
  ])('at %d °C is %d kg/m³', (celsius, density) => {
    expect(Math.abs(waterDensity(celsius) * 1000 - density)).toBeLessThan(0.005);
  });

  // From the same table: what fills a litre at 20 °C weighs 998.2071 g.
  test('makes a cavity larger than its water weighs', () => expect(cavityFromWater(998.2071, 20)).toBeCloseTo(1000, 2));

  // Kell, J. Chem. Eng. Data 20 (1975) 97, equation 16: another formula for the same, on an older temperature scale. Read in
  // Jones & Harris, J. Res. NIST 97 (1992) 335 (PMC4909168), but for the divisor, which is 16.87985e-3 wherever it is put to
  // use (16.89785e-3 as printed there is 0.4 kg/m³ off the tables at 20 °C).
  test('is what Kell’s formula gives, from 0 to 40 °C', () => {
    for (let t = 0; t <= 40; t += 1) {
      const above =
        999.83952 +
        16.945176 * t -
        7.9870401e-3 * t ** 2 -
        46.170461e-6 * t ** 3 +
        105.56302e-9 * t ** 4 -
        280.54253e-12 * t ** 5;
      const kell = above / (1 + 16.87985e-3 * t);
      expect(Math.abs(waterDensity(t) * 1000 - kell)).toBeLessThan(0.02);
    }
  });
});
