import { onStep, ratioError } from './ratio.ts';

/** The whole numbers beside `value`: one where it is whole already. */
export const stepsBeside = (value: number): number[] => {
  const near = Math.round(value);
  return Math.abs(value - near) < 1e-9 * Math.max(1, Math.abs(value)) ? [near] : [Math.floor(value), Math.ceil(value)];
};

/** Every way of taking one of each. */
const combinations = (choices: readonly (readonly number[])[]): number[][] =>
  choices.reduce<number[][]>((all, options) => all.flatMap((some) => options.map((option) => [...some, option])), [[]]);

/** The best of the whole-step choices: least ratio error, then the total nearest to the wish, then the smaller. */
export function bestCounts(
  choices: readonly (readonly number[])[],
  errorOf: (counts: readonly number[]) => number,
  wish: number,
): number[] {
  let best: { counts: number[]; error: number; off: number } | undefined;
  for (const counts of combinations(choices)) {
    const error = errorOf(counts);
    const off = Math.abs(counts.reduce((sum, count) => sum + count, 0) - wish);
    const same = best !== undefined && Math.abs(error - best.error) < 1e-9;
    if (best === undefined || (same ? off < best.off - 1e-9 : error < best.error)) best = { counts, error, off };
  }
  return best?.counts ?? [];
}

/**
 * Amounts that a scale can show: of the steps below and above each ideal amount, those with the least ratio error; ties go
 * to the total nearest to the wish. Where part number `anchor` is given it stays at its nearest step, and the others follow
 * it. No part is ever nothing. Amounts and step are in one unit, grams or millilitres; shares are the ratio.
 */
export function roundParts(total: number, shares: readonly number[], step: number, anchor: number | null = null): number[] {
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const ideal = shares.map((share) => (total * share) / whole / step);
  const held = anchor === null ? null : Math.max(1, Math.round(ideal[anchor] ?? 0));
  const scale = held === null || anchor === null ? 1 : held / (ideal[anchor] ?? 1);
  const choices = ideal.map((count, i) =>
    i === anchor && held !== null ? [held] : stepsBeside(count * scale).map((one) => Math.max(1, one)),
  );
  return bestCounts(choices, (counts) => ratioError(counts, shares), (total / step) * scale).map((count) => onStep(count, step));
}
