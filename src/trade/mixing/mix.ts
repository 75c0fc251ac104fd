import { isRefusal, type Refusal } from '../../words/refusal.ts';
import { isPowder } from '../gypsum/powder.ts';
import type { Material } from '../material.ts';
import type { AdditiveAsk } from '../measures/additives.ts';
import { type Amount, parseAmount } from '../measures/amount.ts';
import { lastPart } from './catalyst.ts';
import { amountIn, densityMissing, overCapacity, powderByVolume, tooLarge, tooSmall, volumeRatioMissing } from './limits.ts';
import { partNamed, pourOrder, volumeShares } from './parts.ts';
import { above, neat, onStep, ratioError, smallestBatch } from './ratio.ts';
import { roundParts } from './rounding.ts';
import { type Stirred, stir } from './stir.ts';

export { ratioErrorPercent, smallestBatchGrams } from './ratio.ts';

/** What somebody wants: an amount of the mix or of one part, measured out by weight or by volume. */
export interface MixAsk {
  readonly amount: Amount;
  readonly by: 'weight' | 'volume';
  readonly additives: readonly AdditiveAsk[];
}

export interface Scale {
  readonly stepGrams: number;
  readonly mostGrams: number | null;
  /** The marks of the measuring cup, for mixing by volume. */
  readonly measureStepMillilitres: number;
}

export interface MixPart {
  readonly part: string;
  readonly grams: number;
  readonly millilitres: number | null;
  /** What the scale shows once this part is in: cumulative grams of all before it, the empty cup tared. */
  readonly scaleReading: number;
}

export interface Mix {
  readonly materialId: string;
  readonly by: 'weight' | 'volume';
  /** In pour order. */
  readonly parts: readonly MixPart[];
  /** Poured last, but before a catalyst. */
  readonly additives: readonly Stirred[];
  /** The parts alone. */
  readonly totalGrams: number;
  readonly totalMillilitres: number | null;
  /** With the additives. */
  readonly cupGrams: number;
  /** Against the ratio that was measured by: by weight, or by volume. */
  readonly ratioErrorPercent: number;
  readonly smallestBatchGrams: number;
  /** The part that the amount was of, as the material names it. */
  readonly anchored: string | null;
}

const sum = (values: readonly number[]) => Number(values.reduce((total, value) => total + value, 0).toPrecision(12));

/**
 * How much of each part to pour. By weight the parts are rounded to the scale's step, by volume to the marks of the
 * measuring cup, in both cases to the amounts that keep the ratio best (see `roundParts`) and that are not above a limit
 * which the amount asked for is not above; grams and millilitres are turned into each other by the parts' densities. What is
 * stirred in counts towards the limits.
 *
 * Refusals: `unknown-part`, `density-missing`, `powder-by-volume`, `volume-ratio-missing`, `batch-too-small`,
 * `batch-too-large`, `scale-too-small`, and those of `stir`. An amount that a refusal offers would not be refused.
 */
export const weigh = (material: Material, ask: MixAsk, scale: Scale): Mix | Refusal =>
  weighOut(material, ask, scale, (typed) => {
    const amount = parseAmount(typed);
    const mix = isRefusal(amount) ? amount : weighOut(material, { ...ask, amount }, scale, () => null);
    if (isRefusal(mix)) return null;
    return ask.by === 'weight' ? mix.totalGrams : mix.totalMillilitres;
  });

