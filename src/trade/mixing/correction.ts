import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Material } from '../material.ts';
import { scaleText } from '../measures/format.ts';
import { partNamed, pourOrder } from './parts.ts';
import { above, neat, onStep, pairErrors, ratioError, smallestBatch } from './ratio.ts';
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
  /** `too-much`: what should be added does not fit into the cup, or what is in it is too much already. */
  readonly verdict: 'good' | 'add' | 'too-much';
}

/**
 * What to add to a cup that is off its ratio. Nothing can be taken out, so the part that is most over-poured stays, and the
 * others are brought up to it, in the steps of the scale that come out nearest to the ratio. Where no such steps are within
 * tolerance the batch is made larger, that part included, by as little as will do. Parts that are not named count as not
 * poured, which makes `errorPercentBefore` 100; the error is that of `ratioErrorPercent`.
 *
 * Refusals: `unknown-part`, `nothing-poured`, and `scale-too-coarse` where no batch that is worth trying comes out within
 * tolerance in whole steps.
 */
export function correct(
  material: Material,
  poured: readonly PartGrams[],
  limits: { readonly stepGrams: number; readonly roomGrams: number | null },
): Correction | Refusal {
  const step = limits.stepGrams;
  const shares = material.parts.map((part) => part.weightShare);
  const cup = cupOf(material, poured);
  if (isRefusal(cup)) return cup;
  const tooMuch = (grams: number) => limits.roomGrams !== null && above(grams, limits.roomGrams);
  const before = ratioError(cup, shares);
  if (before <= withNoise(material.tolerancePercent)) {
    const totalGrams = neat(sum(cup));
    return {
      add: null,
      adds: [],
      totalGrams,
      errorPercentBefore: before,
      errorPercentAfter: before,
      verdict: tooMuch(totalGrams) ? 'too-much' : 'good',
    };
  }

  const counts = addition(cup, shares, material.tolerancePercent, step);
  if (counts === undefined) {
    const message = say`No whole steps of the scale, ${plain(scaleText(step, step))} each, bring the cup to within ${material.tolerancePercent} % of its ratio; I expected a finer scale.`;
    return new Refusal('scale-too-coarse', message, { example: scaleText(step / 10, step / 10) });
  }
  const adds = pourOrder(material).flatMap((part): PartGrams[] => {
    const count = counts[material.parts.indexOf(part)] ?? 0;
    return count > 0 ? [{ part: part.name, grams: neat(onStep(count, step)) }] : [];
  });
  const after = filled(cup, counts, step);
  const totalGrams = neat(sum(after));
  return {
    add: adds[0] ?? null,
    adds,
    totalGrams,
    errorPercentBefore: before,
    errorPercentAfter: ratioError(after, shares),
    verdict: tooMuch(totalGrams) ? 'too-much' : 'add',
  };
}

const sum = (amounts: readonly number[]) => amounts.reduce((total, grams) => total + grams, 0);
const withNoise = (tolerancePercent: number) => tolerancePercent * (1 + 1e-9);
const filled = (cup: readonly number[], counts: readonly number[], step: number) =>
  cup.map((grams, i) => grams + (counts[i] ?? 0) * step);

/** What is in the cup, in the order in which the material declares its parts. */
function cupOf(material: Material, poured: readonly PartGrams[]): number[] | Refusal {
  const cup = material.parts.map(() => 0);
  const all = material.parts.map(({ name, weightShare }) => `${weightShare} g ${name}`).join(', ');
  for (const { part: name, grams } of poured) {
    const part = partNamed(material, name);
    if (isRefusal(part)) return new Refusal(part.code, part.message, { example: all });
    const index = material.parts.indexOf(part);
    cup[index] = (cup[index] ?? 0) + grams;
  }
  if (cup.some((grams) => grams > 0)) return cup;
  return new Refusal('nothing-poured', say`I expected what is in the cup, and got nothing of ${material.name}.`, {
    example: all,
  });
}

/**
 * The steps to add of each part: from the batch that the most over-poured part makes, in half steps, to the first that comes
 * out within tolerance. At the smallest batch of the scale any rounding does, so there is no use in looking much further.
 */
function addition(
  cup: readonly number[],
  shares: readonly number[],
  tolerancePercent: number,
  step: number,
): number[] | undefined {
  const whole = sum(shares);
  const first = Math.max(...cup.map((grams, i) => grams / (shares[i] ?? Number.NaN))) * whole;
  const last = Math.max(first, smallestBatch(shares, tolerancePercent, step)) + 2 * shares.length * step;
  for (let total = first; total <= last; total += step / 2) {
    const short = cup.map((grams, i) => Math.max(0, (total * (shares[i] ?? 0)) / whole - grams) / step);
    const counts = bestCounts(short.map(stepsBeside), (some) => pairErrors(filled(cup, some, step), shares), sum(short));
    if (counts && ratioError(filled(cup, counts, step), shares) <= withNoise(tolerancePercent)) return counts;
  }
  return undefined;
}
