/** More coats than this nobody brushes: what is thicker is poured. */
export const MOST_COATS = 20;
/** The first coat is thinner than the usual one by a tenth at least: it has to find every pore. Common practice, no source. */
const FIRST_OF_USUAL = 0.9;
/** Each later coat is thicker than the one before by at least this share of the thickest. */
const GROWTH = 0.02;
/** Where there is room, coats go from 0.7 to 1.3 times their mean, as our recipes have it: the first, and how far the others spread. */
const FIRST_OF_MEAN = 0.7;
const SPREAD = 0.18;
/** What a coat may be in times of the usual one, where the material says no more. */
export const MOST_OF_USUAL = 1.5;

/**
 * A skin in coats, thicknesses in millimetres, from the first to the last: as few as can be, but `least`, each thicker than the
 * one before it, the first thinner than the usual coat, none over `most` (null: one and a half times the usual) nor over what `hold`s on
 * a wall (null: no matter), and together just the skin. Null where more than `MOST_COATS` would be needed.
 */
export function coatsFor(skin: number, usual: number, most: number | null, hold: number | null, least = 1): number[] | null {
  // All in whole steps of about a hundredth of a millimetre, of which the skin is a whole number.
  const wanted = Math.max(1, Math.round(skin * 100));
  const step = skin / wanted;
  const steps = (millimetres: number) => Math.floor(millimetres / step + 1e-9);
  const thickest = steps(Math.min(most ?? usual * MOST_OF_USUAL, hold ?? Number.POSITIVE_INFINITY));
  const first = Math.min(steps(usual * FIRST_OF_USUAL), thickest);
  const growth = Math.max(1, Math.floor(Math.min(thickest * GROWTH, first / 2)));
  for (let count = least; count <= MOST_COATS; count += 1) {
    const largest = largestCoats(count, { thickest, first, growth });
    if ((largest[0] ?? 0) < 1) return null;
    if (sum(largest) < wanted) continue;
    const usually = whole(usualCoats(count, wanted, { thickest, first }), wanted);
    return (fits(usually, largest) ? usually : between(largest, growth, wanted)).map((coat) => coat * step);
  }
  return null;
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** The most that so many coats can hold, each of them. */
function largestCoats(count: number, { thickest, first, growth }: { thickest: number; first: number; growth: number }): number[] {
  return Array.from({ length: count }, (_, index) => {
    const room = thickest - growth * (count - 1 - index);
    return index === 0 ? Math.min(first, room) : room;
  });
}

/** A thin first coat, and then coats that grow around their mean, as far as there is room. */
function usualCoats(count: number, wanted: number, { thickest, first }: { thickest: number; first: number }): number[] {
  if (count === 1) return [wanted];
  const thin = Math.min(first, (FIRST_OF_MEAN * wanted) / count);
  const mean = (wanted - thin) / (count - 1);
  const spread = count === 2 ? 0 : Math.min(SPREAD, (thickest - 1) / mean - 1);
  const place = (index: number) => (2 * index) / Math.max(1, count - 2) - 1;
  return [thin, ...Array.from({ length: count - 1 }, (_, index) => mean * (1 + spread * (count === 2 ? 0 : place(index))))];
}

const fits = (coats: readonly number[], largest: readonly number[]): boolean =>
  coats.every((coat, index) => coat <= (largest[index] ?? 0) && (index === 0 || coat > (coats[index - 1] ?? 0)));

/** As far between the thinnest coats that grow and the largest ones as makes up the whole. */
function between(largest: readonly number[], growth: number, wanted: number): number[] {
  const least = largest.map((_, index) => 1 + growth * index);
  const share = (wanted - sum(least)) / (sum(largest) - sum(least));
  return whole(
    least.map((low, index) => low + share * ((largest[index] ?? 0) - low)),
    wanted,
  );
}

/** Whole numbers with that sum: cut down, and what is left over goes to the last ones, so that they still grow. */
function whole(values: readonly number[], wanted: number): number[] {
  const cut = values.map((value) => Math.floor(value + 1e-9));
  const left = wanted - sum(cut);
  return cut.map((value, index) => (index >= cut.length - left ? value + 1 : value));
}
