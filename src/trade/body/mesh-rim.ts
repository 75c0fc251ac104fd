import { type Edges, nextSide, OPEN } from './mesh-edges.ts';
import type { Welded } from './mesh-weld.ts';

/** The open edges of a mesh, taken together. */
export interface Rim {
  /** Their middle, weighted by length; a point of the plane where they lie in one. */
  readonly middle: readonly [number, number, number];
  /** All of them lie in one plane. */
  readonly flat: boolean;
  /** Of the loop on which the model stands: the longest one at the bottom, or else the longest of all. */
  readonly outlineMillimetres: number;
  /** What that loop encloses, seen from above. */
  readonly footSquareMillimetres: number;
}

/** Of the diagonal of the box: how far off a plane its points may lie. */
const FLAT = 1e-4;
/** Of the height: what is at the bottom. */
const BOTTOM = 0.01;

/** Null where no edge is open. */
export function rimOfMesh({ points, corners, boxMillimetres }: Welded, { mates, openEdges }: Edges): Rim | null {
  if (openEdges === 0) return null;
  const sides = new Uint32Array(openEdges);
  let found = 0;
  for (let side = 0; side < mates.length; side += 1)
    if (mates[side] === OPEN) {
      sides[found] = side;
      found += 1;
    }
  const from = (side: number) => pointAt(points, corners[side] as number);
  const to = (side: number) => pointAt(points, corners[nextSide(side)] as number);
  const middle = middleOf(sides, from, to);
  const lowest = -boxMillimetres[2] / 2 + BOTTOM * boxMillimetres[2];
  const loops = [...loopsOf(sides, corners, middle, from, to).values()];
  const low = loops.filter(({ least }) => least <= lowest);
  const longest = (low.length > 0 ? low : loops).reduce((most, loop) => (loop.length > most.length ? loop : most));
  return {
    middle,
    flat: isFlat(sides, middle, FLAT * Math.hypot(...boxMillimetres), from, to),
    outlineMillimetres: longest.length,
    footSquareMillimetres: Math.abs(longest.enclosed),
  };
}

type Point = readonly [number, number, number];
type PointOf = (side: number) => Point;

const pointAt = (points: Float64Array, point: number): Point => [
  points[3 * point] as number,
  points[3 * point + 1] as number,
  points[3 * point + 2] as number,
];
const between = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

function middleOf(sides: Uint32Array, from: PointOf, to: PointOf): Point {
  const sum = [0, 0, 0];
  let weight = 0;
  for (const side of sides) {
    const [a, b] = [from(side), to(side)];
    const length = between(a, b);
    weight += length;
    for (const axis of [0, 1, 2] as const) sum[axis] = (sum[axis] as number) + (length * (a[axis] + b[axis])) / 2;
  }
  return sum.map((value) => (weight > 0 ? value / weight : 0)) as unknown as Point;
}

interface Loop {
  length: number;
  enclosed: number;
  least: number;
}

/** Open edges that hang together by their corners. */
function loopsOf(sides: Uint32Array, corners: Uint32Array, middle: Point, from: PointOf, to: PointOf): Map<number, Loop> {
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
    const loop = loops.get(root) ?? { length: 0, enclosed: 0, least: Infinity };
    loops.set(root, loop);
    const [a, b] = [from(side), to(side)];
    loop.length += between(a, b);
    loop.enclosed += ((a[0] - middle[0]) * (b[1] - middle[1]) - (b[0] - middle[0]) * (a[1] - middle[1])) / 2;
    loop.least = Math.min(loop.least, a[2], b[2]);
  }
  return loops;
}

/** Looks for the plane by the middle of all triangles from the middle to an edge, which all of its loops add to. */
function isFlat(sides: Uint32Array, middle: Point, reach: number, from: PointOf, to: PointOf): boolean {
  const normal = [0, 0, 0] as [number, number, number];
  for (const side of sides) {
    const [a, b] = [from(side), to(side)].map((point) => point.map((value, axis) => value - (middle[axis] as number)));
    if (!a || !b) continue;
    for (const axis of [0, 1, 2] as const) {
      const [second, third] = [(axis + 1) % 3, (axis + 2) % 3];
      normal[axis] += (a[second] as number) * (b[third] as number) - (a[third] as number) * (b[second] as number);
    }
  }
  const length = Math.hypot(...normal);
  if (length === 0) return false;
  return sides.every((side) => {
    const point = from(side);
    return (
      Math.abs(
        [0, 1, 2].reduce(
          (sum, axis) => sum + (((point[axis] as number) - (middle[axis] as number)) * (normal[axis] as number)) / length,
          0,
        ),
      ) <= reach
    );
  });
}
