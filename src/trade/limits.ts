import { Refusal } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import { type Quantity, sizeOf } from './amount.ts';
import { grams, millilitres } from './format.ts';
import type { Material, Part } from './material.ts';
import { mixedDensity } from './parts.ts';
import { onStep } from './ratio.ts';

/** A quantity of a part, or of the mix where `part` is null, in grams or in millilitres. Refusal: `density-missing`. */
export function amountIn(kind: Quantity['kind'], quantity: Quantity, material: Material, part: Part | null): number | Refusal {
  const size = sizeOf(quantity);
  if (quantity.kind === kind) return size;
  const density = part ? part.gramsPerMillilitre : mixedDensity(material);
  if (density === null) return densityMissing(material);
  return kind === 'mass' ? size * density : size / density;
}

export function densityMissing(material: Material): Refusal {
  const message = say`Volumes and weights of ${material.name} cannot be turned into each other: it has a part without a density. I expected an amount in grams, weighed out.`;
  return new Refusal('density-missing', message, { example: '500 g' });
}

export function volumeRatioMissing(material: Material): Refusal {
  const message = say`${material.name} has no ratio by volume, nor densities to work it out from; I expected it to be weighed out.`;
  return new Refusal('volume-ratio-missing', message, { example: '500 g' });
}

/** A batch in the unit that it is measured in: grams by weight, millilitres by volume. */
interface Batch {
  readonly total: number;
  /** The part of the total that the amount was given for: 1 for the whole. */
  readonly fraction: number;
  readonly of: string | null;
  readonly smallest: number;
  readonly gramsPer: number;
  readonly step: number;
  readonly by: 'weight' | 'volume';
}

/** Refusals `batch-too-small` and `batch-too-large`; undefined where the batch will do. */
export function limitsRefusal(material: Material, batch: Batch): Refusal | undefined {
  const { total, smallest, gramsPer, step, by } = batch;
  const most = material.mostGrams === null ? Number.POSITIVE_INFINITY : material.mostGrams / gramsPer;
  const show = (amount: number) => (by === 'weight' ? grams(amount, step) : millilitres(amount, step));
  const up = (amount: number) => onStep(Math.ceil(amount / step - 1e-9), step);
  // Typed amounts are quoted where they are shown; an example is a line to copy.
  const example = (amount: number) => `${show(up(amount * batch.fraction))}${batch.of === null ? '' : ` of ${batch.of}`}`;
  const whole = (amount: number): Text => say`${plain(show(amount))} in all`;

  if (total < smallest * (1 - 1e-9)) {
    const why = say`${whole(total)} of ${material.name} is too little to measure in steps of ${plain(show(step))} and still be within ${material.tolerancePercent} % of its ratio`;
    if (!Number.isFinite(smallest) || smallest > most) {
      return new Refusal('batch-too-small', say`${why}; no batch is large enough. I expected finer steps than that.`);
    }
    return new Refusal('batch-too-small', say`${why}. I expected at least ${whole(smallest)}.`, { example: example(smallest) });
  }
  if (total > most * (1 + 1e-9)) {
    let count = Math.ceil(total / most - 1e-9);
    if (up(total / count) > most * (1 + 1e-9)) count += 1;
    const limit = material.mostGrams ?? 0;
    const message = say`${material.name} is mixed in batches of at most ${plain(grams(limit, by === 'weight' ? step : 1))}, and this is ${whole(total)}: mix ${count} equal batches of ${plain(show(up(total / count)))}.`;
    return new Refusal('batch-too-large', message, { example: example(total / count) });
  }
  return undefined;
}

/** Refusal `scale-too-small`: the cup and its additives weigh more than the scale can. */
export function overCapacity(cupGrams: number, totalGrams: number, mostGrams: number, stepGrams: number): Refusal {
  const fits = onStep(Math.floor((totalGrams * mostGrams) / cupGrams / stepGrams), stepGrams);
  const message = say`The scale weighs at most ${plain(grams(mostGrams, stepGrams))}, and this comes to ${plain(grams(cupGrams, stepGrams))}. I expected at most ${plain(grams(fits, stepGrams))} of mix at a time.`;
  return new Refusal('scale-too-small', message, { example: grams(fits, stepGrams) });
}
