import { onStep, pairErrors } from './ratio.ts';

/** The whole numbers beside `value`: one where it is whole already. */
export const stepsBeside = (value: number): number[] => {
  const near = Math.round(value);
  return Math.abs(value - near) < 1e-9 * Math.max(1, Math.abs(value)) ? [near] : [Math.floor(value), Math.ceil(value)];
};

/** Every way of taking one of each. */
const combinations = (choices: readonly (readonly number[])[]): number[][] =>
  choices.reduce<number[][]>((all, options) => all.flatMap((some) => options.map((option) => [...some, option])), [[]]);

/** What is compared first: the worst pair's error, then the sum over the pairs. */
interface Errors {
  readonly worst: number;
  readonly sum: number;
}

/**
 * The best of the whole-step choices that are allowed: least error of the worst pair, then the least sum of the errors, then
 * the total nearest to the wish, then the smaller. Undefined where none is allowed.
 */
export function bestCounts(
  choices: readonly (readonly number[])[],
  errorsOf: (counts: readonly number[]) => Errors,
  wish: number,
  allowed: (counts: readonly number[]) => boolean = () => true,
): number[] | undefined {
  let best: { counts: number[]; keys: number[] } | undefined;
  for (const counts of combinations(choices)) {
    if (!allowed(counts)) continue;
    const { worst, sum } = errorsOf(counts);
    const keys = [worst, sum, Math.abs(counts.reduce((total, count) => total + count, 0) - wish)];
    if (best === undefined || comesBefore(keys, best.keys)) best = { counts, keys };
  }
  return best?.counts;
}

function comesBefore(keys: readonly number[], others: readonly number[]): boolean {
  for (const [i, key] of keys.entries()) {
    const other = others[i] ?? 0;
    if (Math.abs(key - other) >= 1e-9) return key < other;
  }
  return false;
}

/**
 * Amounts that a scale can show: of the steps below and above each ideal amount, those with the least error of the worst
 * pair; ties go to the least sum of the errors, then to the total nearest to the wish. Where part number `anchor` is given it
 * stays at its nearest step, and the others follow it. No part is ever nothing. `allowed` keeps out amounts that are above a
 * limit, if others can be had. Amounts and step are in one unit, grams or millilitres; shares are the ratio.
 */
export function roundParts(
  total: number,
  shares: readonly number[],
  step: number,
  anchor: number | null = null,
  allowed: (amounts: readonly number[]) => boolean = () => true,
): number[] {
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const ideal = shares.map((share) => (total * share) / whole / step);
  const amountsOf = (counts: readonly number[]) => counts.map((count) => onStep(count, step));
  const held = anchor === null ? 0 : Math.max(1, Math.round(ideal[anchor] ?? 0));
  const best = (holding: number, may?: (counts: readonly number[]) => boolean) => {
    const scale = anchor === null ? 1 : holding / (ideal[anchor] ?? 1);
    const choices = ideal.map((count, i) =>
      i === anchor ? [holding] : stepsBeside(count * scale).map((one) => Math.max(1, one)),
    );
    return bestCounts(choices, (counts) => pairErrors(counts, shares), (total / step) * scale, may);
  };
  const may = (counts: readonly number[]) => allowed(amountsOf(counts));
  return amountsOf(best(held, may) ?? best(Math.max(1, held - 1), may) ?? best(held) ?? []);
}
