import { type Edges, isTriangle } from './mesh-edges.ts';
import { inSlices, type Sliced } from './mesh-slices.ts';
import type { Welded } from './mesh-weld.ts';

/** Which triangles hang together, and which of them look the other way than most of theirs. */
export interface Sides {
  /** The body of each triangle, counted from 0. */
  readonly bodyOf: Uint32Array;
  readonly bodies: number;
  /** 1 where a triangle looks the wrong way. */
  readonly turned: Uint8Array;
  readonly turnedCount: number;
  /** Edges at which inside and outside run into each other, whichever way the triangles are turned. */
  readonly oneSided: number;
}

/** Goes over all edges and turns the triangles so that neighbours look to the same side, the way that most of the area does. */
export function* sidesOf({ points, corners }: Welded, { mates, crossings }: Edges): Sliced<Sides> {
  const count = corners.length / 3;
  const patches = new Linked(count);
  let oneSided = 0;
  yield* inSlices(mates.length, (from, until) => {
    for (let side = from; side < until; side += 1) {
      const mate = mates[side] as number;
      if (mate <= side) continue;
      // Neighbours that look to the same side run along their edge in opposite directions.
      const odd = corners[side] === corners[mate] ? 1 : 0;
      if (!patches.link(Math.floor(side / 3), Math.floor(mate / 3), odd)) oneSided += 1;
    }
  });
  const against = new Float64Array(count);
  yield* inSlices(count, (from, until) => {
    for (let triangle = from; triangle < until; triangle += 1) {
      if (!isTriangle(corners, triangle)) continue;
      const root = patches.find(triangle);
      const area = areaOf(points, corners, triangle);
      against[root] = (against[root] as number) + (patches.odd[triangle] ? area : -area);
    }
  });
  const turned = new Uint8Array(count);
  let turnedCount = 0;
  yield* inSlices(count, (from, until) => {
    for (let triangle = from; triangle < until; triangle += 1) {
      const most = (against[patches.find(triangle)] as number) > 0 ? 1 : 0;
      turned[triangle] = patches.odd[triangle] === most ? 0 : 1;
      turnedCount += turned[triangle] as number;
    }
  });
  for (const [first = 0, ...rest] of crossings) {
    const sum = [first, ...rest].reduce((all, side) => all + runs(corners, turned, first, side), 0);
    if (sum !== 0) oneSided += 1;
  }
  for (const [first = 0, ...rest] of crossings)
    for (const side of rest) patches.link(Math.floor(first / 3), Math.floor(side / 3), 0);
  return { ...(yield* numbered(patches, corners)), turned, turnedCount, oneSided };
}

/** 1 where a side runs along its edge as the first one does before turning, else -1. */
function runs(corners: Uint32Array, turned: Uint8Array, first: number, side: number): number {
  const along = corners[first] === corners[side];
  return along === (turned[Math.floor(side / 3)] === 0) ? 1 : -1;
}

function* numbered(patches: Linked, corners: Uint32Array): Sliced<Pick<Sides, 'bodyOf' | 'bodies'>> {
  const bodyOf = new Uint32Array(corners.length / 3);
  const numbers = new Map<number, number>();
  yield* inSlices(bodyOf.length, (from, until) => {
    for (let triangle = from; triangle < until; triangle += 1) {
      if (!isTriangle(corners, triangle)) continue;
      const root = patches.find(triangle);
      const number = numbers.get(root) ?? numbers.size;
      numbers.set(root, number);
      bodyOf[triangle] = number;
    }
  });
  return { bodyOf, bodies: numbers.size };
}

function areaOf(points: Float64Array, corners: Uint32Array, triangle: number): number {
  const at = (corner: number, axis: number) => points[3 * (corners[3 * triangle + corner] as number) + axis] as number;
  const [ax, ay, az] = [at(1, 0) - at(0, 0), at(1, 1) - at(0, 1), at(1, 2) - at(0, 2)];
  const [bx, by, bz] = [at(2, 0) - at(0, 0), at(2, 1) - at(0, 1), at(2, 2) - at(0, 2)];
  return Math.sqrt((ay * bz - az * by) ** 2 + (az * bx - ax * bz) ** 2 + (ax * by - ay * bx) ** 2) / 2;
}

/** A forest of linked things, each of which knows whether it is the same way round as its root. */
class Linked {
  private readonly parents: Int32Array;
  /** After `find`: 1 where it is the other way round than its root. */
  readonly odd: Uint8Array;

  constructor(count: number) {
    this.parents = new Int32Array(count).map((_, index) => index);
    this.odd = new Uint8Array(count);
  }

  find(thing: number): number {
    let root = thing;
    let odd = 0;
    while (this.parents[root] !== root) {
      odd ^= this.odd[root] as number;
      root = this.parents[root] as number;
    }
    for (let at = thing; at !== root; ) {
      const above = this.parents[at] as number;
      const own = this.odd[at] as number;
      this.parents[at] = root;
      this.odd[at] = odd;
      odd ^= own;
      at = above;
    }
    return root;
  }

  /** Links two; false where they are linked already, and the other way round. */
  link(a: number, b: number, odd: number): boolean {
    const [rootA, rootB] = [this.find(a), this.find(b)];
    const between = (this.odd[a] as number) ^ (this.odd[b] as number) ^ odd;
    if (rootA === rootB) return between === 0;
    this.parents[rootB] = rootA;
    this.odd[rootB] = between;
    return true;
  }
}
