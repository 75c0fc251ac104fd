import { describe, expect, it } from 'vitest';
import {
  amineHydrogenEquivalent,
  aminePhr,
  isocyanateEquivalent,
  isocyanateIndex,
  isocyanatePercent,
  polyolEquivalent,
} from '../../src/trade/equivalents.ts';

/** Atomic weights as CIAAW abridges them, from memory. */
const [C, H, N, O] = [12.011, 1.008, 14.007, 15.999] as const;
const within = (got: number, wanted: number, relative: number) =>
  expect(Math.abs(got / wanted - 1)).toBeLessThanOrEqual(relative);

describe('epoxy and amine', () => {
  // kraska.biz, article 8323, prints 20.6 g per equivalent for diethylenetriamine, C4H13N3, with five amine hydrogens.
  it('diethylenetriamine', () => within(amineHydrogenEquivalent(4 * C + 13 * H + 3 * N, 5), 20.6, 0.002));
  // The same article: 20.6 g per equivalent and an epoxy of 200 take 10.3 parts per hundred.
  it('parts per hundred of resin', () => within(aminePhr(20.6, 200), 10.3, 1e-9));
  // Arithmetic from atomic weights: triethylenetetramine, C6H18N4, six hydrogens, with an epoxy of 190.
  it('triethylenetetramine', () => within(aminePhr(amineHydrogenEquivalent(6 * C + 18 * H + 4 * N, 6), 190), 12.83, 0.005));
  // Arithmetic from atomic weights: the pure diglycidyl ether of bisphenol A, C21H24O4, has two epoxy groups.
  it('the smallest bisphenol A resin', () => within((21 * C + 24 * H + 4 * O) / 2, 170.21, 0.001));
});

describe('urethane', () => {
  // adhesivesmag.com, article 85541: equivalent weights of 125 and 119 are 33.60 and 35.29 percent of isocyanate.
  it.each([
    [125, 33.6],
    [119, 35.29],
  ])('an isocyanate of %d g per equivalent', (equivalent, percent) => {
    within(isocyanatePercent(equivalent), percent, 0.001);
    within(isocyanateEquivalent(percent), equivalent, 0.001);
  });
  // The Polyurethane Manufacturers Association's library, §5, gives both formulas; the numbers here are arithmetic from them.
  it('a polyol of hydroxyl value 56.1', () => expect(polyolEquivalent(56.1)).toBe(1000));
  // ASTM D7997-15, 3.2.4 defines the index; equal equivalents are 1 by that definition.
  it('the index', () => expect([isocyanateIndex(2, 2), isocyanateIndex(2.1, 2)]).toEqual([1, 1.05]));
});
