import { nextSide } from './mesh-edges.ts';
import type { Welded } from './mesh-weld.ts';

export type Point = readonly [number, number, number];

/** Sides that hang together by their corners: the outline of a face or of a hole. */
interface Loop {
  length: number;
  /** Square millimetres seen from above; above zero where it runs anticlockwise. */
  enclosed: number;
  lowest: number;
  highest: number;
}

/** What a flange along some loops has to know. */
export interface Outlines {
  readonly millimetres: number;
  /** Those around the outside, less those around a hole. */
  readonly turns: number;
  /** How wide a flange has room in the narrowest hole; null where there is none. */
  readonly holeRadiusMillimetres: number | null;
}

export const pointAt = (points: Float64Array, point: number): Point => [
  points[3 * point] as number,
  points[3 * point + 1] as number,
  points[3 * point + 2] as number,
];
export const between = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** The loops that these sides make. Where `turned` is 1, a triangle is looked at from the other side, and so are its sides. */
export function loopsOf(sides: Uint32Array, { points, corners }: Welded, turned: Uint8Array): Loop[] {
  const above = new Map<number, number>();
  const rootOf = (corner: number): number => {
    let root = corner;
    for (let next = above.get(root); next !== undefined && next !== root; next = above.get(root)) {
      above.set(root, above.get(next) ?? next);
      root = next;
    }
    return root;
  };
  for (const side of sides) above.set(rootOf(corners[side] as number), rootOf(corners[nextSide(side)] as number));
  const loops = new Map<number, Loop>();
  for (const side of sides) {
    const root = rootOf(corners[side] as number);
    const loop = loops.get(root) ?? { length: 0, enclosed: 0, lowest: Infinity, highest: -Infinity };
    loops.set(root, loop);
    const [a, b] = [pointAt(points, corners[side] as number), pointAt(points, corners[nextSide(side)] as number)];
    const way = turned[Math.floor(side / 3)] === 1 ? -1 : 1;
    loop.length += between(a, b);
    // About the middle of the box, where a closed loop encloses what it does about any point.
    loop.enclosed += (way * (a[0] * b[1] - b[0] * a[1])) / 2;
    loop.lowest = Math.min(loop.lowest, a[2], b[2]);
    loop.highest = Math.max(loop.highest, a[2], b[2]);
  }
  return [...loops.values()];
}

/**
 * `outwards`: the sign of what an outer loop encloses. Twice its area by its outline is the radius of a round hole, and more
 * than fits into any other: a square's is half its side, just so.
 */
export function outlinesOf(loops: readonly Loop[], outwards: 1 | -1): Outlines {
  const holes = loops.filter(({ enclosed }) => enclosed * outwards < 0);
  const radii = holes.map(({ enclosed, length }) => (2 * Math.abs(enclosed)) / length);
  return {
    millimetres: loops.reduce((sum, { length }) => sum + length, 0),
    turns: loops.length - 2 * holes.length,
    holeRadiusMillimetres: radii.length === 0 ? null : Math.min(...radii),
  };
}
