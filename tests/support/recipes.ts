import type { Recipe, RecipeStep } from '../../src/job/recipe.ts';

export const COAT: RecipeStep = {
  id: 'coat-1',
  title: 'First coat',
  kind: 'coat',
  handsMinutes: 15,
  role: 'skin',
  layer: { timesUsualCoat: 0.7 },
  wait: { kind: 'recoat' },
  advice: null,
  check: null,
};

/** A recipe of nothing but these steps. */
export const recipeOf = (...steps: readonly RecipeStep[]): Recipe => ({
  id: 'some',
  name: 'Some',
  summary: 'Some',
  version: 1,
  shell: null,
  steps,
});
