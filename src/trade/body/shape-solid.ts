import { type Body, STEEP_DEGREES, UNDERCUT_DEGREES } from './body.ts';

/** A body of which it is also known how much flat room is on top, where another could stand. */
export interface Solid {
  readonly body: Body;
  readonly topSquareMetres: number;
}

const radians = (degrees: number) => (degrees * Math.PI) / 180;

/** How far a face looks up: the upward part of its outward normal. A wall has 0, a table top 1, a ceiling -1. */
export const STEEP_BELOW = Math.cos(radians(STEEP_DEGREES));
export const UNDERCUT_BELOW = -Math.sin(radians(UNDERCUT_DEGREES));

/** Surface by how it lies, in square millimetres: what is neither steep nor undercut is level. */
export interface Lie {
  readonly level: number;
  readonly steep: number;
  readonly undercut: number;
}

/** A flat or evenly tilted face. */
export const face = (area: number, upward: number): Lie => ({
  level: upward >= STEEP_BELOW ? area : 0,
  steep: upward < STEEP_BELOW && upward >= UNDERCUT_BELOW ? area : 0,
  undercut: upward < UNDERCUT_BELOW ? area : 0,
});

export const wall = (area: number): Lie => face(area, 0);
export const table = (area: number): Lie => face(area, 1);

/**
 * A curved surface, of which `between(low, high)` gives the area that looks up by between `low` and `high`; `lowest` is
 * where it looks up least.
 */
export function curved(between: (low: number, high: number) => number, lowest: number): Lie {
  const zone = (low: number, high: number) => (Math.max(low, lowest) < high ? between(Math.max(low, lowest), high) : 0);
  return { level: zone(STEEP_BELOW, 1), steep: zone(UNDERCUT_BELOW, STEEP_BELOW), undercut: zone(-1, UNDERCUT_BELOW) };
}

interface Measured {
  readonly lies: readonly Lie[];
  /** Cubic millimetres. */
  readonly volume: number | null;
  /** Millimetres. */
  readonly box: readonly [number, number, number];
  readonly outline: number;
  /** Half the width of the hole that its foot runs around. */
  readonly holeRadius?: number;
  /** Square millimetres. */
  readonly foot: number;
  readonly top?: number;
}

/** From millimetres to the units of a `Body`. */
export function solid({ lies, volume, box, outline, holeRadius, foot, top = 0 }: Measured): Solid {
  const total = (part: keyof Lie) => lies.reduce((sum, lie) => sum + lie[part], 0);
  const area = total('level') + total('steep') + total('undercut');
  const outer = outline > 0 ? 1 : 0;
  const body: Body = {
    areaSquareMetres: area / 1e6,
    volumeLitres: volume === null ? null : volume / 1e6,
    boxMillimetres: box,
    longestMillimetres: Math.max(...box),
    outlineMillimetres: outline,
    outlineTurns: holeRadius === undefined ? outer : outer - 1,
    holeRadiusMillimetres: holeRadius ?? null,
    footSquareMetres: foot / 1e6,
    steepPercent: (100 * total('steep')) / area,
    undercutPercent: (100 * total('undercut')) / area,
  };
  return { body, topSquareMetres: top / 1e6 };
}
