import { isRefusal, type Refusal } from '../words/refusal.ts';
import type { AdditiveAsk } from './additives.ts';
import type { Amount } from './amount.ts';
import { amountIn, densityMissing, limitsRefusal, overCapacity, volumeRatioMissing } from './limits.ts';
import type { Material } from './material.ts';
import { partNamed, pourOrder, volumeShares } from './parts.ts';
import { onStep, ratioError, smallestBatch } from './ratio.ts';
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
  /** What the scale shows once this part is in: cumulative grams, the empty cup tared. */
  readonly scaleReading: number;
}

export interface Mix {
  readonly materialId: string;
  readonly by: 'weight' | 'volume';
  /** In pour order. */
  readonly parts: readonly MixPart[];
  /** Poured last. */
  readonly additives: readonly Stirred[];
  /** The parts alone. */
  readonly totalGrams: number;
  readonly totalMillilitres: number | null;
  /** With the additives. */
  readonly cupGrams: number;
  /** Against the ratio that was measured by: by weight, or by volume. */
  readonly ratioErrorPercent: number;
  readonly smallestBatchGrams: number;
  readonly potLifeMinutes: number;
  /** The part that the amount was of, as the material names it. */
  readonly anchored: string | null;
}

const sum = (values: readonly number[]) => Number(values.reduce((total, value) => total + value, 0).toPrecision(12));

/**
 * How much of each part to pour. By weight the parts are rounded to the scale's step, by volume to the marks of the
 * measuring cup, in both cases to the amounts that keep the ratio best (see `roundParts`); grams and millilitres are turned
 * into each other by the parts' densities.
 *
 * Refusals: `unknown-part`, `density-missing`, `volume-ratio-missing`, `batch-too-small`, `batch-too-large`,
 * `scale-too-small`, `additive-out-of-range`, `additive-too-small`, `additive-unclear`.
 */
export function weigh(material: Material, ask: MixAsk, scale: Scale): Mix | Refusal {
  const byVolume = ask.by === 'volume';
  const shares = byVolume ? volumeShares(material) : material.parts.map((part) => part.weightShare);
  if (shares === null) return volumeRatioMissing(material);
  const densities = material.parts.map((part) => part.gramsPerMillilitre);
  const dense = densities.every((density) => density !== null);
  if (byVolume && !dense) return densityMissing(material);

  const anchor = ask.amount.of === null ? null : partNamed(material, ask.amount.of);
  if (isRefusal(anchor)) return anchor;
  const amount = amountIn(byVolume ? 'volume' : 'mass', ask.amount.quantity, material, anchor);
  if (isRefusal(amount)) return amount;

  const index = anchor === null ? null : material.parts.indexOf(anchor);
  const fraction = index === null ? 1 : (shares[index] ?? 0) / sum(shares);
  const total = amount / fraction;
  const step = byVolume ? scale.measureStepMillilitres : scale.stepGrams;
  /** Grams in one of what is measured: of a gram, or of a millilitre of mix. */
  const gramsPer = byVolume ? sum(shares.map((share, i) => share * (densities[i] ?? 0))) / sum(shares) : 1;
  const smallest = smallestBatch(shares, material.tolerancePercent, step);
  const limits = limitsRefusal(material, { total, fraction, smallest, gramsPer, step, of: anchor?.name ?? null, by: ask.by });
  if (limits) return limits;

  const measured = roundParts(total, shares, step, index);
  const gramsOf = measured.map((one, i) => (byVolume ? sum([one * (densities[i] ?? 0)]) : one));
  const millilitresOf = measured.map((one, i) => {
    const density = densities[i] ?? null;
    return byVolume ? one : density === null ? null : one / density;
  });
  let reading = 0;
  const parts = pourOrder(material).map((part): MixPart => {
    const i = material.parts.indexOf(part);
    const grams = gramsOf[i] ?? 0;
    reading = sum([reading, grams]);
    return { part: part.name, grams, millilitres: millilitresOf[i] ?? null, scaleReading: reading };
  });

  const additives = stir(material, ask.additives, parts, scale.stepGrams);
  if (isRefusal(additives)) return additives;
  const cupGrams = additives.at(-1)?.scaleReading ?? reading;
  if (scale.mostGrams !== null && cupGrams > scale.mostGrams * (1 + 1e-9)) {
    return overCapacity(cupGrams, reading, scale.mostGrams, scale.stepGrams);
  }
  return {
    materialId: material.id,
    by: ask.by,
    parts,
    additives,
    totalGrams: reading,
    totalMillilitres: dense ? sum(millilitresOf.map((one) => one ?? 0)) : null,
    cupGrams,
    ratioErrorPercent: ratioError(measured, shares),
    smallestBatchGrams: byVolume ? onStep(Math.ceil((smallest * gramsPer) / scale.stepGrams - 1e-9), scale.stepGrams) : smallest,
    potLifeMinutes: material.potLifeMinutes,
    anchored: anchor?.name ?? null,
  };
}
