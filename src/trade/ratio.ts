import type { Material } from './material.ts';

/**
 * How far amounts are off their ratio, in percent. The part with the largest share is the reference, and each other part is
 * held against it: the largest |(n_i/n_ref) / (r_i/r_ref) − 1| · 100. Where several parts share the largest share, each is
 * tried as the reference and the larger error counts. A part that is missing altogether makes it 100.
 *
 * `amounts` and `shares` are in the same order; their units do not matter.
 */
export function ratioError(amounts: readonly number[], shares: readonly number[]): number {
  if (amounts.some((amount) => !(amount > 0))) return 100;
  const fill = amounts.map((amount, i) => amount / (shares[i] ?? Number.NaN));
  const largest = Math.max(...shares);
  const [most, least] = [Math.max(...fill), Math.min(...fill)];
  const errors = fill
    .filter((_, i) => (shares[i] ?? 0) >= largest * (1 - 1e-9))
    .map((reference) => Math.max(most / reference - 1, 1 - least / reference));
  return Math.max(...errors) * 100;
}

/** `ratioError` by weight: `grams` per part, in the order in which the material declares them. Percent. */
export const ratioErrorPercent = (grams: readonly number[], material: Material): number =>
  ratioError(
    grams,
    material.parts.map((part) => part.weightShare),
  );

/**
 * The smallest total, in the unit of `step`, at which half a step on every part cannot push the ratio beyond tolerance;
 * rounded up to the step. Infinite where nothing is tolerated.
 *
 * With h half a step, f the share of a part in the whole, t the tolerance and T the total, the worst that can happen to
 * part i against the reference is that it is read h too low and the reference h too high, or the other way round:
 *
 *     (f_i·T + h)/(f_ref·T − h) · f_ref/f_i − 1 ≤ t   ⇔   T ≥ h·(1/f_i + (1 + t)/f_ref)/t
 *     1 − (f_i·T − h)/(f_ref·T + h) · f_ref/f_i ≤ t   ⇔   T ≥ h·(1/f_i + (1 − t)/f_ref)/t
 *
 * The first is always the stricter, and strictest for the part with the smallest share.
 */
export function smallestBatch(shares: readonly number[], tolerancePercent: number, step: number): number {
  if (shares.length < 2) return step;
  const tolerance = tolerancePercent / 100;
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const [least, most] = [Math.min(...shares) / whole, Math.max(...shares) / whole];
  const total = ((step / 2) * (1 / least + (1 + tolerance) / most)) / tolerance;
  return Number.isFinite(total) ? onStep(Math.ceil(total / step - 1e-9), step) : Number.POSITIVE_INFINITY;
}

/** `smallestBatch` by weight, in grams, for a scale with that step. */
export const smallestBatchGrams = (material: Material, stepGrams: number): number =>
  smallestBatch(
    material.parts.map((part) => part.weightShare),
    material.tolerancePercent,
    stepGrams,
  );

/** `count` steps, free of the noise of binary fractions: 3 steps of 0.1 are 0.3. */
export const onStep = (count: number, step: number): number => Number((count * step).toPrecision(12));
