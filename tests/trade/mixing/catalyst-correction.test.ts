import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withCatalyst } from '../../../src/trade/mixing/catalyst.ts';
import { correctCatalyst, hopelessTimes } from '../../../src/trade/mixing/catalyst-correction.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { good, refused } from '../asks.ts';
import { material, part } from '../example.ts';

const polyester = (least: number, printed: number, most: number) =>
  material([part('resin', 100), part('catalyst', printed)], {
    family: 'polyester',
    tolerancePercent: 10,
    catalyst: { part: 'catalyst', leastPercent: least, mostPercent: most },
  });
const RESIN = polyester(0.9, 1.5, 2.2);
const fine = { stepGrams: 0.1, roomGrams: null };
const fixed = (resin: number, catalyst: number, limits: Parameters<typeof correctCatalyst>[2] = fine) => {
  const found = correctCatalyst(RESIN, [resin, catalyst], limits);
  if (found === null) throw new Error('not of this kind');
  return good(found);
};

describe('a catalyst whose share may vary', () => {
  // Arithmetic: 24 g are 2.2 % of 1090.91 g; 24/1000 over 2.2 % is 1.0909; 8.2/1000 under 0.9 % is 0.9111.
  it('has its range for a limit, and no tolerance on top of it', () => {
    expect(fixed(1000, 24)).toMatchObject({ verdict: 'add', add: { part: 'resin', grams: 91 } });
    expect(fixed(1000, 24).errorPercentBefore).toBeCloseTo(9.0909, 3);
    expect(fixed(1000, 8.2)).toMatchObject({ verdict: 'add', add: { part: 'catalyst', grams: 6.8 } });
    expect(fixed(1000, 8.2).errorPercentBefore).toBeCloseTo(8.8889, 3);
  });
  it.each([9, 15, 22])('of %d g to 1 kg is good', (grams) =>
    expect(fixed(1000, grams)).toMatchObject({ verdict: 'good', add: null, errorPercentBefore: 0 }),
  );
  it('that is missing, or alone, is brought to what is printed', () => {
    expect(fixed(1000, 0)).toMatchObject({ add: { part: 'catalyst', grams: 15 }, errorPercentBefore: 100 });
    expect(fixed(0, 15)).toMatchObject({ add: { part: 'resin', grams: 1000 }, errorPercentBefore: 100 });
  });
  it('that somebody named is held to that, and to the range', () => {
    const two = withCatalyst(RESIN, 2.2);
    if (isRefusal(two)) throw new Error(two.code);
    // 2.3 % is within a tenth of 2.2 %, and above the most.
    expect(correctCatalyst(two, [1000, 23], fine, true)).toMatchObject({ verdict: 'add', add: { part: 'resin' } });
    expect(correctCatalyst(two, [1000, 21], fine, true)).toMatchObject({ verdict: 'good' });
    expect(correctCatalyst(two, [1000, 15], fine, true)).toMatchObject({ add: { part: 'catalyst', grams: 7 } });
  });
  it('needs a scale that shows it', () => {
    const found = correctCatalyst(RESIN, [20, 0.1], { stepGrams: 1, roomGrams: null });
    expect(found === null ? null : refused(found).code).toBe('scale-too-coarse');
  });
  it('is too much where the cup has no room', () =>
    expect(fixed(1000, 24, { stepGrams: 0.1, roomGrams: 1050 }).verdict).toBe('too-much'));
  it('is nothing of a ratio that is fixed', () =>
    expect(correctCatalyst(material([part('A', 1), part('B', 1)]), [1, 2], fine)).toBeNull());

  // By trying every gram of either part in turn: the first of resin that will do, and no more than the catalyst's range.
  it('is thinned with the least that will do, and comes out within its range', () => {
    fc.assert(
      fc.property(fc.integer({ min: 200, max: 2000 }), fc.integer({ min: 1, max: 80 }), (resin, catalyst) => {
        const found = correctCatalyst(RESIN, [resin, catalyst], { stepGrams: 1, roomGrams: null });
        if (found === null || isRefusal(found)) {
          // No whole gram of catalyst lies in the range.
          expect(Math.floor((resin * 2.2) / 100) * 100).toBeLessThan(resin * 0.9);
          return;
        }
        let thinned = resin;
        while (100 * catalyst > 2.2 * thinned + 1e-6) thinned += 1;
        const more = (name: string) => found.adds.find((one) => one.part === name)?.grams ?? 0;
        expect(more('resin')).toBe(thinned - resin);
        const share = (100 * (catalyst + more('catalyst'))) / (resin + more('resin'));
        expect(share).toBeGreaterThan(0.9 - 1e-6);
        expect(share).toBeLessThan(2.2 + 1e-6);
      }),
    );
  });
});

describe('far too much of it', () => {
  it.each([
    [4.4, null],
    [4.5, 4.5 / 2.2],
    [1.5, null],
    [null, null],
  ])('of %s percent', (percent, times) => {
    const found = hopelessTimes(RESIN, percent);
    if (times === null) expect(found).toBeNull();
    else expect(found).toBeCloseTo(times, 9);
  });
});
