import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { good, gramsOf, mixOf } from '../trade/asks.ts';
import { ab, material, part } from '../trade/example.ts';

const math = create(all ?? {}, { number: 'BigNumber', precision: 64 });

describe('mix ratios', () => {
  it('1:1 by volume at 1.10 and 0.98 g/mL is 100:89.09 by weight, and back', () => {
    // From the definition of density, worked out again with mathjs: no published value.
    const share = Number(math.evaluate('100 * 0.98 / 1.10'));
    expect(share).toBeCloseTo(89.09, 2);
    const densities = [1.1, 0.98] as const;
    const byVolume = material([
      part('A', 100, { volumeShare: 1, gramsPerMillilitre: densities[0] }),
      part('B', share, { volumeShare: 1, gramsPerMillilitre: densities[1] }),
    ]);
    const poured = good(mixOf(byVolume, '200 mL', { by: 'volume', scale: { measureStepMillilitres: 1 } }));
    expect((gramsOf(poured, 'B') ?? 0) / (gramsOf(poured, 'A') ?? 0)).toBeCloseTo(share / 100, 9);
    const weighed = good(mixOf(byVolume, `${poured.totalGrams} g`, { scale: { stepGrams: 0.1 } }));
    expect(weighed.parts.map((one) => one.millilitres)).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9)]);
  });

  // Common practice, no source.
  it.each([
    ['a rubber at 80:100', ab(80, 100), '200 g of B', 160, 200],
    ['a paste at 41:100', ab(41, 100), '300 g of B', 123, 300],
    ['a rubber at 1:1', ab(1, 1), '150 g', 75, 75],
  ])('%s', (_, example, amount, a, b) => {
    const mix = good(mixOf(example, amount));
    expect([gramsOf(mix, 'A'), gramsOf(mix, 'B')]).toEqual([a, b]);
    expect(mix.ratioErrorPercent).toBeCloseTo(0, 9);
  });
});
