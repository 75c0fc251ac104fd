import { inSlices, type Sliced } from './mesh-slices.ts';
import { tableSize } from './mesh-weld.ts';

/** No triangle on the other side; more than one; or no edge at all, because both of its ends are one corner. */
export const OPEN = -1;
export const CROSSING = -2;
const NO_EDGE = -3;

/** Side `3 * triangle + k` of the triangles runs from corner k to the next one. */
export interface Edges {
  /** For each side the one that it lies against, or one of the marks above. */
  readonly mates: Int32Array;
  readonly openEdges: number;
  /** Edges with more than two triangles: all sides that lie there. */
  readonly crossings: readonly (readonly number[])[];
}

/** The side that follows within its triangle. */
export const nextSide = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);

/** Whether a triangle has three different corners. */
export const isTriangle = (corners: Uint32Array, triangle: number): boolean => {
  const a = corners[3 * triangle];
  const b = corners[3 * triangle + 1];
  const c = corners[3 * triangle + 2];
  return a !== b && b !== c && c !== a;
};

/** Finds for each side of each triangle the side that it lies against. */
export function* pairSides(corners: Uint32Array): Sliced<Edges> {
  const mates = new Int32Array(corners.length).fill(OPEN);
  let table = new Uint32Array(tableSize(corners.length / 2));
  const heads = new Map<number, number[]>();
  let edges = 0;
  let openEdges = 0;
  const slotOf = (side: number): number => {
    const from = corners[side] as number;
    const to = corners[nextSide(side)] as number;
    const mask = table.length - 1;
    let hash = Math.imul(Math.min(from, to) ^ Math.imul(Math.max(from, to), 0x85ebca6b), 0x9e3779b1);
    hash = Math.imul(hash ^ (hash >>> 15), 0xc2b2ae35);
    let slot = (hash ^ (hash >>> 16)) & mask;
    for (; table[slot] !== 0; slot = (slot + 1) & mask) {
      const head = (table[slot] as number) - 1;
      const start = corners[head] as number;
      if (start !== from && start !== to) continue;
      if ((corners[nextSide(head)] as number) === (start === from ? to : from)) break;
    }
    return slot;
  };
  const grow = () => {
    const old = table;
    table = new Uint32Array(old.length * 2);
    for (const held of old) if (held !== 0) table[slotOf(held - 1)] = held;
  };
  yield* inSlices(corners.length / 3, (from, until) => {
    for (let side = 3 * from; side < 3 * until; side += 1) {
      if (side % 3 === 0 && !isTriangle(corners, side / 3)) {
        mates.fill(NO_EDGE, side, side + 3);
        side += 2;
        continue;
      }
      const slot = slotOf(side);
      if (table[slot] === 0) {
        table[slot] = side + 1;
        edges += 1;
        openEdges += 1;
        if (edges * 4 > table.length * 3) grow();
        continue;
      }
      const head = (table[slot] as number) - 1;
      const mate = mates[head] as number;
      if (mate === OPEN) {
        mates[head] = side;
        mates[side] = head;
        openEdges -= 1;
        continue;
      }
      if (mate !== CROSSING) {
        heads.set(head, [head, mate]);
        mates[head] = CROSSING;
        mates[mate] = CROSSING;
      }
      heads.get(head)?.push(side);
      mates[side] = CROSSING;
    }
  });
  return { mates, openEdges, crossings: [...heads.values()] };
}

/** All corners at which an edge is open, each once or twice. */
export function rimOf(corners: Uint32Array, { mates, openEdges }: Edges): Uint32Array {
  const seen = new Set<number>();
  if (openEdges > 0)
    mates.forEach((mate, side) => {
      if (mate !== OPEN) return;
      seen.add(corners[side] as number);
      seen.add(corners[nextSide(side)] as number);
    });
  return Uint32Array.from(seen);
}
