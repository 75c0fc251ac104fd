import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cupsOf } from '../../../src/trade/mixing/batches.ts';
import { smallestBatchGrams, weigh } from '../../../src/trade/mixing/mix.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { material, part } from '../example.ts';

const share = fc.integer({ min: 1, max: 200 });

test('what a card says of a cup is what the mix then comes to, and never too little to be weighed true', () => {
  fc.assert(
    fc.property(
      fc.record({
        shares: fc.array(share, { minLength: 2, maxLength: 3 }),
        tolerancePercent: fc.integer({ min: 1, max: 15 }),
        needed: fc.double({ min: 0.1, max: 5000, noNaN: true }),
        mostGrams: fc.option(fc.integer({ min: 2000, max: 9000 })),
        stepGrams: fc.constantFrom(0.1, 0.5, 1),
        carries: fc.option(fc.integer({ min: 2000, max: 9000 })),
      }),
      ({ shares, tolerancePercent, needed, mostGrams, stepGrams, carries }) => {
        const of = material(
          shares.map((each, index) => part('ABC'.charAt(index), each)),
          { tolerancePercent, mostGrams },
        );
        const least = smallestBatchGrams(of, stepGrams);
        fc.pre(least < 1000);
        const scale = { stepGrams, mostGrams: carries };
        const cups = cupsOf(needed, mostGrams, { shares, tolerancePercent }, scale);
        const amount = { quantity: { kind: 'mass', grams: cups.askGrams } as const, of: null };
        const mix = weigh(of, { amount, by: 'weight', additives: [] }, { ...scale, measureStepMillilitres: 5 });
        if (isRefusal(mix)) throw new Error(`refused: ${mix.code}`);
        expect(cups.grams).toBeCloseTo(mix.totalGrams, 6);
        expect(cups.raised).toBe(needed / cups.count < least * (1 - 1e-9));
        if (cups.raised) expect(cups.grams).toBeGreaterThanOrEqual(least * (1 - 1e-9));
      },
    ),
  );
});

test('rounding does not take a cup of three parts below the least that can be weighed true', () => {
  const ratio = { shares: [136, 1, 102], tolerancePercent: 2 };
  const of = material(
    ratio.shares.map((each, index) => part('ABC'.charAt(index), each)),
    { tolerancePercent: 2 },
  );
  const cups = cupsOf(0.1, null, ratio, { stepGrams: 0.1, mostGrams: null });
  expect(cups.raised).toBe(true);
  expect(cups.grams).toBeGreaterThanOrEqual(smallestBatchGrams(of, 0.1) * (1 - 1e-9));
});

test('a cup is never raised beyond what may be mixed at once', () => {
  // A part in a hundred, forgiven by 1 %, in steps of an ounce: a true cup would weigh kilograms.
  const ratio = { shares: [100, 2], tolerancePercent: 1 };
  const cups = cupsOf(85, 1000, ratio, { stepGrams: 28.349523125, mostGrams: null });
  expect(cups).toMatchObject({ count: 1, askGrams: 85, raised: false, scaleTooCoarse: true });
});

test('without a ratio an amount stands as it is', () =>
  expect(cupsOf(900, 600, null, { stepGrams: 1, mostGrams: null })).toEqual({
    count: 2,
    askGrams: 450,
    grams: 450,
    raised: false,
    scaleTooCoarse: false,
  }));
