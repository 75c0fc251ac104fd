import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { allowedPercent, misfitOf, type Printed } from '../../../src/adapters/yaml/ratio.ts';

const PASTE: Printed = {
  names: ['A', 'B'],
  weight: [41, 100],
  volume: [1, 3],
  density: [1.23, 1],
  viscosity: [undefined, undefined],
};
const SKIN: Printed = { names: ['A', 'B'], weight: [80, 100], volume: [1, 1], density: [1, 1.25], viscosity: [1.2, 80] };

describe('which of the three is probably wrong', () => {
  test.each<[string, Printed, (string | number)[], RegExp]>([
    [
      'swapped weights',
      { ...PASTE, weight: [100, 41] },
      ['ratio', 'weight'],
      /the weight ratio looks swapped, A 41, B 100 would fit/,
    ],
    ['swapped volumes', { ...PASTE, volume: [3, 1] }, ['ratio', 'volume'], /the volume ratio looks swapped, A 1, B 3 would fit/],
    ['swapped densities', { ...PASTE, density: [1, 1.23] }, ['parts'], /the densities look swapped, A 1.23, B 1 would fit/],
    [
      '1:1, weights swapped',
      { ...SKIN, weight: [100, 80] },
      ['ratio', 'weight'],
      /weight ratio looks swapped.*less likely: the densities look swapped/,
    ],
    [
      '1:1, densities swapped',
      { ...SKIN, density: [1.25, 1] },
      ['parts'],
      /densities look swapped.*thicker part is mostly the heavier/,
    ],
    [
      'a density ten times too high',
      { ...PASTE, density: [12.3, 1] },
      ['parts', 0, 'density'],
      /decimal slip, 1.23 instead of 12.3/,
    ],
    [
      'a density ten times too low',
      { ...SKIN, density: [1, 0.125] },
      ['parts', 1, 'density'],
      /decimal slip, 1.25 instead of 0.125/,
    ],
    [
      'a weight share ten times too low',
      { ...PASTE, weight: [41, 10] },
      ['ratio', 'weight', 'B'],
      /share of B in the weight ratio looks like a decimal slip, 100/,
    ],
    ['an impossible density', { ...SKIN, density: [1, 5] }, ['parts', 1, 'density'], /density of B is implausible/],
    ['volume copied from weight', { ...SKIN, volume: [80, 100] }, ['ratio', 'volume'], /it repeats the weight ratio/],
    [
      'volume rounded',
      { ...SKIN, weight: [88, 100] },
      ['ratio', 'volume'],
      /weight ratio would have to be A 80, B 100, or the volume ratio A 1, B 0.909, or one density 1.1 for A or 1.14 for B.*rounded/,
    ],
    ['a density off', { ...PASTE, density: [1.6, 1] }, ['parts', 0, 'density'], /density is wrong, that of A/],
    [
      'a volume ratio that only an implausible density would explain',
      { ...SKIN, weight: [90, 100], density: [1.08, 1.2], volume: [1, 2] },
      ['ratio', 'volume'],
      /volume ratio is wrong: weight ratio and densities make a simple one/,
    ],
    [
      'the same for gypsum, whose powder may well be so heavy',
      { ...SKIN, weight: [100, 138], density: [1, 2.9], volume: [1, 0.6], gypsum: true },
      ['parts', 1, 'density'],
      /density is wrong, that of B/,
    ],
    [
      'a weight ratio that nothing explains',
      { ...SKIN, weight: [30, 200] },
      ['ratio', 'weight'],
      /no density that such materials have/,
    ],
  ])('%s', (_, printed, path, message) =>
    expect(misfitOf(printed, 3)).toMatchObject({ path, message: expect.stringMatching(message) }),
  );
});

test('what may be apart: the tolerance, from 1 % to 3 %', () =>
  expect([0.2, 1, 2, 3, 20].map(allowedPercent)).toEqual([1, 1, 2, 3, 3]));

test('three that fit are let through, whatever the scale they are printed in', () => {
  const some = fc.double({ min: 0.1, max: 100, noNaN: true });
  const density = fc.double({ min: 0.7, max: 3, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(some, some), fc.tuple(density, density), some, (volume, densities, scale) => {
      const weight = volume.map((share, index) => share * Number(densities[index]) * scale);
      expect(misfitOf({ ...SKIN, weight, volume, density: densities }, 1)).toBeNull();
    }),
  );
});
