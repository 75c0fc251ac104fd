import type { Studio } from '../bench/studio.ts';
import { recipesOf } from '../bench/studio-recipes.ts';
import type { RecipeView } from '../cards/recipe-card.ts';
import type { Recipe, RecipeStep } from '../job/recipe.ts';
import { USES } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { person, plain, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { line } from './examples.ts';
import { pick } from './resolve.ts';

/** The line that a refusal's example would be, with other options than were typed. */
export type LineOf = (options: Readonly<Record<string, string | undefined>>) => string;

/** The recipe as this studio works with it just now, and the program's beside it. */
export const viewOf = (desk: Desk, studio: Studio, recipe: Recipe): RecipeView => ({
  recipe,
  studio,
  shipped: desk.shippedRecipes.find(({ id }) => id === recipe.id) ?? null,
});

/** Refusal: `unknown-recipe`. */
export const recipeNamed = (desk: Desk, studio: Studio, typed: string, lineOf: LineOf): Recipe | Refusal =>
  pick('recipe', typed, recipesOf(studio, desk.shippedRecipes), (recipe) => lineOf({ recipe }));

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];
const PLACE = new RegExp(
  `^(?:the )?(?:(?<last>last|final)|(?<word>${ORDINALS.join('|')})|(?<number>\\d{1,2})(?:st|nd|rd|th)) (?:(?<role>${USES.join('|')}) )?(?<kind>coat|step)$`,
);

/** "last coat", "3rd coat", "first skin coat", "last step"; null where it is nothing of the kind. Refusal: `unknown-step`. */
function byPlace({ name, steps }: Recipe, typed: string, lineOf: (step: string) => string): RecipeStep | Refusal | null {
  const found = PLACE.exec(typed.trim().toLowerCase().replace(/\s+/g, ' '))?.groups;
  if (!found) return null;
  const { last, word = '', number, role, kind } = found;
  const all = steps.filter((each) => (kind === 'step' || each.kind === 'coat') && (role === undefined || each.role === role));
  const at = last ? all.length - 1 : number ? Number(number) - 1 : ORDINALS.indexOf(word);
  const end = all.at(-1);
  const meant = `${role === undefined ? '' : `${role} `}${kind}`;
  const many = all.length === 0 ? `no ${meant}` : all.length === 1 ? `1 ${meant}` : `${all.length} ${meant}s`;
  return (
    all[at] ??
    new Refusal('unknown-step', say`${name} has ${plain(many)}, got “${typed}”.`, {
      example: end ? lineOf(end.id) : lineOf(steps[0]?.id ?? ''),
    })
  );
}

/** The step that is named by id, by number, by title, or by its place among the coats. Refusal: `unknown-step`. */
export function stepNamed(recipe: Recipe, typed: string, lineOf: (step: string) => string): RecipeStep | Refusal {
  const found = pick(
    'step',
    typed,
    recipe.steps.map((step) => ({ ...step, name: step.title })),
    lineOf,
  );
  const id = isRefusal(found) ? undefined : found.id;
  const [, number] = /^\s*#?(\d{1,3})[.)]?\s*$/.exec(typed) ?? [];
  const step = recipe.steps.find((each) => each.id === id) ?? recipe.steps[Number(number) - 1];
  if (step) return step;
  const placed = byPlace(recipe, typed, lineOf);
  if (placed) return placed;
  if (number === undefined) return found as Refusal;
  return new Refusal('unknown-step', say`${recipe.name} has the steps 1 to ${recipe.steps.length}, got “${typed}”.`, {
    example: lineOf(recipe.steps.at(-1)?.id ?? ''),
  });
}

const START = /^\s*(?:the\s+)?(?:start|first|begin(?:ning)?|top|nothing|none)\s*$/i;

/** The id of the step after which one is to stand; null for the start. A step of that name goes before the word. */
export function placeNamed(recipe: Recipe, typed: string, lineOf: (step: string) => string): string | null | Refusal {
  const step = stepNamed(recipe, typed, lineOf);
  if (!isRefusal(step)) return step.id;
  return START.test(typed) ? null : step;
}

/** A version of a recipe, whether it counts or not; null where it is not known. */
export function versionOf(desk: Desk, studio: Studio, id: string, version: number): Recipe | null {
  const known = [
    ...desk.shippedRecipes.filter((recipe) => recipe.id === id),
    ...(studio.recipes.get(id)?.saved ?? []).map(({ recipe }) => recipe),
  ];
  return known.find((recipe) => recipe.version === version) ?? null;
}

/** Refusal: `unknown-version`. */
export function versionNamed(
  desk: Desk,
  studio: Studio,
  recipe: Pick<Recipe, 'id' | 'name' | 'version'>,
  version: number,
  lineOf: (version: string) => string,
): Recipe | Refusal {
  return (
    versionOf(desk, studio, recipe.id, version) ??
    new Refusal('unknown-version', say`${recipe.name} has no version ${version}: the newest is ${recipe.version}.`, {
      example: lineOf(String(recipe.version)),
    })
  );
}

/** Why a change that was meant for one version is not made to another; null where it is that version, or none was named. */
export function changedMeanwhile({ recipes }: Studio, recipe: Recipe, asked: number | undefined, lineOf: LineOf): Refusal | null {
  if (asked === undefined || asked === recipe.version) return null;
  const last = recipes.get(recipe.id)?.saved.at(-1);
  const by = last === undefined || last.dropped !== null ? say`` : say`, by ${person(last.by)}`;
  return new Refusal(
    'recipe-changed',
    say`${recipe.name} is at version ${recipe.version} now${by}; this was meant for version ${asked}. Look at it first.`,
    {
      example: lineOf({ version: String(recipe.version) }),
      ways: [{ label: 'Show it', command: 'recipe show', options: { recipe: recipe.id } }],
    },
  );
}

export const showLine = (recipe: string): string => line('recipe show', { recipe });
