import type { Material } from '../material.ts';

/**
 * How far amounts are off their ratio, in percent: the worst over all pairs of parts. Of each pair the part with the larger
 * share is the reference, and the other is held against it: |(n_i/n_ref) / (r_i/r_ref) − 1| · 100. Where both have the same
 * share, each is tried as the reference and the larger error counts. A part that is missing altogether makes it 100.
 *
 * `amounts` and `shares` are in the same order; their units do not matter.
 */
export const ratioError = (amounts: readonly number[], shares: readonly number[]): number =>
  neat(pairErrors(amounts, shares).worst);

/** The error of the worst pair, as in `ratioError`, and the sum over all pairs; as they come out of the division. */
export function pairErrors(amounts: readonly number[], shares: readonly number[]): { worst: number; sum: number } {
  if (amounts.some((amount) => !(amount > 0))) return { worst: 100, sum: 100 * amounts.length };
  let [worst, sum] = [0, 0];
  for (let i = 0; i < amounts.length; i += 1) {
    for (let j = i + 1; j < amounts.length; j += 1) {
      const error = pairError(amounts[i] ?? 0, shares[i] ?? 0, amounts[j] ?? 0, shares[j] ?? 0);
      worst = Math.max(worst, error);
      sum += error;
    }
  }
  return { worst, sum };
}

function pairError(amount: number, share: number, other: number, otherShare: number): number {
  const quotient = (amount * otherShare) / (other * share);
  const against = (ratio: number) => Math.abs(ratio - 1) * 100;
  if (Math.abs(share - otherShare) <= 1e-9 * share) return Math.max(against(quotient), against(1 / quotient));
  return against(otherShare > share ? quotient : 1 / quotient);
}

/** `ratioError` by weight: `grams` per part, in the order in which the material declares them. Percent. */
export const ratioErrorPercent = (grams: readonly number[], material: Material): number =>
  ratioError(
    grams,
    material.parts.map((part) => part.weightShare),
  );

/** Less than this, in percent, is no tolerance that a scale could keep; `smallestBatch` takes it for this. */
const LEAST_TOLERANCE = 0.1;

/**
 * The smallest total, in the unit of `step`, at which half a step on every part cannot push the ratio beyond tolerance;
 * rounded up to the step. A tolerance below 0.1 % counts as 0.1 % here, since no batch would be large enough for none.
 *
 * With h half a step, f the share of a part in the whole, t the tolerance and T the total, the worst that can happen to
 * part i against the reference of its pair is that it is read h too low and the reference h too high, or the other way
 * round:
 *
 *     (f_i·T + h)/(f_ref·T − h) · f_ref/f_i − 1 ≤ t   ⇔   T ≥ h·(1/f_i + (1 + t)/f_ref)/t
 *     1 − (f_i·T − h)/(f_ref·T + h) · f_ref/f_i ≤ t   ⇔   T ≥ h·(1/f_i + (1 − t)/f_ref)/t
 *
 * The first is always the stricter, and strictest for the pair of the two smallest shares.
 */
export function smallestBatch(shares: readonly number[], tolerancePercent: number, step: number): number {
  if (shares.length < 2) return step;
  const tolerance = Math.max(tolerancePercent, LEAST_TOLERANCE) / 100;
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const [least = 0, next = 0] = [...shares].sort((a, b) => a - b);
  const total = ((step / 2) * (whole / least + ((1 + tolerance) * whole) / next)) / tolerance;
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

/** A number as it is handed out: six decimals, so that nothing of the noise of binary fractions is left. */
export const neat = (value: number): number => Number(value.toFixed(6)) || 0;

/** Whether an amount is above a limit by more than the noise of arithmetic. */
export const above = (amount: number, limit: number): boolean => amount > limit * (1 + 1e-9) + 1e-6;
