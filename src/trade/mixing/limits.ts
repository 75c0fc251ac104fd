import { Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';
import { isPowder } from '../gypsum/powder.ts';
import type { Material, Part } from '../material.ts';
import { type Quantity, sizeOf } from '../measures/amount.ts';
import { cupReadingText, scaleText, shownCupStep, shownStep } from '../measures/format.ts';
import { mixedDensity } from './parts.ts';
import { onStep } from './ratio.ts';

/**
 * A quantity of a part, or of the mix where `part` is null, in grams or in millilitres.
 * Refusals: `density-missing`, and `powder-by-volume` for millilitres of a powder.
 */
export function amountIn(kind: Quantity['kind'], quantity: Quantity, material: Material, part: Part | null): number | Refusal {
  const size = sizeOf(quantity);
  if (quantity.kind === 'volume' && part && isPowder(material, part)) return powderByVolume(part, `500 g of ${part.name}`);
  if (quantity.kind === kind) return size;
  const density = part ? part.gramsPerMillilitre : mixedDensity(material);
  if (density === null) return densityMissing(material);
  return kind === 'mass' ? size * density : size / density;
}

export function densityMissing(material: Material): Refusal {
  const message = say`Volumes and weights of ${material.name} cannot be turned into each other: it has a part without a density. I expected an amount in grams, weighed out.`;
  return new Refusal('density-missing', message, { example: '500 g' });
}

/** `example`: an amount that would do; null where any amount would, weighed out. */
export function powderByVolume({ name }: Part, example: string | null): Refusal {
  const message = say`A measuring cup of ${name} holds air, more or less of it each time: I expected it to be weighed out.`;
  return new Refusal('powder-by-volume', message, example === null ? {} : { example });
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
  readonly stepGrams: number;
  readonly by: 'weight' | 'volume';
  /** What an amount, as typed, would measure in all; null where it would be refused. */
  readonly measure: (typed: string) => number | null;
}

const show = ({ by, step }: Batch, amount: number) => (by === 'weight' ? scaleText(amount, step) : cupReadingText(amount, step));

/** As `show`, for what may be less than the scale could show. */
function inAll(batch: Batch, amount: number): Text {
  const text = show(batch, amount);
  return text.startsWith('0 ') ? say`less than ${plain(show(batch, batch.step))} in all` : say`${plain(text)} in all`;
}

/** The first of `tries` amounts, from `start` steps on, that would be weighed out and is `good`, as typed. */
function offer(
  batch: Batch,
  from: number,
  by: 1 | -1,
  tries: number,
  good: (total: number, asked: number) => boolean = () => true,
) {
  const step = batch.by === 'weight' ? shownStep(batch.step) : shownCupStep(batch.step);
  const steps = (from * batch.fraction) / step;
  const first = by > 0 ? Math.ceil(steps - 1e-9) : Math.floor(steps + 1e-9);
  for (let i = 0; i < tries; i += 1) {
    const asked = onStep(first + i * by, step);
    const amount = show(batch, asked);
    const text = `${amount}${batch.of === null ? '' : ` of ${batch.of}`}`;
    const total = batch.measure(text);
    if (total !== null && good(total, asked)) return { text, amount, total };
  }
  return undefined;
}

const most = (material: Material, batch: Batch) =>
  material.mostGrams === null ? Number.POSITIVE_INFINITY : material.mostGrams / batch.gramsPer;

/** Refusal `batch-too-small`; undefined where the batch is large enough. */
export function tooSmall(material: Material, batch: Batch): Refusal | undefined {
  const { total, smallest, step } = batch;
  if (total >= smallest * (1 - 1e-9)) return undefined;
  const why = say`${inAll(batch, total)} of ${material.name} is too little for steps of ${plain(show(batch, step))}: each reading can be half a step off, and at that size this could put it more than ${material.tolerancePercent} % off its ratio`;
  // What is offered must come out as large, not only be asked for as large.
  const enough = (out: number, asked: number) =>
    out >= smallest * (1 - 1e-9) && (batch.of !== null || out >= asked * (1 - 1e-9) - 1e-6);
  const least = offer(batch, smallest, 1, 60, enough);
  if (least) {
    const whole = batch.of === null ? least.amount : show(batch, least.total);
    return new Refusal('batch-too-small', say`${why}. I expected at least ${plain(whole)} in all.`, { example: least.text });
  }
  // What is stirred in may need more than that.
  const last = Math.min(most(material, batch), 1e6);
  for (let more = smallest; more <= last; more *= 1.25) {
    const some = offer(batch, more, 1, 20, enough);
    if (!some) continue;
    const message = say`${why}. I expected more, such as ${plain(batch.of === null ? some.amount : show(batch, some.total))} in all.`;
    return new Refusal('batch-too-small', message, { example: some.text });
  }
  return new Refusal('batch-too-small', say`${why}; no batch is large enough. I expected finer steps than that.`);
}

/** Refusal `batch-too-large`: with what is stirred in, `cup`, it is more than the material may be mixed in. */
export function tooLarge(material: Material, batch: Batch, cup: number): Refusal {
  const { total, by, stepGrams } = batch;
  const limit = plain(scaleText(material.mostGrams ?? 0, by === 'weight' ? stepGrams : 1));
  const additives = cup > total * (1 + 1e-9) ? say` with what is stirred in` : say``;
  const why = say`${material.name} is mixed in batches of at most ${limit}, and this is ${inAll(batch, cup)}${additives}`;
  const least = Math.ceil(cup / most(material, batch) - 1e-9);
  for (let count = Math.max(2, least); count < least + 20; count += 1) {
    const each = offer(batch, total / count, 1, 2);
    if (!each) continue;
    const of = batch.of === null ? '' : ` of ${batch.of}`;
    return new Refusal('batch-too-large', say`${why}: mix ${count} equal batches of ${plain(each.amount)}${of}.`, {
      example: each.text,
    });
  }
  return new Refusal('batch-too-large', say`${why}. I expected less.`);
}

/** Refusal `scale-too-small`: the cup and its additives weigh more than the scale can. */
export function overCapacity(batch: Batch, cupGrams: number, mostGrams: number): Refusal {
  const shown = (grams: number) => plain(scaleText(grams, batch.stepGrams));
  const why = say`The scale weighs at most ${shown(mostGrams)}, and this comes to ${shown(cupGrams)}`;
  const fits = offer(batch, (batch.total * mostGrams) / cupGrams, -1, 60);
  if (!fits) return new Refusal('scale-too-small', say`${why}. I expected less.`);
  const of = batch.of === null ? say` of mix` : say` of ${batch.of}`;
  return new Refusal('scale-too-small', say`${why}. I expected at most ${plain(fits.amount)}${of} at a time.`, {
    example: fits.text,
  });
}
