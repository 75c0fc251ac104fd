import type { Cover } from '../trade/cover/cover.ts';
import { fillingOf } from '../trade/cover/laminated.ts';
import type { Material } from '../trade/material.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { PlannedStep } from './events.ts';
import { type LaidOut, litresOf } from './laid-out.ts';
import type { RecipeStep } from './recipe.ts';

export interface Amounts {
  /** All that is covered; null where nobody said. */
  readonly cover: Cover | null;
  readonly wastePercent: number;
}

/** The steps of a recipe that is laid out, with their times and amounts. Refusal: `time-missing`. */
export function plannedSteps({ steps }: LaidOut, size: Amounts): PlannedStep[] | Refusal {
  const planned: PlannedStep[] = [];
  for (const laid of steps) {
    const { step, material } = laid;
    const wait = waitOf(step, material);
    if (wait instanceof Refusal) return wait;
    const litres = litresOf(laid, size.cover);
    const filling = material && litres !== null ? fillingOf(step.role ?? '', material, litres) : null;
    planned.push({
      id: step.id,
      title: step.title,
      kind: step.kind,
      handsMinutes: step.handsMinutes,
      advice: step.advice,
      check: step.check,
      material: material ? { id: material.id, name: material.name } : null,
      // A block is as thick as the model is far from its box.
      layerMillimetres: laid.block === null ? laid.layerMillimetres : null,
      grams: filling && filling.grams * (1 + size.wastePercent / 100),
      mostGrams: material?.mostGrams ?? null,
      ratio: material
        ? { shares: material.parts.map((part) => part.weightShare), tolerancePercent: material.tolerancePercent }
        : null,
      usable: material?.usable ?? null,
      wait,
    });
  }
  return planned;
}

function waitOf(step: RecipeStep, material: Material | null): PlannedStep['wait'] | Refusal {
  const { wait } = step;
  // A material that is chosen later gives no time yet.
  const undecided = step.role !== null && material === null;
  if (wait.kind === 'none' || (undecided && wait.kind !== 'fixed')) return null;
  if (wait.kind === 'fixed')
    return { kind: 'fixed', fromMinutes: wait.fromMinutes, untilMinutes: wait.untilMinutes, speed: null };
  const speed = material?.cure ? { law: material.cure, referenceCelsius: material.reference.celsius } : null;
  const lacks = (what: string, entry: string) =>
    new Refusal(
      'time-missing',
      say`${step.title} waits for ${material?.name ?? ''}, whose entry gives no ${plain(what)}. Add it from the data sheet.`,
      { example: entry },
    );
  if (wait.kind === 'recoat')
    return material?.recoat
      ? { kind: 'recoat', fromMinutes: material.recoat.fromMinutes, untilMinutes: material.recoat.untilMinutes, speed }
      : lacks('recoat window', 'recoat: { from: 45 min, until: 3 h }');
  return material?.demouldMinutes == null
    ? lacks('demould time', 'demould: 16 h')
    : { kind: 'cure', fromMinutes: material.demouldMinutes, untilMinutes: null, speed };
}
