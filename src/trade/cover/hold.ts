/** Standard acceleration of free fall, in metres per second squared (exact by convention, 1901). */
const GRAVITY = 9.80665;

/**
 * How thick a fresh coat holds on a wall before it runs, in millimetres: a film slips where its weight along the wall exceeds
 * its yield stress, ρ·g·h·sin θ = τ, so h = τ / (ρ·g·sin θ). `degrees` from the horizontal; 90 is upright.
 */
export const holdMillimetres = (yieldPascals: number, gramsPerMillilitre: number, degrees = 90): number =>
  yieldPascals / (gramsPerMillilitre * GRAVITY * Math.sin((degrees * Math.PI) / 180));

/** From which slope on a coat of that thickness runs, in degrees from the horizontal; null where it holds upright. */
export function runsFromDegrees(millimetres: number, yieldPascals: number, gramsPerMillilitre: number): number | null {
  const sine = holdMillimetres(yieldPascals, gramsPerMillilitre) / millimetres;
  return sine >= 1 ? null : (Math.asin(sine) * 180) / Math.PI;
}