/** `measure`: what an amount, as typed, would measure in all; null where it would be refused. */
function weighOut(material: Material, ask: MixAsk, scale: Scale, measure: (typed: string) => number | null): Mix | Refusal {
  const byVolume = ask.by === 'volume';
  const anchor = ask.amount.of === null ? null : partNamed(material, ask.amount.of);
  if (isRefusal(anchor)) return anchor;
  const powder = material.parts.find((part) => isPowder(material, part));
  // An amount that is one of powder by volume is refused as such, below.
  if (byVolume && powder && !(anchor === powder && ask.amount.quantity.kind === 'volume')) return powderByVolume(powder, null);
  const shares = byVolume ? volumeShares(material) : material.parts.map((part) => part.weightShare);
  if (shares === null) return volumeRatioMissing(material);
  const densities = material.parts.map((part) => part.gramsPerMillilitre);
  const dense = densities.every((density) => density !== null);
  if (byVolume && !dense) return densityMissing(material);

  const amount = amountIn(byVolume ? 'volume' : 'mass', ask.amount.quantity, material, anchor);
  if (isRefusal(amount)) return amount;

  const index = anchor === null ? null : material.parts.indexOf(anchor);
  const fraction = index === null ? 1 : (shares[index] ?? 0) / sum(shares);
  const total = amount / fraction;
  const step = byVolume ? scale.measureStepMillilitres : scale.stepGrams;
  /** Grams in one of what is measured: of a gram, or of a millilitre of mix. */
  const gramsPer = byVolume ? sum(shares.map((share, i) => share * (densities[i] ?? 0))) / sum(shares) : 1;
  const smallest = smallestBatch(shares, material.tolerancePercent, step);
  const { stepGrams } = scale;
  const of = anchor?.name ?? null;
  const batch = { total, fraction, smallest, gramsPer, step, stepGrams, of, by: ask.by, measure };
  // Of a batch as large as can be: what is refused there is not a matter of the amount.
  const ample = material.parts.map((part) => ({ part: part.name, grams: part.weightShare * stepGrams * 1e6 }));
  const never = stir(material, ask.additives, ample, stepGrams);
  if (isRefusal(never)) return never;
  const small = tooSmall(material, batch);
  if (small) return small;
  const mostOf = material.mostGrams ?? Number.POSITIVE_INFINITY;
  if (above(total * gramsPer, mostOf)) return tooLarge(material, batch, total);

  const gramsIn = (measured: readonly number[]) => measured.map((one, i) => (byVolume ? sum([one * (densities[i] ?? 0)]) : one));
  const pour = (room: number) => {
    const allowed = (amounts: readonly number[]) => !above(sum(gramsIn(amounts)), room);
    const measured = roundParts(total, shares, step, index, allowed);
    const gramsOf = gramsIn(measured);
    const portions = material.parts.map((part, i) => ({ part: part.name, grams: gramsOf[i] ?? 0 }));
    const additives = stir(material, ask.additives, portions, stepGrams, (typed) => measure(typed) !== null);
    return { measured, gramsOf, additives };
  };
  const limit = Math.min(mostOf, scale.mostGrams ?? Number.POSITIVE_INFINITY);
  let poured = pour(limit);
  if (isRefusal(poured.additives)) return poured.additives;
  const stirredIn = sum(poured.additives.map((one) => one.grams));
  if (above(sum(poured.gramsOf) + stirredIn, limit)) poured = pour(limit - stirredIn);
  const { measured, gramsOf, additives } = poured;
  if (isRefusal(additives)) return additives;

  const millilitresOf = measured.map((one, i) => {
    const density = densities[i] ?? null;
    return byVolume ? one : density === null ? null : one / density;
  });
  const order = pourOrder(material);
  // What is stirred in goes in before the catalyst, from which the clock runs.
  const last = lastPart(material);
  const early = last === undefined ? order : order.slice(0, order.indexOf(last));
  const added = sum(additives.map((one) => one.grams));
  const late = sum(order.filter((part) => !early.includes(part)).map((part) => gramsOf[material.parts.indexOf(part)] ?? 0));
  let reading = 0;
  const parts = order.map((part): MixPart => {
    const i = material.parts.indexOf(part);
    const grams = gramsOf[i] ?? 0;
    const millilitres = millilitresOf[i] ?? null;
    reading = sum([reading, grams]);
    return {
      part: part.name,
      grams: neat(grams),
      millilitres: millilitres === null ? null : neat(millilitres),
      scaleReading: neat(early.includes(part) ? reading : reading + added),
    };
  });
  const cupGrams = neat(reading + added);
  if (above(cupGrams, mostOf)) return tooLarge(material, batch, cupGrams / gramsPer);
  if (scale.mostGrams !== null && above(cupGrams, scale.mostGrams)) return overCapacity(batch, cupGrams, scale.mostGrams);
  return {
    materialId: material.id,
    by: ask.by,
    parts,
    additives: additives.map((one) => ({ ...one, scaleReading: neat(one.scaleReading - late) })),
    totalGrams: neat(reading),
    totalMillilitres: dense ? neat(sum(millilitresOf.map((one) => one ?? 0))) : null,
    cupGrams,
    ratioErrorPercent: ratioError(measured, shares),
    smallestBatchGrams: neat(byVolume ? onStep(Math.ceil((smallest * gramsPer) / stepGrams - 1e-9), stepGrams) : smallest),
    anchored: of,
  };
}
