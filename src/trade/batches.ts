/** An amount in equal batches, none of them larger than `mostGrams` (null: no limit): how many, and how many grams each. */
export function batchesOf(totalGrams: number, mostGrams: number | null): { count: number; grams: number } {
  const count = mostGrams === null ? 1 : Math.max(1, Math.ceil(totalGrams / mostGrams - 1e-9));
  return { count, grams: totalGrams / count };
}
