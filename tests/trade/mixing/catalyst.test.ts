import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { catalystPercent, printedCatalystPercent, withCatalyst } from '../../../src/trade/mixing/catalyst.ts';
import { good, gramsOf, mixOf, refused, words } from '../asks.ts';
import { ab, material, part } from '../example.ts';

const resin = material(
  [
    part('resin', 100, { gramsPerMillilitre: 1.1, volumeShare: 1 }),
    part('peroxide', 1.5, { gramsPerMillilitre: 1.15, volumeShare: (1.5 / 1.15) * (1.1 / 100) }),
  ],
  { family: 'polyester', tolerancePercent: 10, catalyst: { part: 'peroxide', leastPercent: 1, mostPercent: 2 } },
);
const scale = { stepGrams: 0.1 };

describe('a catalyst that may vary', () => {
  // Arithmetic: 500 g of resin and 1.2 % of it are 506 g in all.
  it('is weighed out by the share that was chosen', () => {
    const mix = good(mixOf(good(withCatalyst(resin, 1.2)), '506 g', { scale }));
    expect([gramsOf(mix, 'resin'), gramsOf(mix, 'peroxide')]).toEqual([500, 6]);
    expect(mix.parts[1]?.millilitres).toBeCloseTo(6 / 1.15, 5);
    expect(mix.ratioErrorPercent).toBeCloseTo(0, 6);
  });

  it('keeps the ratio by volume in step', () => {
    const [main, added] = good(withCatalyst(resin, 2)).parts;
    // By volume, two grams at 1.15 g/mL to a hundred at 1.1 g/mL.
    expect((added?.volumeShare ?? 0) / (main?.volumeShare ?? 0)).toBeCloseTo(2 / 1.15 / (100 / 1.1), 12);
  });

  it('is taken for every share within its limits, and for none outside them', () =>
    fc.assert(
      fc.property(fc.oneof(fc.integer({ min: 1, max: 400 }), fc.constantFrom(99, 100, 200, 201)), (hundredths) => {
        const percent = hundredths / 100;
        const chosen = withCatalyst(resin, percent);
        if (percent >= 1 && percent <= 2) {
          expect(printedCatalystPercent(good(chosen))).toBeCloseTo(percent, 9);
          expect(good(chosen).parts[0]).toEqual(resin.parts[0]);
          return;
        }
        expect(refused(chosen)).toMatchObject({ code: 'catalyst-out-of-range', example: percent < 1 ? '1 %' : '2 %' });
      }),
    ));

  it.each([0.99, 0.999, 2.001, 2.01, 15])('is refused at %d %%', (percent) =>
    expect(refused(withCatalyst(resin, percent)).code).toBe('catalyst-out-of-range'),
  );

  it('says what it expected and what it got', () =>
    expect(words(refused(withCatalyst(resin, 3)))).toBe('I expected 1 to 2 % of peroxide for An example, and got 3 %.'));

  it('is refused where the ratio is fixed', () => expect(refused(withCatalyst(ab(80, 100), 1)).code).toBe('ratio-fixed'));
});

describe('the share in a cup', () => {
  it.each([
    [[500, 6], 1.2],
    [[500, 0], null],
    [[0, 6], null],
  ] as const)('of %j is %s', (grams, percent) => expect(catalystPercent(resin, grams)).toBe(percent));
  it('is none of a fixed ratio', () => expect(catalystPercent(ab(80, 100), [80, 100])).toBeNull());
});
