import { plain, say, type Text } from '../words/text.ts';
import type { Recipe, RecipeStep, StepKind } from './recipe.ts';

/** An order of steps that nobody means is told, and kept: a mould in two halves is sealed twice. Common practice, no source. */

interface Odd {
  /** The same as long as the same steps, whatever they are called, are in the same order. */
  readonly key: string;
  readonly text: Text;
}

/** What the steps, in the order that they have from now on, cannot be meant to do. */
export function oddOrderLines(before: Recipe, after: Recipe): Text[] {
  const known = new Set(oddOrders(before).map(({ key }) => key));
  const [first, ...others] = oddOrders(after).filter(({ key }) => !known.has(key));
  if (first === undefined) return [];
  return [say`${first.text}${plain(others.length === 0 ? '' : ` And ${others.length} more like it.`)}`];
}

const oddOrders = ({ steps }: Recipe): Odd[] =>
  steps.flatMap((step, index) => {
    const [earlier, later] = [steps.slice(0, index), steps.slice(index + 1)];
    return [tooEarly(step, later), tooLate(step, earlier, later), noWait(step, later[0])].filter((found) => found !== null);
  });

const anyOf = (steps: readonly RecipeStep[], ...kinds: readonly StepKind[]) => steps.find(({ kind }) => kinds.includes(kind));

const odd = (step: RecipeStep, what: string, other: RecipeStep | undefined, text: Text): Odd => ({
  key: `${step.id}/${what}/${other?.id}`,
  text,
});

/** It comes before what it needs. */
function tooEarly(step: RecipeStep, later: readonly RecipeStep[]): Odd | null {
  const [built, coat, opens] = [anyOf(later, 'coat', 'shell'), anyOf(later, 'coat'), anyOf(later, 'demould')];
  const before = (other: RecipeStep, why: string) =>
    odd(step, 'before', other, say`${step.title} comes before ${other.title}: ${plain(why)}.`);
  if (step.kind === 'demould' && built) return before(built, 'the mould is opened before it is whole');
  if (step.kind === 'shell' && coat) return before(coat, 'a shell is built on the whole skin');
  if (step.kind === 'cast' && opens) return before(opens, 'the model is still in the mould');
  return null;
}

/** What it needs is not done by then, or can be done no more. */
function tooLate(step: RecipeStep, earlier: readonly RecipeStep[], later: readonly RecipeStep[]): Odd | null {
  const built = anyOf(earlier, 'coat', 'shell');
  if (step.kind === 'prepare' && built)
    return odd(step, 'after', built, say`${step.title} comes after ${built.title}: the model is covered by then.`);
  if ((step.kind === 'coat' || step.kind === 'shell') && !built && !anyOf(earlier, 'prepare'))
    return odd(
      step,
      'bare',
      undefined,
      say`Nothing is prepared before ${step.title}: without a release the model may never come out.`,
    );
  if (step.kind === 'cast' && built && !anyOf([...earlier, ...later], 'demould'))
    return odd(step, 'closed', undefined, say`No step opens the mould before ${step.title}: the model is still in it.`);
  return null;
}

function noWait(step: RecipeStep, next: RecipeStep | undefined): Odd | null {
  if (step.wait.kind !== 'none' || next === undefined || (step.kind !== 'coat' && step.kind !== 'shell')) return null;
  const why =
    step.kind === 'coat' && next.kind === 'coat'
      ? 'on a wet coat it slides. Should it wait for recoat?'
      : 'it is still wet then. Should it wait to cure?';
  return odd(step, 'no-wait', next, say`${step.title} has no wait, and ${next.title} follows at once: ${plain(why)}`);
}
