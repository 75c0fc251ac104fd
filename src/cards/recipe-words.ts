import type { Recipe, RecipeStep, RecipeWait } from '../job/recipe.ts';
import { lengthText, type UnitSystem } from '../trade/measures/format-sizes.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';

/** The words for what a recipe says of a step: where they are an option's value, they read as they would be typed. */

const PIECES = [
  { unit: 'd', seconds: 86_400 },
  { unit: 'h', seconds: 3600 },
  { unit: 'min', seconds: 60 },
  { unit: 's', seconds: 1 },
] as const;

/** Minutes as they were set, to the second: "1 d 1 h 30 min". A rounded one would hide a change. */
export function setTimeText(minutes: number): string {
  let rest = Math.round(minutes * 60);
  const pieces = PIECES.flatMap(({ unit, seconds }) => {
    const count = Math.floor(rest / seconds);
    rest -= count * seconds;
    return count === 0 ? [] : [`${count} ${unit}`];
  });
  return pieces.join(' ') || '0 min';
}

/** "recoat", "cure", "none", "15 min", "15 min to 4 h". */
export function waitText(wait: RecipeWait): string {
  if (wait.kind !== 'fixed') return wait.kind;
  const until = wait.untilMinutes === null ? '' : ` to ${setTimeText(wait.untilMinutes)}`;
  return `${setTimeText(wait.fromMinutes)}${until}`;
}

/** "0.7 x", "0.8 mm", "block 12 mm", "none". */
export function layerText(layer: RecipeStep['layer'], units: UnitSystem): string {
  if (layer === null) return 'none';
  if ('timesUsualCoat' in layer) return `${layer.timesUsualCoat} x`;
  return 'millimetres' in layer ? lengthText(layer.millimetres, units) : `block ${lengthText(layer.blockWallMillimetres, units)}`;
}

/** "15 min, skin 0.7 x, wait recoat": in the words that can be typed. */
export function stepText({ handsMinutes, role, layer, wait }: RecipeStep, units: UnitSystem): Text {
  const thick = layer === null ? [] : [layerText(layer, units)];
  const laid = [...(role === null ? [] : [role]), ...thick].join(' ');
  return say`${plain([setTimeText(handsMinutes), ...(laid === '' ? [] : [laid]), ...(wait.kind === 'none' ? [] : [`wait ${waitText(wait)}`])].join(', '))}`;
}

/** "2. First coat (coat-1): 15 min, skin 0.7 x, wait recoat. Check: tacky". */
export const stepLine = (step: RecipeStep, index: number, units: UnitSystem): Text =>
  say`${strong(say`${index + 1}. ${step.title}`)} (${step.id}): ${stepText(step, units)}.${step.check === null ? say`` : say` Check: ${step.check}`}`;

/** "first", or the step that it follows. */
const placeText = ({ steps }: Recipe, id: string): Text => {
  const before = steps[steps.findIndex((step) => step.id === id) - 1];
  return before ? say`after ${before.title}` : say`first`;
};

const arrow = (what: string, before: Text, after: Text): Text => say`${plain(what)} ${before} → ${after}`;
const words = (text: string | null): Text => (text === null ? say`none` : say`“${text}”`);

function stepChanges(before: RecipeStep, after: RecipeStep, units: UnitSystem): Text[] {
  const of = (what: string, read: (step: RecipeStep) => Text): Text[] => {
    const [one, other] = [read(before), read(after)];
    return JSON.stringify(one) === JSON.stringify(other) ? [] : [arrow(what, one, other)];
  };
  const ours = (what: string, read: (step: RecipeStep) => string) => of(what, (step) => [plain(read(step))]);
  return [
    ...of('title', ({ title }) => words(title)),
    ...ours('kind', ({ kind }) => kind),
    ...ours('hands', ({ handsMinutes }) => setTimeText(handsMinutes)),
    ...ours('role', ({ role }) => role ?? 'none'),
    ...ours('thickness', ({ layer }) => layerText(layer, units)),
    ...ours('wait', ({ wait }) => waitText(wait)),
    ...of('check', ({ check }) => words(check)),
    ...of('advice', ({ advice }) => words(advice)),
  ];
}

/** The one step that went to another place, if it was one. */
function moved(before: readonly string[], after: readonly string[]): string | null {
  const without = (ids: readonly string[], id: string) => ids.filter((each) => each !== id).join('\n');
  return after.find((id, index) => before[index] !== id && without(before, id) === without(after, id)) ?? null;
}

/** What differs between two versions, one line for each step that does: old → new. */
export function changesText(before: Recipe, after: Recipe, units: UnitSystem): Text[] {
  const find = (recipe: Recipe, id: string) => recipe.steps.find((step) => step.id === id);
  const kept = (recipe: Recipe, other: Recipe) => recipe.steps.flatMap(({ id }) => (find(other, id) ? [id] : []));
  const [orderBefore, orderAfter] = [kept(before, after), kept(after, before)];
  const one = moved(orderBefore, orderAfter);
  const order =
    orderBefore.join('\n') === orderAfter.join('\n')
      ? []
      : [
          one === null
            ? say`the steps are in another order`
            : say`${find(after, one)?.title ?? ''}: moved ${placeText(before, one)} → ${placeText(after, one)}`,
        ];
  return [
    ...(before.name === after.name ? [] : [arrow('name', words(before.name), words(after.name))]),
    ...(before.summary === after.summary ? [] : [arrow('summary', words(before.summary), words(after.summary))]),
    ...before.steps.flatMap((step) => (find(after, step.id) ? [] : [say`removed: ${step.title}, ${stepText(step, units)}`])),
    ...after.steps.flatMap((step) => {
      const old = find(before, step.id);
      if (!old) return [say`added ${placeText(after, step.id)}: ${step.title}, ${stepText(step, units)}`];
      const changes = stepChanges(old, step, units);
      return changes.length === 0 ? [] : [say`${old.title}: ${joined(changes, ', ')}`];
    }),
    ...order,
  ];
}

/** The steps that go by a clock of the recipe's own from now on, instead of by their material's: no cold slows it. */
export const ownClockLines = (before: Recipe, after: Recipe): Text[] =>
  after.steps.flatMap((step) => {
    const old = before.steps.find(({ id }) => id === step.id)?.wait.kind;
    return (old === 'recoat' || old === 'cure') && step.wait.kind === 'fixed'
      ? [say`${step.title} goes by the recipe’s own clock now: no longer by its material’s data sheet, and no cold slows it.`]
      : [];
  });
