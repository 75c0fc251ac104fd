import type { Studio } from '../bench/studio.ts';
import { nextVersion } from '../bench/studio-recipes.ts';
import { changedCard } from '../cards/recipe-card.ts';
import type { Card } from '../chat/card.ts';
import type { Recipe } from '../job/recipe.ts';
import { type Fault, recipeFaults } from '../job/recipe-checks.ts';
import { isSame } from '../job/recipe-edit.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { givenOf, line, type Typed } from './examples.ts';
import { changedMeanwhile, type LineOf, recipeNamed, showLine, viewOf } from './recipe-finding.ts';

export interface AskedRecipe {
  readonly command: string;
  readonly recipe: string;
  /** The version that the change was meant for; left out, whichever is the newest. */
  readonly version: number | undefined;
  /** The other options, as they were typed. */
  readonly options: Typed;
}

export const lineOfAsked =
  ({ command, recipe, options }: Pick<AskedRecipe, 'command' | 'recipe' | 'options'>): LineOf =>
  (more) =>
    line(command, { recipe, ...options, ...more });

/**
 * Changes a recipe of this studio: what `change` makes of its newest version is checked as a whole and kept as the next one.
 * Refusals: those of `change`, `unknown-recipe`, `recipe-changed`, `nothing-to-change`, `bad-recipe`; then nothing is kept.
 */
export async function changeRecipe(
  desk: Desk,
  asked: AskedRecipe,
  change: (recipe: Recipe, lineOf: LineOf, studio: Studio) => Recipe | Refusal,
): Promise<Card | Refusal> {
  const lineOf = lineOfAsked(asked);
  // Decided anew where another process wrote first: the last is what was kept.
  const made: { readonly before: Recipe; readonly after: Recipe }[] = [];
  const studio = await desk.house.changeStudio((now) => {
    const before = recipeNamed(desk, now, asked.recipe, lineOf);
    if (isRefusal(before)) return before;
    const meanwhile = changedMeanwhile(now, before, asked.version, lineOf);
    if (meanwhile) return meanwhile;
    const changed = change(before, lineOf, now);
    if (isRefusal(changed)) return changed;
    if (isSame(before, changed))
      return new Refusal('nothing-to-change', say`${before.name} is like that already.`, { example: showLine(before.id) });
    const after = { ...changed, version: nextVersion(now.recipes, before) };
    const wrong = badRecipe(before, after, asked, lineOf);
    if (wrong) return wrong;
    made.push({ before, after });
    return [
      {
        version: 1,
        type: 'RecipeSaved',
        at: desk.now,
        by: desk.who,
        recipe: after,
        basedOn: { id: before.id, version: before.version },
      },
    ];
  });
  if (isRefusal(studio)) return studio;
  const kept = made.at(-1);
  if (!kept) throw new Error('a recipe that was kept was never made');
  return changedCard(kept.before, viewOf(desk, studio, kept.after));
}

/** What of a changed recipe cannot be, the first thing that was not so before. */
function badRecipe(before: Recipe, after: Recipe, { options }: AskedRecipe, lineOf: LineOf): Refusal | null {
  const old = new Set(recipeFaults(before).map(({ step, fault }) => `${step?.id}/${fault.message}`));
  const found = recipeFaults(after).find(({ step, fault }) => !old.has(`${step?.id}/${fault.message}`));
  if (!found) return layerOfNothing(before, after, options, lineOf);
  const { step, fault } = found;
  const message = `${fault.message[0]?.toUpperCase() ?? ''}${fault.message.slice(1)}.`;
  const of = step === null ? say`` : say`${step.title}: `;
  return new Refusal('bad-recipe', say`${of}${plain(message)}`, { example: wouldDo(before, fault, options, lineOf) });
}

/** A line that would do: what is wrong put right, or left out where somebody took away what is needed. */
function wouldDo(before: Recipe, { at: [at = ''], example }: Fault, options: Typed, lineOf: LineOf): string {
  const given = Object.keys(givenOf(options)).filter((name) => name !== 'step');
  if (at === 'role') return options['role'] === undefined ? lineOf({ role: 'skin' }) : without('role');
  if (at === 'layer' && example !== undefined && options['thickness'] !== undefined) return lineOf({ thickness: example });
  if (at === 'layer' || at === 'block')
    return options['thickness'] === undefined ? lineOf({ thickness: '1 x' }) : without('thickness');
  if (example !== undefined && options[at] !== undefined) return lineOf({ [at]: example });
  return showLine(before.id);

  function without(name: string): string {
    return given.length > 1 ? lineOf({ [name]: undefined }) : showLine(before.id);
  }
}

/** Nobody can say how much of what a layer without a material takes. */
function layerOfNothing(before: Recipe, after: Recipe, options: Typed, lineOf: LineOf): Refusal | null {
  const bare = ({ layer, role }: Recipe['steps'][number]) => layer !== null && role === null;
  const old = new Set(before.steps.filter(bare).map(({ id }) => id));
  const step = after.steps.find((each) => bare(each) && !old.has(each.id));
  if (!step) return null;
  return new Refusal('layer-of-nothing', say`${step.title} adds a layer: expected the role whose material it takes, got none.`, {
    example: options['role'] === undefined ? lineOf({ role: 'skin' }) : lineOf({ thickness: 'none' }),
  });
}
