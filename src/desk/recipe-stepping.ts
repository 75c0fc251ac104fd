import type { Card } from '../chat/card.ts';
import type { Recipe, RecipeStep, RecipeWait, StepKind } from '../job/recipe.ts';
import { freeId, type StepChanges, withAdded, withAddedCoat, withMoved, withoutStep, withStep } from '../job/recipe-edit.ts';
import type { BlockRule, LayerRule } from '../trade/cover/skin.ts';
import type { Use } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import type { Kept, Typed } from './examples.ts';
import { changeRecipe } from './recipe-changing.ts';
import { type LineOf, placeNamed, stepNamed } from './recipe-finding.ts';

type Layer = LayerRule | BlockRule;

/** What was typed of a step; what was left out is undefined. */
export interface StepInput {
  readonly recipe: string;
  readonly version?: number | undefined;
  readonly title?: Kept<string> | undefined;
  readonly hands?: Kept<number> | undefined;
  readonly wait?: Kept<RecipeWait> | undefined;
  readonly thickness?: Kept<Layer | 'none'> | undefined;
  readonly role?: Use | 'none' | undefined;
  readonly check?: Kept<string | null> | undefined;
  readonly advice?: Kept<string | null> | undefined;
}

const typedOf = ({ title, hands, wait, thickness, role, check, advice, version }: StepInput): Typed => ({
  title: title?.typed,
  hands: hands?.typed,
  role,
  thickness: thickness?.typed,
  wait: wait?.typed,
  check: check?.typed,
  advice: advice?.typed,
  version: version?.toString(),
});

const changesOf = ({ title, hands, wait, role, check, advice }: StepInput): StepChanges => ({
  ...(title && { title: title.value }),
  ...(hands && { handsMinutes: hands.value }),
  ...(wait && { wait: wait.value }),
  ...(role !== undefined && { role: role === 'none' ? null : role }),
  ...(check && { check: check.value }),
  ...(advice && { advice: advice.value }),
});

/** A length alone, said of a poured block, is its wall. */
function layerFor(before: Layer | null, typed: Layer | 'none'): Layer | null {
  if (typed === 'none') return null;
  const isWall = before !== null && 'blockWallMillimetres' in before && 'millimetres' in typed;
  return isWall ? { blockWallMillimetres: typed.millimetres } : typed;
}

/** Refusals: `nothing-to-set`, `unknown-step`, and those of `changeRecipe`. */
export async function editStep(desk: Desk, input: StepInput & { step: string }): Promise<Card | Refusal> {
  const options = { step: input.step, ...typedOf(input) };
  return changeRecipe(desk, { command: 'recipe step', ...input, version: input.version, options }, (recipe, lineOf) => {
    const step = stepNamed(recipe, input.step, (id) => lineOf({ step: id }));
    if (isRefusal(step)) return step;
    const changes = changesOf(input);
    if (Object.keys(changes).length === 0 && !input.thickness)
      return new Refusal(
        'nothing-to-set',
        say`Say what of ${step.title} to change: hands, wait, thickness, role, title, check or advice.`,
        { example: lineOf({ step: step.id, hands: step.handsMinutes === 20 ? '25 min' : '20 min' }) },
      );
    const layer = input.thickness ? { layer: layerFor(step.layer, input.thickness.value) } : {};
    return withStep(recipe, step.id, { ...changes, ...layer });
  });
}

/** What a step of this kind mostly is, where nobody says. */
const USUAL: Readonly<Record<StepKind, Pick<RecipeStep, 'role' | 'layer' | 'wait'>>> = {
  prepare: { role: null, layer: null, wait: { kind: 'none' } },
  coat: { role: 'skin', layer: { timesUsualCoat: 1 }, wait: { kind: 'recoat' } },
  shell: { role: 'shell', layer: { timesUsualCoat: 1 }, wait: { kind: 'cure' } },
  finish: { role: null, layer: null, wait: { kind: 'none' } },
  demould: { role: null, layer: null, wait: { kind: 'none' } },
  cast: { role: 'casting', layer: null, wait: { kind: 'cure' } },
};

type Adding = StepInput & {
  readonly title: Kept<string>;
  readonly kind: StepKind;
  readonly hands: Kept<number>;
  readonly after?: string | undefined;
};

/** Without `after` it becomes the last step. */
export async function addStep(desk: Desk, input: Adding): Promise<Card | Refusal> {
  const { title, kind, hands, after } = input;
  const options = { kind, ...typedOf(input), after };
  return changeRecipe(desk, { command: 'recipe add', ...input, version: input.version, options }, (recipe, lineOf) => {
    const place =
      after === undefined ? (recipe.steps.at(-1)?.id ?? null) : placeNamed(recipe, after, (id) => lineOf({ after: id }));
    if (isRefusal(place)) return place;
    const usual = USUAL[kind];
    const step: RecipeStep = {
      id: freeId(
        title.value,
        recipe.steps.map(({ id }) => id),
        'step',
      ),
      kind,
      advice: null,
      check: null,
      ...usual,
      ...changesOf(input),
      title: title.value,
      handsMinutes: hands.value,
      layer: input.thickness ? layerFor(null, input.thickness.value) : usual.layer,
    };
    return input.wait === undefined ? withAddedCoat(recipe, step, place) : withAdded(recipe, step, place);
  });
}

interface OfStep {
  readonly recipe: string;
  readonly step: string;
  readonly version?: number | undefined;
}

const stepOf = (recipe: Recipe, step: string, lineOf: LineOf) => stepNamed(recipe, step, (id) => lineOf({ step: id }));

export async function moveStep(
  desk: Desk,
  { recipe, step, after, version }: OfStep & { after: string },
): Promise<Card | Refusal> {
  const options = { step, after, version: version?.toString() };
  return changeRecipe(desk, { command: 'recipe move', recipe, version, options }, (now, lineOf) => {
    const moving = stepOf(now, step, lineOf);
    if (isRefusal(moving)) return moving;
    const place = placeNamed(now, after, (id) => lineOf({ after: id }));
    return isRefusal(place) ? place : withMoved(now, moving.id, place);
  });
}

export async function removeStep(desk: Desk, { recipe, step, version }: OfStep): Promise<Card | Refusal> {
  const options = { step, version: version?.toString() };
  return changeRecipe(desk, { command: 'recipe remove', recipe, version, options }, (now, lineOf) => {
    const going = stepOf(now, step, lineOf);
    if (isRefusal(going)) return going;
    if (now.steps.length > 1) return withoutStep(now, going.id);
    return new Refusal('last-step', say`${going.title} is the only step of ${now.name}: a recipe has at least one.`, {
      example: lineOf({ step: undefined }).replace(/^\/recipe remove/, '/recipe show'),
    });
  });
}
