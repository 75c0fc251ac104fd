import type { Studio } from '../bench/studio.ts';
import type { OwnRecipe } from '../bench/studio-recipes.ts';
import { type Card, card } from '../chat/card.ts';
import { handsOnMinutes, type Recipe } from '../job/recipe.ts';
import { oddOrderLines } from '../job/recipe-order.ts';
import { minutesText } from '../trade/measures/format.ts';
import type { Way } from '../words/refusal.ts';
import { clock, joined, person, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';
import { handedOnLines, oddWaitLines } from './recipe-waits.ts';
import { changesText, ownClockLines, stepLine } from './recipe-words.ts';

/** A recipe as it counts in a studio: the program's, or the studio's own. */
export interface RecipeView {
  readonly recipe: Recipe;
  readonly studio: Studio;
  /** The program's own of that id; null where the studio made it. */
  readonly shipped: Recipe | null;
}

const isOwn = ({ recipe, shipped }: RecipeView): boolean => recipe !== shipped;

const whoseText = (view: RecipeView): Text =>
  isOwn(view) ? say`this studio’s own, version ${view.recipe.version}` : say`the program’s`;

const sizeText = ({ recipe }: RecipeView): Text =>
  say`${plain(recipe.steps.length === 1 ? '1 step' : `${recipe.steps.length} steps`)}, ${plain(minutesText(handsOnMinutes(recipe)))} hands-on`;

export const showWay = ({ id }: Recipe, label = 'Show it'): Way => ({ label, command: 'recipe show', options: { recipe: id } });
const historyWay = ({ id }: Recipe): Way => ({ label: 'History', command: 'recipe history', options: { recipe: id } });
/** To an earlier version, as long as nobody has changed it further. */
export const backWay = ({ id, version }: Recipe, to: number, label: string): Way => ({
  label,
  command: 'recipe back',
  options: { recipe: id, to: String(to), version: String(version) },
});

/** Base units in the names, as all data has them. */
export const recipeData = (view: RecipeView) => {
  const { recipe } = view;
  return {
    id: recipe.id,
    name: recipe.name,
    version: recipe.version,
    own: isOwn(view),
    handsMinutes: handsOnMinutes(recipe),
    steps: recipe.steps.map(({ id, title, kind, handsMinutes, role, layer, wait, check, advice }) => ({
      id,
      title,
      kind,
      handsMinutes,
      role,
      layer,
      wait,
      check,
      advice,
    })),
  };
};

export function recipeListCard(views: readonly RecipeView[]): Card {
  return card(
    say`${plain(views.length === 1 ? '1 recipe' : `${views.length} recipes`)}`,
    views.map((view) => say`${strong(say`${view.recipe.id}`)}: ${view.recipe.name}; ${sizeText(view)}; ${whoseText(view)}`),
    {
      aside: true,
      data: {
        recipes: views.map((view) => {
          const { steps, ...data } = recipeData(view);
          return { ...data, steps: steps.length };
        }),
      },
    },
  );
}

/** All its steps, one line each. `counts`: the version that counts now, where this is another. */
export function recipeCard(view: RecipeView, counts: Recipe | null): Card {
  const { recipe, studio } = view;
  return card(
    say`${recipe.name}: ${sizeText(view)}`,
    [
      ...recipe.steps.map((step, index) => stepLine(step, index, studio.units)),
      say`${recipe.summary}`,
      say`Id: ${recipe.id}; ${whoseText(view)}.`,
      ...(counts === null ? [] : [say`Not what counts now: that is version ${counts.version}.`]),
    ],
    {
      aside: true,
      data: { recipe: recipeData(view) },
      buttons: [
        ...(counts === null ? [] : [backWay(counts, recipe.version, `Back to version ${recipe.version}`)]),
        ...(isOwn(view) ? [historyWay(recipe)] : []),
      ],
    },
  );
}

/** What was changed, old → new, and what that means for others. */
export function changedCard(
  before: Recipe,
  view: RecipeView,
  title = say`${view.recipe.name}: version ${view.recipe.version}`,
): Card {
  const { recipe, studio, shipped } = view;
  return card(
    title,
    [
      ...changesText(before, recipe, studio.units),
      ...ownClockLines(before, recipe),
      ...handedOnLines(before, recipe),
      ...oddWaitLines(before, recipe),
      ...oddOrderLines(before, recipe),
      ...(before === shipped
        ? [say`This is the studio’s own version from now on; the program’s stays version ${shipped.version}.`]
        : []),
      say`Jobs under way keep the steps that they began with.`,
    ],
    {
      data: { recipe: recipeData(view) },
      buttons: [showWay(recipe), backWay(recipe, before.version, 'Change it back')],
    },
  );
}

/** More versions than this are not read. */
const MOST_VERSIONS = 12;

/** Who changed it, when, and what; the newest first. `versionOf`: a version of any recipe, where it is still known. */
export function historyCard(
  { recipe, studio, shipped }: RecipeView,
  { saved }: OwnRecipe,
  versionOf: (id: string, version: number) => Recipe | null,
): Card {
  const lines = saved.flatMap(({ recipe: now, basedOn, at, by, dropped }) => {
    const from = versionOf(basedOn.id, basedOn.version);
    const copied = basedOn.id !== now.id;
    const changes = copied || from === null ? [] : changesText(from, now, studio.units);
    const what = copied
      ? say`copied from ${from?.name ?? basedOn.id}, version ${basedOn.version}`
      : changes.length === 0
        ? say`brought back`
        : joined(changes, '; ');
    return [
      say`${strong(say`Version ${now.version}`)}, ${clock(at)}, ${person(by)}: ${what}`,
      ...(dropped ? [say`Dropped, ${clock(dropped.at)}, ${person(dropped.by)}`] : []),
    ];
  });
  const shown = lines.slice(-MOST_VERSIONS).reverse();
  return card(
    say`${recipe.name}: ${plain(saved.length === 0 ? 'never changed' : saved.length === 1 ? '1 change' : `${saved.length} changes`)}`,
    [
      ...shown,
      ...(lines.length > shown.length ? [say`${lines.length - shown.length} more before that.`] : []),
      ...(shipped ? [say`${strong(say`Version ${shipped.version}`)}: the program’s`] : []),
    ],
    {
      aside: true,
      data: {
        history: {
          recipe: recipe.id,
          versions: saved.map(({ recipe: { version }, at, by }) => ({ version, at: isoIn(studio.zone)(at), by })),
        },
      },
      buttons: [showWay(recipe)],
    },
  );
}
