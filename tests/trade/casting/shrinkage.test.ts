import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linearPercent, sizesFor, sizesOf, volumePercent } from '../../../src/trade/casting/shrinkage.ts';

const percent = fc.double({ min: 0, max: 5, noNaN: true });
const shrinkage = fc.record({ mouldPercent: percent, castingPercent: percent, postPercent: percent, expansionPercent: percent });
const length = fc.double({ min: 1, max: 5000, noNaN: true });

test('the model for a wanted casting gives that casting', () => {
  fc.assert(
    fc.property(length, shrinkage, (wanted, s) => {
      const { modelMillimetres, mouldMillimetres } = sizesFor(wanted, s);
      const back = sizesOf(modelMillimetres, s);
      expect(back.castingMillimetres / wanted).toBeCloseTo(1, 10);
      expect(back.mouldMillimetres / mouldMillimetres).toBeCloseTo(1, 10);
    }),
  );
});

test('small shrinkages add up, and what grows is counted against them', () => {
  // To the second order: 1 − Π(1 − sᵢ)(1 + e) is Σsᵢ − e within a few of the products.
  fc.assert(
    fc.property(shrinkage, (s) => {
      const sum = s.mouldPercent + s.castingPercent + s.postPercent - s.expansionPercent;
      expect(Math.abs(linearPercent(s) - sum)).toBeLessThan(6 * 0.05 * 5 + 1e-9);
    }),
  );
});

test('more shrinkage makes a smaller casting and a longer model', () => {
  fc.assert(
    fc.property(length, shrinkage, fc.double({ min: 0.01, max: 1, noNaN: true }), (size, s, more) => {
      const shrunk = { ...s, castingPercent: s.castingPercent + more };
      expect(sizesOf(size, shrunk).castingMillimetres).toBeLessThan(sizesOf(size, s).castingMillimetres);
      expect(sizesFor(size, shrunk).modelMillimetres).toBeGreaterThan(sizesFor(size, s).modelMillimetres);
    }),
  );
});

test('a block whose sides all shrink loses that share of its volume', () => {
  fc.assert(
    fc.property(length, length, length, shrinkage, (a, b, c, s) => {
      const volume = (sides: number[]) => sides.reduce((product, side) => product * side, 1);
      const cast = [a, b, c].map((side) => sizesOf(side, s).castingMillimetres);
      const lost = (1 - volume(cast) / volume([a, b, c])) * 100;
      expect(volumePercent(linearPercent(s))).toBeCloseTo(lost, 8);
    }),
  );
});
