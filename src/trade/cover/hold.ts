import type { Body } from '../body/body.ts';
import type { Material } from '../material.ts';
import { mixedDensity } from '../mixing/parts.ts';

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

/** How thick a coat of it holds on the steep share of a body; null where there is none, or where it is not known. */
export function wallHold(body: Pick<Body, 'steepPercent'> | null, material: Material): number | null {
  const density = mixedDensity(material);
  if (!body?.steepPercent || material.yieldPascals === null || density === null) return null;
  return holdMillimetres(material.yieldPascals, density);
}

/** Where a coat is more than holds on a wall, and the body has steep faces: what would hold, and from which slope on it runs. */
export interface Runs {
  readonly holdsMillimetres: number;
  readonly fromDegrees: number;
}

/** Null where a coat so thick stays where it is put, or where that is not known. */
export function runsOn(body: Pick<Body, 'steepPercent'> | null, material: Material, millimetres: number): Runs | null {
  const holdsMillimetres = wallHold(body, material);
  if (holdsMillimetres === null || material.yieldPascals === null) return null;
  const fromDegrees = runsFromDegrees(millimetres, material.yieldPascals, mixedDensity(material) ?? 1);
  return fromDegrees === null ? null : { holdsMillimetres, fromDegrees };
}
