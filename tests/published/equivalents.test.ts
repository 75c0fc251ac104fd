import { describe, expect, it } from 'vitest';
import { indexOf, printedAs, stoichiometryOf } from '../../src/trade/chemistry/equivalents.ts';
import type { ReactingGroup } from '../../src/trade/material.ts';
import { part } from '../trade/example.ts';

/** Atomic weights as CIAAW abridges them, from memory. */
const [C, H, N, O] = [12.011, 1.008, 14.007, 15.999] as const;
const DETA = (4 * C + 13 * H + 3 * N) / 5;
const TETA = (6 * C + 18 * H + 4 * N) / 6;
const DGEBA = (21 * C + 24 * H + 4 * O) / 2;
const within = (got: number | null | undefined, wanted: number, relative: number) =>
  expect(Math.abs((got ?? Number.NaN) / wanted - 1)).toBeLessThanOrEqual(relative);
const reacting = (group: ReactingGroup, grams: number, share = 100) => part(group, share, { equivalent: { grams, group } });
const phr = (amine: number, epoxy: number) =>
  stoichiometryOf([reacting('epoxy', epoxy), reacting('amine', amine, 12)])?.partsPerHundred;

describe('epoxy and amine', () => {
  // kraska.biz, article 8323, prints 20.6 g per equivalent for diethylenetriamine, C4H13N3, with five amine hydrogens, and
  // that 20.6 with an epoxy of 200 takes 10.3 parts per hundred.
  it('diethylenetriamine', () => {
    within(phr(20.6, 200), 10.3, 1e-9);
    within(phr(DETA, 200), 10.3, 0.002);
  });
  // Arithmetic from atomic weights: triethylenetetramine, C6H18N4, six hydrogens, with an epoxy of 190.
  it('triethylenetetramine', () => within(phr(TETA, 190), 12.83, 0.005));
  // Arithmetic from atomic weights: the pure diglycidyl ether of bisphenol A, C21H24O4, 170.21 g for each of two groups.
  it('the smallest bisphenol A resin is hardened by its balance', () => {
    within(DGEBA, 170.21, 0.001);
    within(phr(DETA, DGEBA), (100 * 20.63) / 170.21, 0.001);
  });
});

describe('urethane', () => {
  // adhesivesmag.com, article 85541: equivalent weights of 125 and 119 are 33.60 and 35.29 percent of isocyanate.
  it.each([
    [125, 33.6],
    [119, 35.29],
  ])('an isocyanate of %d g per equivalent', (grams, percent) =>
    within(printedAs({ grams, group: 'isocyanate' }), percent, 0.001),
  );
  // The Polyurethane Manufacturers Association's library, §5, gives the formulas, of 4202 and 56 100; the numbers here are arithmetic from it.
  it('an isocyanate of 100 g per equivalent is 42.02 % of it', () =>
    expect(printedAs({ grams: 100, group: 'isocyanate' })).toBeCloseTo(42.02, 9));
  it('a polyol of 1000 g per equivalent', () => expect(printedAs({ grams: 1000, group: 'polyol' })).toBeCloseTo(56.1, 9));
  it('others are printed as they are', () => expect(printedAs({ grams: 190, group: 'epoxy' })).toBeNull());
  // ASTM D7997-15, 3.2.4 defines the index as isocyanate equivalents over those of the resin blend.
  it.each([
    [280, 320, 1],
    [294, 320, 1.05],
    [280, 400, 0.8],
  ])('the index of %d g at 140 and %d g at 160', (isocyanate, polyol, index) =>
    within(indexOf([reacting('isocyanate', 140), reacting('polyol', 160)], [isocyanate, polyol]), index, 1e-12),
  );
  it('counts the amines of a resin blend as well', () => {
    const blend = [reacting('isocyanate', 140), reacting('polyol', 160), reacting('amine', 80), part('filler', 50)];
    within(indexOf(blend, [280, 160, 80, 500]), 1, 1e-12);
  });
});
