import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, bareArea } from '../../../src/trade/body/body.ts';
import { shellByRecipe } from '../../../src/trade/cover/mould.ts';
import { coatsByRecipe, type LayerRule, thickestSkin } from '../../../src/trade/cover/skin.ts';
import { material, part } from '../example.ts';

const RUBBER = material([part('A', 1, { gramsPerMillilitre: 1.2 })], {
  coat: { thicknessMillimetres: 1, mostMillimetres: 2 },
});
const PASTE = { ...RUBBER, coat: { thicknessMillimetres: 10, mostMillimetres: 15 } };
const times = (...all: number[]): LayerRule[] => all.map((timesUsualCoat) => ({ timesUsualCoat }));
/** As the shipped recipes have them: common practice, no source. */
const FOUR = times(0.7, 0.9, 1.1, 1.3);
const steep: Body = { ...bareArea(1), steepPercent: 40 };
const sized = (longest: number): Body => ({ ...bareArea(1), boxMillimetres: [longest, 10, 10], longestMillimetres: longest });
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

describe('the coats of a recipe', () => {
  it('are the recipe’s own, in its proportions, as far as none is too thick', () => {
    expect(coatsByRecipe(FOUR, RUBBER, null, null)).toEqual({ millimetres: [0.7, 0.9, 1.1, 1.3], limit: null });
    // The thickest is 1.3 of 4 parts: up to 6.15 mm it stays under 2 mm.
    expect(coatsByRecipe(FOUR, RUBBER, 6, null)?.millimetres).toEqual([1.05, 1.35, 1.65, 1.95]);
    expect(coatsByRecipe([{ millimetres: 1 }, { timesUsualCoat: 2 }], RUBBER, null, null)?.millimetres).toEqual([1, 2]);
  });

  it('may be just as thick as the most, and become more beyond it', () => {
    const bears = (mostMillimetres: number) => ({ ...RUBBER, coat: { thicknessMillimetres: 1, mostMillimetres } });
    expect(coatsByRecipe(FOUR, bears(1.3), null, null)).toEqual({ millimetres: [0.7, 0.9, 1.1, 1.3], limit: null });
    const over = coatsByRecipe(FOUR, bears(1.29), null, null);
    expect(over?.limit).toEqual({ by: 'most', millimetres: 1.29 });
    expect(Math.max(...(over?.millimetres ?? [9]))).toBeLessThanOrEqual(1.29);
    // So also the recipe's own coat, of a material that does not say, beside a wish: one and a half times the usual millimetre.
    const unknown = { ...RUBBER, coat: null };
    expect(coatsByRecipe(times(1), unknown, 1.5, null)?.limit).toBeNull();
    expect(coatsByRecipe(times(1), unknown, 1.51, null)?.limit).toEqual({ by: 'most', millimetres: 1.5 });
  });

  it('become as many as it takes, none over the most, and just the skin together', () => {
    const rules = fc
      .array(fc.integer({ min: 5, max: 15 }), { minLength: 1, maxLength: 6 })
      .map((all) => times(...all.map((each) => each / 10)));
    fc.assert(
      fc.property(rules, fc.integer({ min: 5, max: 400 }), (of, tenths) => {
        const coats = coatsByRecipe(of, RUBBER, tenths / 10, null);
        // Twenty coats of the most, and not all of them can have it.
        if (coats === null) {
          expect(tenths / 10).toBeGreaterThan(30);
          return;
        }
        expect(coats.millimetres.length).toBeGreaterThanOrEqual(of.length);
        expect(sum(coats.millimetres)).toBeCloseTo(tenths / 10, 4);
        expect(Math.max(...coats.millimetres)).toBeLessThanOrEqual(2 + 1e-6);
        // No more than it takes: one fewer could not hold it, each but the first at its most.
        const { length } = coats.millimetres;
        if (length > of.length) expect((length - 1) * 2).toBeLessThan(tenths / 10 + 2 + length * length * 0.04);
      }),
      { numRuns: 1000 },
    );
  });

  it('are more and thinner where no more holds on a steep wall, and the recipe’s where that would be hairs', () => {
    // 15 Pa and 1.2 g/mL hold 15 / (1.2 × 9.80665) = 1.2746 mm upright: the recipe's 1.3 mm run, if barely.
    const runny = { ...RUBBER, yieldPascals: 15 };
    const coats = coatsByRecipe(FOUR, runny, null, steep);
    expect(coats?.limit).toEqual({ by: 'wall', millimetres: expect.closeTo(1.2746, 3) });
    expect(Math.max(...(coats?.millimetres ?? [9]))).toBeLessThanOrEqual(1.2747);
    expect(sum(coats?.millimetres ?? [])).toBeCloseTo(4, 4);
    expect(coatsByRecipe(FOUR, runny, 8, steep)?.millimetres.length).toBeGreaterThan(6);
    expect(coatsByRecipe(FOUR, runny, null, bareArea(1))?.limit).toBeNull();
    expect(coatsByRecipe(FOUR, { ...RUBBER, yieldPascals: 0.5 }, null, steep)).toEqual({
      millimetres: [0.7, 0.9, 1.1, 1.3],
      limit: null,
    });
  });

  it('are refused where twenty would not do, and what is offered does', () => {
    expect(coatsByRecipe(FOUR, RUBBER, 60, null)).toBeNull();
    const offered = thickestSkin(FOUR, RUBBER, 60);
    expect(offered).toBeGreaterThan(25);
    expect(coatsByRecipe(FOUR, RUBBER, offered, null)?.millimetres.length).toBeLessThanOrEqual(20);
  });

  it('given in millimetres stay, of a material that does not say what it bears', () => {
    const unknown = { ...RUBBER, coat: null };
    expect(coatsByRecipe([{ millimetres: 5 }], unknown, null, null)?.millimetres).toEqual([5]);
    expect(coatsByRecipe([{ millimetres: 5 }], unknown, 4, null)?.millimetres).toEqual([4]);
  });
});

describe('the shell of a recipe', () => {
  // The size's own rule is tested beside the mould; 650 mm want 9 mm, 3 m want 12.
  it.each([
    ['grows with the size', times(1), 3000, null, [12]],
    ['is no thinner than the usual layer', times(1), 650, null, [10]],
    ['is no thinner than the recipe has it', times(1, 1), 3000, null, [10, 10]],
    ['keeps its proportions', times(0.2, 0.4), 3000, null, [4, 8]],
    ['stays as it is where it is given in millimetres', [{ millimetres: 7 }], 3000, null, [7]],
    ['is as it is wished for', [{ millimetres: 4 }, { timesUsualCoat: 1 }], 3000, 28, [8, 20]],
  ] as const)('%s', (_, rules, longest, wish, thick) => {
    expect(shellByRecipe(rules, PASTE, wish, sized(longest))).toEqual(thick);
  });

  it('is the usual one where no size is known', () => {
    expect(shellByRecipe(times(1), PASTE, null, null)).toEqual([10]);
  });
});
