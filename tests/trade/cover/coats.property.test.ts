import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coatsFor } from '../../../src/trade/cover/coats.ts';

/** In hundredths of a millimetre; a skin may be given in fractions of an inch. */
const sizes = fc.record({
  skin: fc.double({ min: 10, max: 900, noNaN: true }),
  usual: fc.integer({ min: 2, max: 20 }).map((tens) => tens * 10),
  most: fc.integer({ min: 1, max: 6 }).map((fifties) => fifties * 50),
});
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/**
 * The least number of whole coats that grow by `growth` each, the first at most `first`, none over `most`: every number is
 * tried, by the sums that its coats can reach. 0 where none will do.
 */
function leastCoats(skin: number, first: number, most: number, growth: number): number {
  // By the last coat's thickness: every sum that can be reached.
  let reached = new Map<number, Set<number>>();
  for (let coat = 1; coat <= Math.min(first, most); coat += 1) reached.set(coat, new Set([coat]));
  for (let count = 1; count <= 20; count += 1) {
    if ([...reached.values()].some((sums) => sums.has(skin))) return count;
    const next = new Map<number, Set<number>>();
    for (let coat = 1; coat <= most; coat += 1) {
      const sums = new Set<number>();
      for (let before = 1; before <= coat - growth; before += 1)
        for (const total of reached.get(before) ?? []) if (total + coat <= skin) sums.add(total + coat);
      next.set(coat, sums);
    }
    reached = next;
  }
  return 0;
}

describe('coats', () => {
  it('make up just the skin, each thicker than the last, the first thin and none over what holds', () => {
    fc.assert(
      fc.property(sizes, fc.option(fc.integer({ min: 30, max: 400 })), ({ skin, usual, most }, hold) => {
        const coats = coatsFor(skin / 100, usual / 100, most / 100, hold === null ? null : hold / 100);
        if (coats === null) return;
        expect(sum(coats)).toBeCloseTo(skin / 100, 9);
        // By a tenth at least: common practice, no source.
        expect(coats[0]).toBeLessThanOrEqual((0.9 * usual) / 100 + 1e-9);
        for (const [index, coat] of coats.entries()) {
          expect(coat).toBeGreaterThan(coats[index - 1] ?? 0);
          expect(coat).toBeLessThanOrEqual(Math.min(most, hold ?? most) / 100 + 1e-9);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('are as few as trying every number of them finds', () => {
    const small = fc.record({
      skin: fc.integer({ min: 5, max: 260 }),
      usual: fc.integer({ min: 3, max: 9 }).map((tens) => tens * 10),
      most: fc.constantFrom(50, 100),
    });
    fc.assert(
      fc.property(small, ({ skin, usual, most }) => {
        const first = Math.min(Math.floor(usual * 0.9), most);
        // A fiftieth of the thickest, as it is documented.
        const least = leastCoats(skin, first, most, most / 50);
        expect(coatsFor(skin / 100, usual / 100, most / 100, null)?.length ?? 0).toBe(least);
      }),
      { numRuns: 40 },
    );
  });

  it('are null where more than twenty would be needed', () => {
    expect(coatsFor(40, 0.8, 1.5, null)).toBeNull();
    expect(coatsFor(3, 0.8, 1.5, 0.05)).toBeNull();
  });

  // Common practice, no source: a first coat of nine tenths of the usual one at most, no coat over one and a half times it.
  it('go up to one and a half times the usual one where the material says no more', () => {
    expect(coatsFor(0.9, 1, null, null)).toEqual([expect.closeTo(0.9, 9)]);
    expect(coatsFor(0.91, 1, null, null)).toHaveLength(2);
    expect(coatsFor(2.4, 1, null, null)).toEqual([expect.closeTo(0.9, 9), expect.closeTo(1.5, 9)]);
    expect(coatsFor(2.41, 1, null, null)).toHaveLength(3);
  });

  it('keep the proportions of the recipes where there is room', () => {
    // 0.7, 0.9, 1.1 and 1.3 times the usual coat, as the shipped recipes have it: common practice, no source.
    expect(coatsFor(4, 1, 1.3, null)?.map((coat) => coat.toFixed(1))).toEqual(['0.7', '0.9', '1.1', '1.3']);
  });
});
