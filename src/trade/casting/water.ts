/**
 * Density of water in g/mL at `celsius`, 0 to 40 °C (beyond that, the value at the nearer end): the formula recommended by
 * Tanaka et al., Metrologia 38 (2001) 301–309, at 101 325 Pa. The air in tap water and its salts lie below what a studio's
 * scale shows.
 */
export function waterDensity(celsius: number): number {
  const t = Math.min(40, Math.max(0, celsius));
  return 0.99997495 * (1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881)));
}

/** Volume in millilitres of a cavity that holds so many grams of water. The lift of the air, 0.1 %, is left out. */
export const cavityFromWater = (grams: number, celsius: number): number => grams / waterDensity(celsius);
