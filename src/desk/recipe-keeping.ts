import { nextVersion, recipesOf } from '../bench/studio-recipes.ts';
import { backWay, changedCard, historyCard, recipeData, showWay } from '../cards/recipe-card.ts';
import { type Card, card } from '../chat/card.ts';
import type { Recipe } from '../job/recipe.ts';
import { freeId, isSame } from '../job/recipe-edit.ts';
import { named } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { type Kept, line } from './examples.ts';
import { changeRecipe, lineOfAsked } from './recipe-changing.ts';
import { changedMeanwhile, type LineOf, recipeNamed, showLine, versionNamed, versionOf, viewOf } from './recipe-finding.ts';
import { pick } from './resolve.ts';

/** A recipe as a whole: copied, renamed, taken back, done away with. */

/** Refusal: `recipe-exists`. */
function taken(name: string, recipes: readonly Recipe[], but: string | null, lineOf: LineOf): Refusal | null {
  const other = recipes.find((each) => each.id !== but && named(name, [each.name, each.id]) !== undefined);
  if (!other) return null;
  const free = [2, 3, 4, 5, 6, 7, 8, 9]
    .map((number) => `${name.slice(0, 56)} ${number}`)
    .find((each) => !recipes.some((recipe) => named(each, [recipe.name, recipe.id]) !== undefined));
  return new Refusal('recipe-exists', say`There is a recipe called “${name}” already: ${other.id}.`, {
    example: lineOf({ name: free }),
    ways: [showWay(other)],
  });
}

/** A new recipe with the steps of another. Refusals: `unknown-recipe`, `recipe-exists`. */
export async function copyRecipe(desk: Desk, input: { recipe: string; name: Kept<string> }): Promise<Card | Refusal> {
  const name = input.name.value;
  const lineOf = lineOfAsked({ command: 'recipe copy', recipe: input.recipe, options: { name } });
  const made: { from: Recipe; copy: Recipe }[] = [];
  const studio = await desk.house.changeStudio((now) => {
    const from = recipeNamed(desk, now, input.recipe, lineOf);
    if (isRefusal(from)) return from;
    const all = recipesOf(now, desk.shippedRecipes);
    const exists = taken(name, all, null, lineOf);
    if (exists) return exists;
    const id = freeId(
      name,
      all.map((each) => each.id),
      'recipe',
    );
    const copy = { ...from, id, name, version: nextVersion(now.recipes, { id, version: 0 }) };
    made.push({ from, copy });
    const basedOn = { id: from.id, version: from.version };
    return [{ version: 1, type: 'RecipeSaved', at: desk.now, by: desk.who, recipe: copy, basedOn }];
  });
  if (isRefusal(studio)) return studio;
  const kept = made.at(-1);
  if (!kept) throw new Error('a recipe that was kept was never made');
  const { from, copy } = kept;
  return card(
    say`${copy.name} is a recipe of this studio now`,
    [
      say`Id: ${copy.id}. Copied from ${from.name}${from.version === 1 ? say`` : say`, version ${from.version}`}: ${copy.steps.length} steps.`,
      say`Change a step with ${plain('/recipe step')}; start a job with recipe:${copy.id}.`,
    ],
    {
      data: { recipe: recipeData(viewOf(desk, studio, copy)), basedOn: { id: from.id, version: from.version } },
      buttons: [showWay(copy)],
    },
  );
}

interface Renaming {
  readonly recipe: string;
  readonly name?: Kept<string> | undefined;
  readonly summary?: Kept<string> | undefined;
  readonly version?: number | undefined;
}

/** Refusals: `nothing-to-set`, `recipe-exists`, and those of `changeRecipe`. */
export async function renameRecipe(desk: Desk, { recipe, name, summary, version }: Renaming): Promise<Card | Refusal> {
  const options = { name: name?.typed, summary: summary?.typed, version: version?.toString() };
  return changeRecipe(desk, { command: 'recipe rename', recipe, version, options }, (before, lineOf, studio) => {
    if (!name && !summary)
      return new Refusal('nothing-to-set', say`Say what it is to be called, or what it is for.`, {
        example: lineOf({ name: 'Our skin, paste shell' }),
      });
    const exists = name && taken(name.value, recipesOf(studio, desk.shippedRecipes), before.id, lineOf);
    return exists ?? { ...before, ...(name && { name: name.value }), ...(summary && { summary: summary.value }) };
  });
}

/** The recipe of that name among all that ever counted here, with the version that counts, or counted last. */
function everNamed(desk: Desk, studio: Desk['studio'], typed: string, lineOf: LineOf): Recipe | Refusal {
  const counting = recipesOf(studio, desk.shippedRecipes);
  const gone = [...studio.recipes.values()].flatMap(({ current, saved }) => {
    const last = saved.at(-1)?.recipe;
    return current !== null || !last || counting.some(({ id }) => id === last.id) ? [] : [last];
  });
  return pick('recipe', typed, [...counting, ...gone], (recipe) => lineOf({ recipe }));
}

