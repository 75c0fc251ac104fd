import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexOf, stoichiometryOf } from '../../../src/trade/chemistry/equivalents.ts';
import type { ReactingGroup } from '../../../src/trade/material.ts';
import { part } from '../example.ts';

const reacting = (name: string, share: number, group: ReactingGroup, grams: number) =>
  part(name, share, { equivalent: { grams, group } });
const weight = fc.double({ min: 20, max: 3000, noNaN: true });
const share = fc.double({ min: 1, max: 200, noNaN: true });

describe('stoichiometry', () => {
  it('is a balance of moles, whatever was printed', () =>
    fc.assert(
      fc.property(weight, weight, share, share, share, (epoxy, amine, resin, hardener, filler) => {
        const parts = [reacting('R', resin, 'epoxy', epoxy), part('F', filler), reacting('H', hardener, 'amine', amine)];
        const found = stoichiometryOf(parts);
        // Moles of groups, counted directly: in so much resin there are resin/epoxy moles, and as many hydrogens take them up.
        const moles = resin / epoxy;
        expect(found?.shares).toEqual([resin, filler, expect.closeTo(moles * amine, 6)]);
        expect(found?.partsPerHundred).toBeCloseTo((100 * moles * amine) / resin, 6);
        expect(found?.printedIndex).toBeCloseTo(hardener / amine / moles, 6);
        expect(indexOf(parts, found?.shares ?? [])).toBeCloseTo(1, 9);
      }),
    ));

  it.each<[string, [ReactingGroup, ReactingGroup]]>([
    ['two of a side', ['amine', 'polyol']],
    ['twice the same', ['epoxy', 'epoxy']],
    ['what does not react', ['isocyanate', 'epoxy']],
  ])('is not known of %s', (_, [a, b]) =>
    expect(stoichiometryOf([reacting('A', 100, a, 190), reacting('B', 30, b, 60)])).toBeNull(),
  );

  it('is not known where only one side is', () =>
    expect(stoichiometryOf([reacting('A', 100, 'isocyanate', 140), part('B', 90)])).toBeNull());

  it('has no index where a side is missing from the cup', () =>
    expect(indexOf([reacting('A', 100, 'epoxy', 190), reacting('B', 30, 'amine', 57)], [100, 0])).toBeNull());
});
