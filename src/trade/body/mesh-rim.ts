import { type Edges, nextSide, OPEN } from './mesh-edges.ts';
import { between, loopsOf, type Outlines, outlinesOf, type Point, pointAt } from './mesh-loops.ts';
import type { Welded } from './mesh-weld.ts';

/** The open edges of a mesh, taken together. */
export interface Rim {
  /** Their middle, weighted by length; a point of the plane where they lie in one. */
  readonly middle: readonly [number, number, number];
  /** All of them lie in one plane. */
  readonly flat: boolean;
  /** Of the loops on which the model stands: those at the bottom, or else the longest of all. */
  readonly outlines: Outlines;
  /** What they enclose, seen from above. */
  readonly footSquareMillimetres: number;
}

/** Of the diagonal of the box: how far off a plane its points may lie. */
const FLAT = 1e-4;
/** Of the height: what is at the bottom. */
const BOTTOM = 0.01;
/** Of the box seen from above: what encloses less is a flaw of a scan, and no flange runs there. */
const LEAST_SHARE = 0.005;

/** Null where no edge is open. */
export function rimOfMesh(welded: Welded, { mates, openEdges }: Edges, turned: Uint8Array): Rim | null {
  const { points, corners, boxMillimetres } = welded;
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
  const bottom = -boxMillimetres[2] / 2 + BOTTOM * boxMillimetres[2];
  const loops = loopsOf(sides, welded, turned);
  const low = loops.filter(({ lowest }) => lowest <= bottom);
  const longest = (low.length > 0 ? low : loops).reduce((most, loop) => (loop.length > most.length ? loop : most));
  const least = LEAST_SHARE * boxMillimetres[0] * boxMillimetres[1];
  const outlines = low.filter((loop) => loop === longest || (loop.highest <= bottom && Math.abs(loop.enclosed) >= least));
  const standing = outlines.length > 0 ? outlines : [longest];
  const largest = standing.reduce((most, loop) => (Math.abs(loop.enclosed) > Math.abs(most.enclosed) ? loop : most));
  return {
    middle,
    flat: isFlat(sides, middle, FLAT * Math.hypot(...boxMillimetres), from, to),
    // The loop that encloses most is no hole; whichever way it runs, an open surface need not look outwards.
    outlines: outlinesOf(standing, largest.enclosed < 0 ? -1 : 1),
    footSquareMillimetres: Math.abs(standing.reduce((sum, { enclosed }) => sum + enclosed, 0)),
  };
}

type PointOf = (side: number) => Point;

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
