import type { Recipe } from '../job/recipe.ts';

/** A recipe that a studio changed from chat, or made: what it is now, and all that it was. */
export interface OwnRecipe {
  /** Null where it was dropped: then the program's counts, if there is one of that id. */
  readonly current: Recipe | null;
  /** Every version that was saved, the oldest first. */
  readonly saved: readonly SavedRecipe[];
}

export interface SavedRecipe {
  readonly recipe: Recipe;
  /** What it was made from: the version before it, or another recipe that was copied. */
  readonly basedOn: { readonly id: string; readonly version: number };
  readonly at: number;
  readonly by: string;
  /** When it was done away with. */
  readonly dropped: { readonly at: number; readonly by: string } | null;
}

/** By the recipe's id. */
export type OwnRecipes = ReadonlyMap<string, OwnRecipe>;

export const withSaved = (recipes: OwnRecipes, { recipe, ...saved }: Omit<SavedRecipe, 'dropped'>): OwnRecipes => {
  const before = recipes.get(recipe.id)?.saved ?? [];
  return new Map([...recipes, [recipe.id, { current: recipe, saved: [...before, { recipe, ...saved, dropped: null }] }]]);
};

export function withDropped(recipes: OwnRecipes, id: string, dropped: NonNullable<SavedRecipe['dropped']>): OwnRecipes {
  const before = recipes.get(id)?.saved ?? [];
  const saved = before.map((each, index) => (index === before.length - 1 ? { ...each, dropped } : each));
  return new Map([...recipes, [id, { current: null, saved }]]);
}

/** The recipes that a studio works with: the program's, its own in place of them, and after them those it made itself. */
export function recipesOf({ recipes }: { readonly recipes: OwnRecipes }, shipped: readonly Recipe[]): readonly Recipe[] {
  const made = [...recipes.values()].flatMap(({ current }) =>
    current === null || shipped.some(({ id }) => id === current.id) ? [] : [current],
  );
  return [...shipped.map((recipe) => recipes.get(recipe.id)?.current ?? recipe), ...made];
}

/** The version that a change of this recipe makes. A number that was given never means anything else again. */
export const nextVersion = (recipes: OwnRecipes, { id, version }: Pick<Recipe, 'id' | 'version'>): number =>
  Math.max(version, ...(recipes.get(id)?.saved ?? []).map(({ recipe }) => recipe.version)) + 1;
