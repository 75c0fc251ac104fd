import type { Refusal } from '../../words/refusal.ts';
import type { Material } from '../material.ts';
import { type Quantity, sizeOf } from '../measures/amount.ts';
import { type Cups, cupsOf, type Trueness } from '../mixing/batches.ts';
import { densityMissing } from '../mixing/limits.ts';
import { mixedDensity } from '../mixing/parts.ts';

/** What is poured beyond the cavity, for sprue, vents and overflow: a share of what it holds, or an amount for each casting. */
export type Overpour = { readonly percent: number } | { readonly quantity: Quantity };

export interface CastAsk {
  /** What stays in the mould as one casting: all that it holds, or the wall of a hollow one. */
  readonly millilitres: number;
  readonly overpour: Overpour;
  /** What stays in the cup, in percent of what is poured. */
  readonly wastePercent: number;
}

export interface CastAmount {
  readonly gramsPerMillilitre: number;
  /** What one casting weighs as it comes out of the mould, sprue and overflow cut off. */
  readonly castingGrams: number;
  readonly overpourPercent: number;
  /** To be mixed for one casting. */
  readonly gramsEach: number;
}

/**
 * What one casting takes: volume × density of the mix (by volume additivity), and what is poured and left over beyond it.
 * Refusal: `density-missing`.
 */
export function castAmount(material: Material, { millilitres, overpour, wastePercent }: CastAsk): CastAmount | Refusal {
  const density = mixedDensity(material);
  if (density === null) return densityMissing(material);
  const castingGrams = millilitres * density;
  const more = 'percent' in overpour ? null : sizeOf(overpour.quantity) * (overpour.quantity.kind === 'mass' ? 1 : density);
  const overpourPercent = 'percent' in overpour ? overpour.percent : ((more ?? 0) / castingGrams) * 100;
  return {
    gramsPerMillilitre: density,
    castingGrams,
    overpourPercent,
    gramsEach: castingGrams * (1 + overpourPercent / 100) * (1 + wastePercent / 100),
  };
}

/** Cups of one size. */
export interface Batch {
  readonly count: number;
  /** How many castings one of them fills: less than one where a casting takes several. */
  readonly castings: number;
  readonly cup: Cups;
}

/**
 * In which cups to mix: as few as can be, none split between two castings unless one casting takes more than may be mixed or
 * weighed at once. Cups that fill one casting more than the others come first.
 */
export function castBatches(
  pieces: number,
  gramsEach: number,
  mostGrams: number | null,
  ratio: Trueness,
  scale: { readonly stepGrams: number; readonly mostGrams: number | null },
): readonly [Batch, ...Batch[]] {
  const limit = Math.min(mostGrams ?? Number.POSITIVE_INFINITY, scale.mostGrams ?? Number.POSITIVE_INFINITY);
  const perCup = Math.min(pieces, Math.floor(limit / gramsEach + 1e-9));
  if (perCup < 1) {
    const cup = cupsOf(gramsEach, mostGrams, ratio, scale);
    return [{ count: pieces * cup.count, castings: 1 / cup.count, cup }];
  }
  const cups = Math.ceil(pieces / perCup);
  const fewer = Math.floor(pieces / cups);
  const batch = (count: number, castings: number): Batch => ({
    count,
    castings,
    cup: cupsOf(castings * gramsEach, mostGrams, ratio, scale),
  });
  const fuller = pieces % cups;
  return fuller === 0 ? [batch(cups, fewer)] : [batch(fuller, fewer + 1), batch(cups - fuller, fewer)];
}
