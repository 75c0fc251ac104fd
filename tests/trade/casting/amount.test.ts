import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { castAmount, castBatches } from '../../../src/trade/casting/amount.ts';
import { parseOverpour } from '../../../src/trade/casting/asked.ts';
import { cavityFromWater } from '../../../src/trade/casting/water.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { material, part } from '../example.ts';

const resin = material([part('A', 100, { gramsPerMillilitre: 1.05 }), part('B', 100, { gramsPerMillilitre: 1.05 })]);
const amount = (of: Parameters<typeof castAmount>[1]) => {
  const found = castAmount(resin, of);
  if (isRefusal(found)) throw new Error(found.code);
  return found;
};

describe('what one casting takes', () => {
  test('is its volume by the density, and what is poured beyond it', () => {
    // By hand: 350 mL × 1.05 g/mL = 367.5 g; × 1.05 = 385.875 g; × 1.04 = 401.31 g.
    const { castingGrams, gramsEach } = amount({ millilitres: 350, overpour: { percent: 5 }, wastePercent: 0 });
    expect([castingGrams, gramsEach]).toEqual([expect.closeTo(367.5, 9), expect.closeTo(385.875, 9)]);
    expect(amount({ millilitres: 350, overpour: { percent: 5 }, wastePercent: 4 }).gramsEach).toBeCloseTo(401.31, 9);
  });

  test('of an amount for the sprue is that amount more', () => {
    // 20 mL are 21 g, 5.71 % of 367.5 g.
    const ask = { millilitres: 350, wastePercent: 0 };
    const more = amount({ ...ask, overpour: { quantity: { kind: 'volume', millilitres: 20 } } });
    expect(more.gramsEach).toBeCloseTo(388.5, 9);
    expect(more.overpourPercent).toBeCloseTo(5.714286, 5);
    expect(amount({ ...ask, overpour: { quantity: { kind: 'mass', grams: 30 } } }).gramsEach).toBeCloseTo(397.5, 9);
  });

  test('cannot be said without densities', () => {
    const found = castAmount(material([part('A', 1), part('B', 1)]), {
      millilitres: 1,
      overpour: { percent: 0 },
      wastePercent: 0,
    });
    expect(isRefusal(found) && found.code).toBe('density-missing');
  });

  // The shop's rule of thumb: the water's weight times the density of the mix. Water is within 0.2 % of 1 g/mL at the bench.
  test('is near the water’s weight times the density', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 5000, noNaN: true }),
        fc.double({ min: 5, max: 22, noNaN: true }),
        (grams, celsius) => {
          const { castingGrams } = amount({
            millilitres: cavityFromWater(grams, celsius),
            overpour: { percent: 0 },
            wastePercent: 0,
          });
          expect(Math.abs(castingGrams / (grams * 1.05) - 1)).toBeLessThan(0.0025);
        },
      ),
    );
  });
});

describe('the cups', () => {
  const scale = { stepGrams: 1, mostGrams: null };
  const even = { shares: [1, 1], tolerancePercent: 5 };
  const cups = (pieces: number, each: number, most: number | null) =>
    castBatches(pieces, each, most, even, scale).map(({ count, castings, cup }) => [count, castings, cup.grams]);

  test.each([
    [3, 420, 500, [[3, 1, 420]]],
    [3, 300, 500, [[3, 1, 300]]],
    // Two castings to a cup, and one is left.
    [
      5,
      200,
      500,
      [
        [2, 2, 400],
        [1, 1, 200],
      ],
    ],
    [4, 200, null, [[1, 4, 800]]],
    // More than may be mixed at once.
    [2, 900, 500, [[4, 0.5, 450]]],
  ])('for %d castings of %d g, at most %s g at once', (pieces, each, most, expected) => {
    expect(cups(pieces, each, most)).toEqual(expected);
  });

  test('are the fewest that hold whole castings, fill all of them, and are never too large', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 50, max: 3000 }),
        fc.option(fc.integer({ min: 200, max: 2000 })),
        (pieces, each, most) => {
          const batches = castBatches(pieces, each, most, even, scale);
          const filled = batches.reduce((sum, { count, castings }) => sum + count * castings, 0);
          expect(filled).toBeCloseTo(pieces, 9);
          for (const { cup } of batches) if (most !== null) expect(cup.grams).toBeLessThanOrEqual(most);
          const mixed = batches.reduce((sum, { count, cup }) => sum + count * cup.grams, 0);
          // Each part is rounded to a gram.
          const inAll = batches.reduce((sum, { count }) => sum + count, 0);
          expect(Math.abs(mixed - pieces * each)).toBeLessThanOrEqual(inAll);
          // By packing one after the other: a new cup whenever the next casting would not fit.
          if (most !== null && each <= most) {
            let [packed, room] = [0, 0];
            for (let piece = 0; piece < pieces; piece += 1) {
              if (room < each) {
                packed += 1;
                room = most;
              }
              room -= each;
            }
            expect(inAll).toBe(packed);
          }
        },
      ),
    );
  });
});

describe('an overpour', () => {
  test.each([
    ['5 %', { percent: 5 }],
    ['7,5%', { percent: 7.5 }],
    ['5', { percent: 5 }],
    ['0', { percent: 0 }],
    ['20 mL', { quantity: { kind: 'volume', millilitres: 20 } }],
    ['30g', { quantity: { kind: 'mass', grams: 30 } }],
    ['½ oz', { quantity: { kind: 'mass', grams: 14.1747615625 } }],
  ])('%s is read', (typed, expected) => expect(parseOverpour(typed)).toEqual(expected));

  test.each([
    ['200 %', 'share-out-of-range'],
    ['a bit', 'percent-unreadable'],
    ['-5 %', 'number-negative'],
    ['20 spoons', 'unit-unknown'],
  ])('%s is refused', (typed, expected) => {
    const refused = parseOverpour(typed);
    expect(isRefusal(refused) && refused.code).toBe(expected);
  });
});
