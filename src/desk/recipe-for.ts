import { type Recipe, rolesOf } from '../job/recipe.ts';
import { shellKindOf, type Use } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import type { Typed } from './examples.ts';
import { pick } from './resolve.ts';

/**
 * The recipe that is named, else the first with steps for all the roles that a material is named for, if there is one for how its
 * shell is built, that (else just the first).
 * `lineOf`: the line that an example would be. Refusal: `unknown-recipe`.
 */
export function recipeFor(
  { recipes, materials }: Desk,
  typed: string | undefined,
  roles: Typed,
  lineOf: (recipe: string) => string,
): Recipe | Refusal {
  if (typed !== undefined) return pick('recipe', typed, recipes, lineOf);
  const named = namedRoles(roles);
  const fit = recipes.filter((recipe) => named.every((role) => rolesOf(recipe).includes(role)));
  const backing = roles['shell'] === undefined ? null : pick('material', roles['shell'], materials, lineOf);
  const kind = backing === null || isRefusal(backing) ? null : shellKindOf(backing);
  const built = fit.find(({ shell }) => kind !== null && shell === kind);
  return (
    built ??
    fit[0] ??
    recipes[0] ??
    new Refusal('unknown-recipe', say`There is no recipe yet.`, { example: lineOf('skin-paste') })
  );
}

const namedRoles = (roles: Typed): Use[] =>
  (['detail', 'skin', 'shell', 'casting'] as const).filter((role) => roles[role] !== undefined);

/** A line for each material that is named for a role which the recipe has no step for. */
export const leftOutLines = (recipe: Recipe, roles: Typed): Text[] =>
  namedRoles(roles)
    .filter((role) => !rolesOf(recipe).includes(role))
    .map((role) => say`${recipe.name} has no step with a ${plain(role)} material: “${roles[role] ?? ''}” is left out.`);
