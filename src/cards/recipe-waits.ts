import type { Recipe, RecipeStep } from '../job/recipe.ts';
import { plain, say, type Text } from '../words/text.ts';
import { waitText } from './recipe-words.ts';

/** What a changed order means for the waits between steps. */

const stepIn = ({ steps }: Recipe, id: string | undefined) => steps.find((step) => step.id === id);

/** A coat that was added behind the last one and waits as that one did. */
export const handedOnLines = (before: Recipe, after: Recipe): Text[] =>
  after.steps.flatMap((step, index) => {
    const last = after.steps[index - 1];
    const was = stepIn(before, last?.id)?.wait;
    const handedOn = was !== undefined && JSON.stringify(step.wait) === JSON.stringify(was);
    if (stepIn(before, step.id) || step.kind !== 'coat' || last?.wait.kind !== 'recoat' || was?.kind === 'recoat' || !handedOn)
      return [];
    return [say`${step.title} is the last coat now and waits as ${last.title} did: ${plain(waitText(was))}.`];
  });

/** Waits that nobody means: no next coat after recoat, or one after cure, in the order that they have from now on. */
export function oddWaitLines(before: Recipe, after: Recipe): Text[] {
  const known = new Set(oddWaits(before).map(({ key }) => key));
  const [first, ...others] = oddWaits(after).filter(({ key }) => !known.has(key));
  if (first === undefined) return [];
  return [say`${first.text}${plain(others.length === 0 ? '' : ` And ${others.length} more like it.`)}`];
}

function oddWaits({ steps }: Recipe): { key: string; text: Text }[] {
  return steps.flatMap((step, index) => {
    const text = oddWait(step, steps[index + 1]);
    return text === null ? [] : [{ key: `${step.id}/${step.wait.kind}/${steps[index + 1]?.id}`, text }];
  });
}

/** The first coat of another role, as skin on a detail coat, goes on while the last one of the role before is tacky. */
function oddWait(step: RecipeStep, next: RecipeStep | undefined): Text | null {
  if (step.kind !== 'coat') return null;
  const coatFollows = next?.kind === 'coat';
  if (step.wait.kind === 'cure' && coatFollows)
    return say`${step.title} waits to cure, and ${next.title} follows: a coat bonds to a tacky one. Should it wait for recoat?`;
  if (step.wait.kind !== 'recoat' || coatFollows) return null;
  const what = next === undefined ? say`nothing follows` : say`${next.title} follows, which is no coat`;
  return say`${step.title} waits for recoat, and ${what}: it is still wet inside then. Should it wait to cure?`;
}
