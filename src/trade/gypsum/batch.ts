import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Material } from '../material.ts';
import { scaleText } from '../measures/format.ts';
import { cupsOf, truenessOf } from '../mixing/batches.ts';
import { type Mix, type Scale, smallestBatchGrams, weigh } from '../mixing/mix.ts';
import type { PlasterAsk } from './asked.ts';
import type { PowderAndWater } from './plaster.ts';

export interface PlasterBatches {
  /** One of the equal batches. */
  readonly mix: Mix;
  readonly count: number;
  /** Less is needed, and this is the least that can be weighed true. */
  readonly raised: boolean;
  /** The scale cannot carry powder and water together, only one at a time. */
  readonly apart: boolean;
}

/**
 * `neededGrams` of powder and water in equal batches, as the scale can weigh them. An amount of powder or of water stays as it
 * was said, and the other follows it. Powder is sifted, not poured from the scale's cup, so that powder and water may be
 * weighed one after the other where they are too heavy together. `material` has the ratio that it is mixed in.
 *
 * Refusals: `scale-too-coarse` (no batch that may be mixed, or that the scale carries, is large enough to be true), and those of
 * `weigh`.
 */
export function plasterBatches(
  material: Material,
  parts: PowderAndWater,
  neededGrams: number,
  of: PlasterAsk['of'],
  scale: Scale,
): PlasterBatches | Refusal {
  const shares = material.parts.map((part) => part.weightShare);
  const whole = shares.reduce((sum, share) => sum + share, 0);
  // Some steps less, so that rounding takes no part above what the scale carries.
  const carried = scale.mostGrams === null ? null : ((scale.mostGrams - scale.stepGrams) * whole) / Math.max(...shares);
  const onScale = { ...scale, mostGrams: carried };
  const cups = cupsOf(neededGrams, material.mostGrams, truenessOf(material), onScale);
  if (cups.scaleTooCoarse) return tooCoarse(material, scale);
  const named = of === 'powder' || of === 'water' ? parts[of].name : null;
  const held = cups.raised ? undefined : material.parts.find(({ name }) => name === named);
  const grams = held === undefined ? cups.askGrams : (neededGrams / cups.count) * (held.weightShare / whole);
  const amount = { quantity: { kind: 'mass' as const, grams }, of: held?.name ?? null };
  const mix = weigh(material, { amount, by: 'weight', additives: [] }, onScale);
  if (isRefusal(mix)) return mix;
  const apart = scale.mostGrams !== null && mix.totalGrams > scale.mostGrams;
  return { mix, count: cups.count, raised: cups.raised, apart };
}

function tooCoarse(material: Material, scale: Scale): Refusal {
  const shown = (grams: number) => plain(scaleText(grams, scale.stepGrams));
  const least = shown(smallestBatchGrams(material, scale.stepGrams));
  const most = Math.min(scale.mostGrams ?? Number.POSITIVE_INFINITY, material.mostGrams ?? Number.POSITIVE_INFINITY);
  return new Refusal(
    'scale-too-coarse',
    say`In steps of ${shown(scale.stepGrams)} ${material.name} is true from ${least} on, and the scale carries, or the sheet allows, no more than ${shown(most)} at once. I expected a finer scale, or one that carries more.`,
  );
}
