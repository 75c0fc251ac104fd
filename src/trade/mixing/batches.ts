import type { Material } from '../material.ts';
import { above, onStep, smallestBatch } from './ratio.ts';
import { roundParts } from './rounding.ts';

/** An amount in equal batches, none of them larger than `mostGrams` (null: no limit): how many, and how many grams each. */
export function batchesOf(totalGrams: number, mostGrams: number | null): { count: number; grams: number } {
  const count = mostGrams === null ? 1 : Math.max(1, Math.ceil(totalGrams / mostGrams - 1e-9));
  return { count, grams: totalGrams / count };
}

/** What decides which amounts of a material can be weighed true: its shares by weight, and how far off is forgiven. */
export interface Trueness {
  readonly shares: readonly number[];
  readonly tolerancePercent: number;
}

export const truenessOf = ({ parts, tolerancePercent }: Pick<Material, 'parts' | 'tolerancePercent'>): Trueness => ({
  shares: parts.map(({ weightShare }) => weightShare),
  tolerancePercent,
});

/** Each cup is rounded to the scale: of what is needed, this share is not missed. */
export const LEFT_BY_ROUNDING = 0.02;

export interface Cups {
  readonly count: number;
  /** One cup as asked for. */
  readonly askGrams: number;
  /** One cup as it comes out on the scale. */
  readonly grams: number;
  /** Whether less is needed, and this is the least that can be weighed true. */
  readonly raised: boolean;
  /** The least that can be weighed true is more than may be mixed or weighed at once, and the amount stands as it is. */
  readonly scaleTooCoarse: boolean;
}

/** How many steps above the smallest batch are looked through. Rounding takes less than a step from each part. */
const TRIES = 60;

/**
 * What is needed, in the cups that the scale will be given: never less in one than can be weighed true, never more than may
 * be mixed or weighed at once. Where the ratio is not known (null), the amount stands as it is.
 */
export function cupsOf(
  neededGrams: number,
  mostGrams: number | null,
  ratio: Trueness | null,
  scale: { readonly stepGrams: number; readonly mostGrams: number | null },
): Cups {
  const limits = [mostGrams, scale.mostGrams].filter((most) => most !== null);
  const most = limits.length > 0 ? Math.min(...limits) : null;
  const { count, grams } = batchesOf(neededGrams, most);
  if (ratio === null) return { count, askGrams: grams, grams, raised: false, scaleTooCoarse: false };
  const { stepGrams: step } = scale;
  const sum = (amounts: readonly number[]) => Number(amounts.reduce((total, each) => total + each, 0).toPrecision(12));
  const out = (total: number) =>
    sum(roundParts(total, ratio.shares, step, null, (amounts) => most === null || !above(sum(amounts), most)));
  const least = smallestBatch(ratio.shares, ratio.tolerancePercent, step);
  const asIs = { count, askGrams: grams, grams: out(grams), raised: false };
  if (!Number.isFinite(least) || grams >= least * (1 - 1e-9)) return { ...asIs, scaleTooCoarse: false };
  const first = Math.ceil(least / step - 1e-9);
  const asks = Array.from({ length: TRIES }, (_, more) => onStep(first + more, step));
  const askGrams = asks.find((ask) => !above(least, out(ask))) ?? least;
  if (most !== null && above(askGrams, most)) return { ...asIs, scaleTooCoarse: true };
  return { count, askGrams, grams: out(askGrams), raised: true, scaleTooCoarse: false };
}
