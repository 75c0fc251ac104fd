import { inSlices, type Sliced } from './mesh-slices.ts';
import type { Triangles } from './mesh-triangles.ts';

/** Triangles that know which of their corners are the same. */
export interface Welded {
  /** x, y, z (upwards) of each corner, in millimetres from the middle of the box: exact however far off the origin. */
  readonly points: Float64Array;
  /** Three numbers of points for each triangle. */
  corners: Uint32Array;
  /** Along x, y and z. */
  readonly boxMillimetres: readonly [number, number, number];
}

/** Gives equal positions one number; z points up in what it returns. */
export function* weld({ positions, indices }: Triangles, millimetresPerUnit: number, up: 'y' | 'z'): Sliced<Welded> {
  const count = indices?.length ?? Math.floor(positions.length / 9) * 3;
  const positionOf = (corner: number) => 3 * (indices ? (indices[corner] as number) : corner);
  const { middle, size } = yield* boxOf(positions, count, positionOf);
  const corners = new Uint32Array(count);
  const first = new Uint32Array(Math.min(count, positions.length / 3));
  let points = 0;
  const key = new Float64Array(3);
  const words = new Int32Array(key.buffer);
  let table = new Uint32Array(tableSize(count / 6));
  /** The slot that holds the position at `at`, or the free one where it belongs. */
  const slotOf = (at: number): number => {
    // Adding nothing makes a negative zero a plain one.
    const x = (positions[at] as number) + 0;
    const y = (positions[at + 1] as number) + 0;
    const z = (positions[at + 2] as number) + 0;
    key[0] = x;
    key[1] = y;
    key[2] = z;
    const mask = table.length - 1;
    let slot = mixed(words) & mask;
    for (; table[slot] !== 0; slot = (slot + 1) & mask) {
      const other = first[(table[slot] as number) - 1] as number;
      if (positions[other] === x && positions[other + 1] === y && positions[other + 2] === z) break;
    }
    return slot;
  };
  const grow = () => {
    table = new Uint32Array(table.length * 2);
    for (let point = 0; point < points; point += 1) table[slotOf(first[point] as number)] = point + 1;
  };
  yield* inSlices(count, (from, until) => {
    for (let corner = from; corner < until; corner += 1) {
      const at = positionOf(corner);
      const slot = slotOf(at);
      if (table[slot] === 0) {
        first[points] = at;
        points += 1;
        table[slot] = points;
        corners[corner] = points - 1;
        if (points * 4 > table.length * 3) grow();
      } else corners[corner] = (table[slot] as number) - 1;
    }
  });
  const upright = up === 'z' ? ([0, 1, 2, 1] as const) : ([0, 2, 1, -1] as const);
  return {
    points: placed(positions, first.subarray(0, points), middle, millimetresPerUnit, upright),
    corners,
    boxMillimetres: [0, upright[1], upright[2]].map((axis) => (size[axis] as number) * millimetresPerUnit) as never,
  };
}

/** A power of two with room to spare, so that a search in the table ends soon. */
export const tableSize = (entries: number): number => 2 ** Math.ceil(Math.log2(Math.max(8, entries * 1.5)));

export function mixed(words: Int32Array): number {
  let hash = 0;
  for (let index = 0; index < words.length; index += 1) {
    hash = Math.imul(hash ^ (words[index] as number), 0x9e3779b1);
    hash ^= hash >>> 15;
  }
  hash = Math.imul(hash, 0x85ebca6b);
  return (hash ^ (hash >>> 13)) >>> 0;
}

function* boxOf(
  positions: Triangles['positions'],
  count: number,
  positionOf: (corner: number) => number,
): Sliced<{ middle: number[]; size: number[] }> {
  const least = [Infinity, Infinity, Infinity];
  const most = [-Infinity, -Infinity, -Infinity];
  yield* inSlices(count, (from, until) => {
    for (let corner = from; corner < until; corner += 1) {
      const at = positionOf(corner);
      for (let axis = 0; axis < 3; axis += 1) {
        const value = positions[at + axis] as number;
        if (value < (least[axis] as number)) least[axis] = value;
        if (value > (most[axis] as number)) most[axis] = value;
      }
    }
  });
  const axes = count === 0 ? [] : [0, 1, 2];
  const side = (axis: number) => [least[axis], most[axis]] as [number, number];
  return {
    middle: axes.map((axis) => side(axis)[0] / 2 + side(axis)[1] / 2),
    size: count === 0 ? [0, 0, 0] : axes.map((axis) => side(axis)[1] - side(axis)[0]),
  };
}

function placed(
  positions: Triangles['positions'],
  first: Uint32Array,
  middle: readonly number[],
  millimetresPerUnit: number,
  [right, back, above, turn]: readonly [number, number, number, number],
): Float64Array {
  const points = new Float64Array(first.length * 3);
  const from = (at: number, axis: number) => ((positions[at + axis] as number) - (middle[axis] as number)) * millimetresPerUnit;
  for (let point = 0; point < first.length; point += 1) {
    const at = first[point] as number;
    points[3 * point] = from(at, right);
    points[3 * point + 1] = turn * from(at, back);
    points[3 * point + 2] = from(at, above);
  }
  return points;
}