interface Back {
  readonly recipe: string;
  readonly to: number;
  readonly version?: number | undefined;
}

/** Refusals: `unknown-recipe`, `no-own-recipe`, `unknown-version`, `recipe-changed`, `nothing-to-change`. */
export async function goBack(desk: Desk, { recipe, to, version }: Back): Promise<Card | Refusal> {
  const options = { to: String(to), version: version?.toString() };
  const lineOf = lineOfAsked({ command: 'recipe back', recipe, options });
  const made: { before: Recipe; after: Recipe }[] = [];
  const studio = await desk.house.changeStudio((now) => {
    const before = everNamed(desk, now, recipe, lineOf);
    if (isRefusal(before)) return before;
    const own = now.recipes.get(before.id);
    if (!own) return never(before);
    const meanwhile = changedMeanwhile(now, before, version, lineOf);
    if (meanwhile) return meanwhile;
    const target = versionNamed(desk, now, before, to, (each) => lineOf({ to: each }));
    if (isRefusal(target)) return target;
    const counts = recipesOf(now, desk.shippedRecipes).some((each) => isSame(each, target));
    if (counts)
      return new Refusal('nothing-to-change', say`${before.name} is as version ${to} was already.`, {
        example: showLine(before.id),
      });
    const after = { ...target, version: nextVersion(now.recipes, before) };
    made.push({ before, after });
    const basedOn = { id: before.id, version: before.version };
    return [{ version: 1, type: 'RecipeSaved', at: desk.now, by: desk.who, recipe: after, basedOn }];
  });
  if (isRefusal(studio)) return studio;
  const kept = made.at(-1);
  if (!kept) throw new Error('a recipe that was kept was never made');
  const { before, after } = kept;
  return changedCard(before, viewOf(desk, studio, after), say`${after.name}: version ${after.version}, as version ${to} was`);
}

const never = ({ id, name }: Recipe) =>
  new Refusal('no-own-recipe', say`${name} is as it came with the program: this studio has not changed it.`, {
    example: showLine(id),
  });

/** Refusals: `no-own-recipe`, `unknown-recipe`, `recipe-changed`. */
export async function dropRecipe(
  desk: Desk,
  { recipe, version }: { recipe: string; version?: number | undefined },
): Promise<Card | Refusal> {
  const lineOf = lineOfAsked({ command: 'recipe drop', recipe, options: { version: version?.toString() } });
  const dropped: Recipe[] = [];
  const studio = await desk.house.changeStudio((now) => {
    const own = [...now.recipes.values()].flatMap(({ current }) => (current === null ? [] : [current]));
    const counts = pick('recipe', recipe, recipesOf(now, desk.shippedRecipes), showLine);
    if (own.length === 0)
      return isRefusal(counts)
        ? new Refusal('no-own-recipe', say`This studio has no recipes of its own: there is nothing to drop.`, {
            example: line('recipe list', {}),
          })
        : never(counts);
    if (!isRefusal(counts) && !own.includes(counts)) return never(counts);
    const going = pick('recipe', recipe, own, (id) => lineOf({ recipe: id }));
    if (isRefusal(going)) return going;
    const meanwhile = changedMeanwhile(now, going, version, lineOf);
    if (meanwhile) return meanwhile;
    dropped.push(going);
    return [{ version: 1, type: 'RecipeDropped', at: desk.now, by: desk.who, recipe: going.id }];
  });
  if (isRefusal(studio)) return studio;
  const gone = dropped.at(-1);
  if (!gone) throw new Error('a recipe that was dropped was never found');
  const shipped = desk.shippedRecipes.find(({ id }) => id === gone.id);
  return card(
    shipped ? say`${shipped.name}: the program’s counts again` : say`${gone.name} is dropped`,
    [say`It was version ${gone.version} of this studio. Jobs under way keep the steps that they began with.`],
    {
      data: { dropped: { recipe: gone.id, version: gone.version } },
      buttons: [{ ...backWay(gone, gone.version, 'Bring it back'), options: { recipe: gone.id, to: String(gone.version) } }],
    },
  );
}

/** Refusal: `unknown-recipe`. */
export function historyOf(desk: Desk, typed: string): Card | Refusal {
  const { studio } = desk;
  const recipe = everNamed(desk, studio, typed, (more) => line('recipe history', { recipe: typed, ...more }));
  if (isRefusal(recipe)) return recipe;
  const own = studio.recipes.get(recipe.id) ?? { current: null, saved: [] };
  return historyCard(viewOf(desk, studio, recipe), own, (id, version) => versionOf(desk, studio, id, version));
}
