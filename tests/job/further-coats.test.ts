import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { laidOut } from '../../src/job/laid-out.ts';
import { plannedSteps } from '../../src/job/planned.ts';
import type { Recipe, RecipeStep } from '../../src/job/recipe.ts';
import { bareArea } from '../../src/trade/body/body.ts';
import { coverOf } from '../../src/trade/cover/cover.ts';
import { recipeOf as recipe } from '../support/recipes.ts';
import { good, refused } from '../trade/asks.ts';
import { material, part } from '../trade/example.ts';

const RUBBER = material([part('A', 1, { gramsPerMillilitre: 1.2 })], {
  coat: { thicknessMillimetres: 1, mostMillimetres: 2 },
  recoat: { fromMinutes: 45, untilMinutes: 180 },
  demouldMinutes: 960,
});
const coat = (id: string, title: string, more: Partial<RecipeStep> = {}): RecipeStep => ({
  id,
  title,
  kind: 'coat',
  handsMinutes: 15,
  role: 'skin',
  layer: { timesUsualCoat: 1 },
  wait: { kind: 'recoat' },
  advice: `Advice of ${id}.`,
  check: null,
  ...more,
});
const trim: RecipeStep = { ...coat('trim', 'Trim'), kind: 'finish', role: null, layer: null, wait: { kind: 'none' } };
const laid = (of: Recipe, skinMillimetres: number) =>
  laidOut(of, { skin: RUBBER }, { skinMillimetres, shellMillimetres: null, body: null });
const names = (of: Recipe, skin: number) => good(laid(of, skin)).steps.map(({ step }) => `${step.id}: ${step.title}`);

const NOTHING_ADDED = { reliefFactor: 1, flangeMillimetres: null, partingMillimetres: null, edgePercent: 0 };
const LAST = coat('coat-2', 'Second coat', { wait: { kind: 'cure' }, handsMinutes: 20 });
const TWO = recipe(coat('coat-1', 'First coat'), LAST, trim);

describe('further coats', () => {
  it('come after the recipe’s last one, which hands them its wait and its advice', () => {
    const steps = good(plannedSteps(good(laid(TWO, 6)), { cover: good(coverOf(bareArea(1), NOTHING_ADDED)), wastePercent: 0 }));
    expect(steps.map(({ id, title, handsMinutes, wait, advice }) => [id, title, handsMinutes, wait?.kind, advice])).toEqual([
      ['coat-1', 'First coat', 15, 'recoat', 'Advice of coat-1.'],
      ['coat-2', 'Second coat', 20, 'recoat', 'Advice of coat-1.'],
      ['coat-3', 'Third coat', 20, 'recoat', 'Advice of coat-1.'],
      ['coat-4', 'Fourth coat', 20, 'cure', 'Advice of coat-2.'],
      ['trim', 'Trim', 15, undefined, 'Advice of trim.'],
    ]);
    // 1 m² × 6 mm × 1.2 kg/L, by hand.
    expect(steps.reduce((sum, { grams }) => sum + (grams ?? 0), 0)).toBeCloseTo(7200, 1);
  });

  it('leave a recipe alone that needs none', () => {
    expect(good(laid(TWO, 3)).steps.map(({ step }) => step)).toEqual(TWO.steps);
    expect(good(laid(TWO, 3)).splits).toEqual([]);
    expect(good(laid(TWO, 6)).splits).toEqual([{ role: 'skin', ruled: 2, coats: 4, limit: { by: 'most', millimetres: 2 } }]);
  });

  it('have names that go on from the last one’s, and ids that are free', () => {
    const only = (id: string, title: string, ...others: RecipeStep[]) =>
      names(recipe(coat(id, title, { wait: { kind: 'cure' } }), ...others), 4);
    expect(only('skin', 'Thick coat')).toEqual(['skin: Thick coat', 'skin-2: Thick coat 2', 'skin-3: Thick coat 3']);
    expect(only('c9', 'Coat 9')).toEqual(['c9: Coat 9', 'c-10: Coat 10', 'c-11: Coat 11']);
    expect(only('coat-1', 'First coat', { ...trim, id: 'coat-2' })).toEqual([
      'coat-1: First coat',
      'coat-3: Second coat',
      'coat-4: Third coat',
      'coat-2: Trim',
    ]);
    expect(names(TWO, 30).at(-2)).toMatch(/^coat-(1\d|20): [A-Z][a-z]+(teenth|tieth|venth|elfth) coat$/);
  });

  it('are as many as any thickness takes: ids of their own, each thicker than the last, the wait for the cure at the end', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 600 }), (tenths) => {
        const out = laid(TWO, tenths / 10);
        if (!('steps' in out)) {
          const offered = Number.parseFloat(refused(out).example ?? '');
          expect(offered).toBeLessThan(tenths / 10);
          expect('steps' in laid(TWO, offered)).toBe(true);
          return;
        }
        const coats = out.steps.filter(({ step }) => step.kind === 'coat');
        expect(new Set(out.steps.map(({ step }) => step.id)).size).toBe(out.steps.length);
        expect(coats.map(({ step }) => step.wait.kind)).toEqual([...coats.slice(1).map(() => 'recoat'), 'cure']);
        const thick = coats.map(({ layerMillimetres }) => layerMillimetres ?? 0);
        expect(thick.reduce((sum, each) => sum + each, 0)).toBeCloseTo(tenths / 10, 4);
        expect(Math.max(...thick)).toBeLessThanOrEqual(2 + 1e-6);
        if (thick.length > 2)
          for (const [index, each] of thick.slice(1).entries()) expect(each).toBeGreaterThan(thick[index] ?? 0);
      }),
      { numRuns: 600 },
    );
  });
});
