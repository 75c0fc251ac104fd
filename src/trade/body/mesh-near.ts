import { mixed, tableSize, type Welded } from './mesh-weld.ts';

/** Of the diagonal of the box: two corners nearer than that are one that a program rounded in two ways. */
const NEAR = 1e-6;

/**
 * Makes one of corners that lie next to each other, among those of `rim`: a gap can only be there. Returns whether any were.
 */
export function weldNear(welded: Welded, rim: Uint32Array): boolean {
  const { points, corners } = welded;
  const reach = NEAR * Math.hypot(...welded.boxMillimetres);
  if (reach === 0) return false;
  const cell = 4 * reach;
  const into = new Uint32Array(points.length / 3).map((_, point) => point);
  const slots = new Uint32Array(tableSize(rim.length));
  const mask = slots.length - 1;
  const key = new Int32Array(3);
  const at = (point: number, axis: number) => points[3 * point + axis] as number;
  const cellOf = (value: number) => Math.floor(value / cell);

  const search = (point: number, x: number, y: number, z: number): number => {
    key[0] = x;
    key[1] = y;
    key[2] = z;
    let slot = mixed(key) & mask;
    for (; slots[slot] !== 0; slot = (slot + 1) & mask) {
      const other = (slots[slot] as number) - 1;
      const away = Math.hypot(at(point, 0) - at(other, 0), at(point, 1) - at(other, 1), at(point, 2) - at(other, 2));
      if (away <= reach) {
        into[point] = other;
        return -1;
      }
    }
    return slot;
  };
  // Nearly always one cell; two where the point lies at the edge of its own.
  const nearOne = (point: number): boolean => {
    for (let x = cellOf(at(point, 0) - reach); x <= cellOf(at(point, 0) + reach); x += 1)
      for (let y = cellOf(at(point, 1) - reach); y <= cellOf(at(point, 1) + reach); y += 1)
        for (let z = cellOf(at(point, 2) - reach); z <= cellOf(at(point, 2) + reach); z += 1)
          if (search(point, x, y, z) < 0) return true;
    return false;
  };
  let found = false;
  for (const point of rim) {
    if (nearOne(point)) found = true;
    else slots[search(point, cellOf(at(point, 0)), cellOf(at(point, 1)), cellOf(at(point, 2)))] = point + 1;
  }
  if (found) welded.corners = corners.map((corner) => into[corner] as number);
  return found;
}
