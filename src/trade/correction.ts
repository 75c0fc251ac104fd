import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import { grams as gramsText } from './format.ts';
import type { Material } from './material.ts';
import { partNamed, pourOrder } from './parts.ts';
import { onStep, ratioErrorPercent } from './ratio.ts';
import { bestCounts, stepsBeside } from './rounding.ts';

export interface PartGrams {
  readonly part: string;
  readonly grams: number;
}

export interface Correction {
  /** The first part to add; the only one where there are two. */
  readonly add: PartGrams | null;
  /** All the parts to add, in pour order. */
  readonly adds: readonly PartGrams[];
  /** After adding. */
  readonly totalGrams: number;
  readonly errorPercentBefore: number;
  readonly errorPercentAfter: number;
  /** `too-much`: what should be added does not fit into the cup. */
  readonly verdict: 'good' | 'add' | 'too-much';
}

/**
 * What to add to a cup that is off its ratio. Nothing can be taken out, so the part that is most over-poured stays, and the
 * others are brought up to it, in the steps of the scale that come out nearest to the ratio. Parts that are not named count
 * as not poured, which makes `errorPercentBefore` 100; the error is that of `ratioErrorPercent`.
 *
 * Refusals: `unknown-part`, `nothing-poured`, and `scale-too-coarse` where adding even one step would make it worse.
 */
export function correct(
  material: Material,
  poured: readonly PartGrams[],
  limits: { readonly stepGrams: number; readonly roomGrams: number | null },
): Correction | Refusal {
  const step = limits.stepGrams;
  const cup = material.parts.map(() => 0);
  for (const { part: name, grams } of poured) {
    const part = partNamed(material, name);
    if (isRefusal(part)) return part;
    const index = material.parts.indexOf(part);
    cup[index] = (cup[index] ?? 0) + grams;
  }
  if (!cup.some((grams) => grams > 0)) {
    const example = material.parts.map(({ name, weightShare }) => `${weightShare} g ${name}`).join(', ');
    return new Refusal('nothing-poured', say`I expected what is in the cup, and got nothing of ${material.name}.`, { example });
  }
  const total = (amounts: readonly number[]) => Number(amounts.reduce((sum, grams) => sum + grams, 0).toPrecision(12));
  const before = ratioErrorPercent(cup, material);
  if (before <= material.tolerancePercent * (1 + 1e-9)) {
    return {
      add: null,
      adds: [],
      totalGrams: total(cup),
      errorPercentBefore: before,
      errorPercentAfter: before,
      verdict: 'good',
    };
  }

  const shares = material.parts.map((part) => part.weightShare);
  const fill = Math.max(...cup.map((grams, i) => grams / (shares[i] ?? Number.NaN)));
  const short = cup.map((grams, i) => Math.max(0, fill * (shares[i] ?? 0) - grams) / step);
  const filled = (counts: readonly number[]) => cup.map((grams, i) => grams + (counts[i] ?? 0) * step);
  const counts = bestCounts(
    short.map(stepsBeside),
    (some) => ratioErrorPercent(filled(some), material),
    short.reduce((sum, count) => sum + count, 0),
  );
  if (counts.every((count) => count === 0)) {
    const message = say`The cup is off its ratio by less than one step of the scale, ${plain(gramsText(step, step))}, can mend; I expected a finer scale or a larger batch.`;
    return new Refusal('scale-too-coarse', message, { example: gramsText(step / 10, step / 10) });
  }
  const adds = pourOrder(material).flatMap((part): PartGrams[] => {
    const count = counts[material.parts.indexOf(part)] ?? 0;
    return count > 0 ? [{ part: part.name, grams: onStep(count, step) }] : [];
  });
  const after = filled(counts);
  const fits = limits.roomGrams === null || total(after) <= limits.roomGrams * (1 + 1e-9);
  return {
    add: adds[0] ?? null,
    adds,
    totalGrams: total(after),
    errorPercentBefore: before,
    errorPercentAfter: ratioErrorPercent(after, material),
    verdict: fits ? 'add' : 'too-much',
  };
}
