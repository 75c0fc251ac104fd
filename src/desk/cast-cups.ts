import { type Batch, castBatches } from '../trade/casting/amount.ts';
import { usualLayers } from '../trade/casting/wall.ts';
import type { Material } from '../trade/material.ts';
import type { Quantity } from '../trade/measures/amount.ts';
import { parseQuantity } from '../trade/measures/quantity.ts';
import { type Cups, truenessOf } from '../trade/mixing/batches.ts';
import { type Mix, type MixAsk, type Scale, weigh } from '../trade/mixing/mix.ts';
import { isRefusal, type Refusal } from '../words/refusal.ts';

/** What is to be cast, and how it is measured out. */
export interface CastCupsAsk {
  readonly pieces: number;
  readonly gramsEach: number;
  /** Of a hollow casting; null for a solid one. */
  readonly wallMillimetres: number | null;
  /** As somebody said; null where nobody did. */
  readonly layers: number | null;
  readonly by: MixAsk['by'];
}

/** The cups of one layer, the largest first, and the weigh-outs of the one or two kinds there are. */
export interface CastCups {
  readonly layers: number;
  /** What one casting takes in one layer. */
  readonly layerGrams: number;
  readonly batches: readonly [Batch, ...Batch[]];
  readonly mix: Mix;
  readonly lastMix: Mix | null;
  /** What the first cup would be if less could be weighed true; else null. */
  readonly neededGrams: number | null;
}

/** In which layers and cups castings are poured, each cup weighed out. Refusals: those of `weigh`. */
export function castCups(material: Material, ask: CastCupsAsk, scale: Scale): CastCups | Refusal {
  const { pieces, gramsEach, wallMillimetres, by } = ask;
  const inLayers = (count: number) => castBatches(pieces, gramsEach / count, material.mostGrams, truenessOf(material), scale);
  const usual = ask.layers ?? (wallMillimetres === null ? 1 : usualLayers(wallMillimetres));
  // Where nobody says how many, no layer is so small that it could not be weighed true.
  const layers = ask.layers === null && inLayers(usual).some(({ cup }) => cup.raised) ? 1 : usual;
  const batches = inLayers(layers);
  const layerGrams = gramsEach / layers;
  const [first, then] = batches;
  const cup = weighCup(material, first.cup, by, scale);
  if (isRefusal(cup)) return cup;
  const last = then ? weighCup(material, then.cup, by, scale) : null;
  if (isRefusal(last)) return last;
  const neededGrams = cup.raised ? first.castings * layerGrams : null;
  return { layers, layerGrams, batches, mix: cup.mix, lastMix: last?.mix ?? null, neededGrams };
}

/** One cup weighed out; what is too little for this way of measuring is raised to the least that is not. */
function weighCup(material: Material, cup: Cups, by: MixAsk['by'], scale: Scale): { mix: Mix; raised: boolean } | Refusal {
  const of = (quantity: Quantity) => weigh(material, { amount: { quantity, of: null }, by, additives: [] }, scale);
  const mix = of({ kind: 'mass', grams: cup.askGrams });
  if (!isRefusal(mix)) return { mix, raised: cup.raised };
  const least = mix.code === 'batch-too-small' ? parseQuantity(mix.example ?? '') : mix;
  const more = isRefusal(least) ? mix : of(least);
  return isRefusal(more) ? more : { mix: more, raised: true };
}
