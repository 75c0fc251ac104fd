import { type Batch, castBatches } from '../trade/casting/amount.ts';
import { usualLayers } from '../trade/casting/wall.ts';
import type { Material } from '../trade/material.ts';
import type { Quantity } from '../trade/measures/amount.ts';
import { parseQuantity } from '../trade/measures/quantity.ts';
import { truenessOf } from '../trade/mixing/batches.ts';
import { type Mix, type MixAsk, type Scale, weigh } from '../trade/mixing/mix.ts';
import { mixedDensity } from '../trade/mixing/parts.ts';
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

/**
 * In which layers and cups castings are poured, each cup weighed out. In measuring cups none comes out below what it has to
 * fill, where the material may be mixed in as much. Refusals: those of `weigh`.
 */
export function castCups(material: Material, ask: CastCupsAsk, scale: Scale): CastCups | Refusal {
  const usual = ask.layers ?? (ask.wallMillimetres === null ? 1 : usualLayers(ask.wallMillimetres));
  const poured = inLayers(material, ask, usual, scale);
  // Where nobody says how many, no layer is so small that it could not be weighed true.
  const tooThin = ask.layers === null && usual > 1 && !isRefusal(poured) && poured.batches.some(({ cup }) => cup.raised);
  return tooThin ? inLayers(material, ask, 1, scale) : poured;
}

function inLayers(material: Material, { pieces, gramsEach, by }: CastCupsAsk, layers: number, scale: Scale): CastCups | Refusal {
  const layerGrams = gramsEach / layers;
  const mostGrams = by === 'weight' ? material.mostGrams : roomFor(material, scale);
  const [first, then] = castBatches(pieces, layerGrams, mostGrams, truenessOf(material), scale);
  const cup = measured(material, first, layerGrams, by, scale);
  if (isRefusal(cup)) return cup;
  const last = then ? measured(material, then, layerGrams, by, scale) : null;
  if (isRefusal(last)) return last;
  return {
    layers,
    layerGrams,
    batches: last === null ? [cup.batch] : [cup.batch, last.batch],
    mix: cup.mix,
    lastMix: last?.mix ?? null,
    neededGrams: cup.batch.cup.raised ? first.castings * layerGrams : null,
  };
}

/** What may be mixed at once, less what rounding up to the marks of the measuring cups can add: a mark for each part. */
function roomFor(material: Material, { measureStepMillilitres }: Scale): number | null {
  const most = material.mostGrams;
  if (most === null) return null;
  const marks = material.parts.reduce((sum, part) => sum + (part.gramsPerMillilitre ?? 0) * measureStepMillilitres, 0);
  return Math.max(most - marks, most / 2);
}

/** One cup as it comes out; what is too little for this way of measuring is raised to the least that is not. */
function measured(
  material: Material,
  batch: Batch,
  layerGrams: number,
  by: MixAsk['by'],
  scale: Scale,
): { mix: Mix; batch: Batch } | Refusal {
  const of = (quantity: Quantity) => weigh(material, { amount: { quantity, of: null }, by, additives: [] }, scale);
  const out = (mix: Mix, raised: boolean) => ({ mix, batch: { ...batch, cup: { ...batch.cup, grams: mix.totalGrams, raised } } });
  const neededGrams = batch.castings * layerGrams;
  const mix = by === 'weight' ? of({ kind: 'mass', grams: batch.cup.askGrams }) : enough(material, neededGrams, scale, of);
  if (!isRefusal(mix)) return out(mix, batch.cup.raised && mix.totalGrams > neededGrams);
  const least = mix.code === 'batch-too-small' ? parseQuantity(mix.example ?? '') : mix;
  const more = isRefusal(least) ? mix : of(least);
  return isRefusal(more) ? more : out(more, true);
}

/** In measuring cups, as many marks more as it takes until what comes out is no less than what is needed. */
function enough(material: Material, grams: number, scale: Scale, of: (quantity: Quantity) => Mix | Refusal): Mix | Refusal {
  const millilitres = grams / (mixedDensity(material) ?? 1);
  let mix = of({ kind: 'mass', grams });
  for (let marks = 1; marks <= material.parts.length * 2 && !isRefusal(mix) && mix.totalGrams < grams - 1e-6; marks += 1) {
    const more = of({ kind: 'volume', millilitres: millilitres + marks * scale.measureStepMillilitres });
    if (isRefusal(more)) break;
    mix = more;
  }
  return mix;
}
