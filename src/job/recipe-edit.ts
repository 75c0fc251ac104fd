import { plainLetters, slug } from '../words/slug.ts';
import type { Recipe, RecipeStep } from './recipe.ts';

/** A recipe with something changed; whether it can be followed, `recipeFaults` tells. */

export type StepChanges = Partial<Omit<RecipeStep, 'id' | 'kind'>>;

export const withStep = (recipe: Recipe, id: string, changes: StepChanges): Recipe => ({
  ...recipe,
  steps: recipe.steps.map((step) => (step.id === id ? { ...step, ...changes } : step)),
});

export const withoutStep = (recipe: Recipe, id: string): Recipe => ({
  ...recipe,
  steps: recipe.steps.filter((step) => step.id !== id),
});

/** `after`: the id of the step that it follows; null where it is to be the first. */
export function withAdded(recipe: Recipe, step: RecipeStep, after: string | null): Recipe {
  const at = after === null ? 0 : recipe.steps.findIndex(({ id }) => id === after) + 1;
  return { ...recipe, steps: [...recipe.steps.slice(0, at), step, ...recipe.steps.slice(at)] };
}

/**
 * The same; a coat right after the last one of its role becomes the last one itself: it waits as that one did, and that one
 * for recoat.
 */
export function withAddedCoat(recipe: Recipe, step: RecipeStep, after: string | null): Recipe {
  const last = recipe.steps.findLast(({ kind, role }) => kind === 'coat' && role === step.role);
  if (step.kind !== 'coat' || last === undefined || last.id !== after) return withAdded(recipe, step, after);
  return withStep(withAdded(recipe, { ...step, wait: last.wait }, after), last.id, { wait: { kind: 'recoat' } });
}

export function withMoved(recipe: Recipe, id: string, after: string | null): Recipe {
  const step = recipe.steps.find((each) => each.id === id);
  return step && id !== after ? withAdded(withoutStep(recipe, id), step, after) : recipe;
}

const LONGEST_ID = 40;

/** An id that can be typed with gloves on: the title in small letters, numbered where it is taken. */
export function freeId(title: string, taken: Iterable<string>, otherwise: string): string {
  const all = new Set(taken);
  const stem = slug(plainLetters(title).replace(/[^a-z0-9]+/gi, ' '), LONGEST_ID - 4) || otherwise;
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? stem : `${stem}-${number}`;
    if (!all.has(id)) return id;
  }
}

/** Whether two versions would be followed in the same way and are called the same. */
export const isSame = (one: Recipe, other: Recipe): boolean =>
  JSON.stringify({ ...one, version: 0 }) === JSON.stringify({ ...other, version: 0 });
