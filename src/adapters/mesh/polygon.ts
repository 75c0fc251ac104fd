/** How much may still be done; below zero, polygons are no longer cut. */
export interface Work {
  looksLeft: number;
}

type Place = (corner: number, axis: number) => number;
type Take = (a: number, b: number, c: number) => void;

/**
 * Cuts a polygon into triangles that use all of its corners. A fan does for a convex one; of any other, a fan would overlap
 * itself and its area would be too large, so that ears are cut off one after the other.
 */
export function cutPolygon(polygon: readonly number[], place: Place, take: Take, work: Work): void {
  const [first, second, third] = polygon;
  if (first === undefined || second === undefined || third === undefined) return;
  const fourth = polygon[3];
  if (fourth === undefined) {
    take(first, second, third);
    return;
  }
  if (polygon.length === 4) {
    cutQuad(first, second, third, fourth, place, take);
    return;
  }
  const normal = normalOf(polygon, place);
  const longest = [0, 1, 2].reduce((best, axis) =>
    Math.abs(normal[axis] as number) > Math.abs(normal[best] as number) ? axis : best,
  );
  const flip = (normal[longest] as number) < 0;
  const [across, along] = flip ? [(longest + 2) % 3, (longest + 1) % 3] : [(longest + 1) % 3, (longest + 2) % 3];
  const xs = polygon.map((corner) => place(corner, across));
  const ys = polygon.map((corner) => place(corner, along));
  const turn = (a: number, b: number, c: number): number =>
    ((xs[b] as number) - (xs[a] as number)) * ((ys[c] as number) - (ys[a] as number)) -
    ((xs[c] as number) - (xs[a] as number)) * ((ys[b] as number) - (ys[a] as number));
  const taken = (a: number, b: number, c: number) => take(polygon[a] as number, polygon[b] as number, polygon[c] as number);
  let convex = true;
  for (let at = 1; at + 1 < polygon.length && convex; at += 1) convex = turn(0, at, at + 1) >= 0;
  if (convex) for (let at = 1; at + 1 < polygon.length; at += 1) taken(0, at, at + 1);
  else cutEars(polygon.length, turn, taken, work);
}

/** Along that diagonal which leaves two triangles that look to the same side; most files are full of quads. */
function cutQuad(a: number, b: number, c: number, d: number, place: Place, take: Take): void {
  const x = place(c, 0) - place(a, 0);
  const y = place(c, 1) - place(a, 1);
  const z = place(c, 2) - place(a, 2);
  const bx = place(b, 0) - place(a, 0);
  const by = place(b, 1) - place(a, 1);
  const bz = place(b, 2) - place(a, 2);
  const dx = place(d, 0) - place(a, 0);
  const dy = place(d, 1) - place(a, 1);
  const dz = place(d, 2) - place(a, 2);
  const agreement =
    (by * z - bz * y) * (y * dz - z * dy) + (bz * x - bx * z) * (z * dx - x * dz) + (bx * y - by * x) * (x * dy - y * dx);
  if (agreement >= 0) {
    take(a, b, c);
    take(a, c, d);
  } else {
    take(b, c, d);
    take(b, d, a);
  }
}

/** The vector area, doubled (Newell's sum). */
function normalOf(polygon: readonly number[], place: Place): number[] {
  const base = polygon[0] as number;
  const from = (corner: number, axis: number) => place(corner, axis) - place(base, axis);
  return [0, 1, 2].map((axis) => {
    const [second, third] = [(axis + 1) % 3, (axis + 2) % 3];
    return polygon.reduce((sum, corner, at) => {
      const next = polygon[(at + 1) % polygon.length] as number;
      return sum + from(corner, second) * from(next, third) - from(corner, third) * from(next, second);
    }, 0);
  });
}

function cutEars(count: number, turn: (a: number, b: number, c: number) => number, take: Take, work: Work): void {
  const next = Array.from({ length: count }, (_, at) => (at + 1) % count);
  const before = Array.from({ length: count }, (_, at) => (at + count - 1) % count);
  const isEar = (a: number, b: number, c: number): boolean => {
    work.looksLeft -= 1;
    if (turn(a, b, c) <= 0) return false;
    for (let other = next[c] as number; other !== a; other = next[other] as number) {
      work.looksLeft -= 1;
      if (turn(a, b, other) >= 0 && turn(b, c, other) >= 0 && turn(c, a, other) >= 0) return false;
    }
    return true;
  };
  let left = count;
  let tries = 0;
  for (let at = 0; left > 2 && work.looksLeft >= 0; ) {
    const [a, c] = [before[at] as number, next[at] as number];
    // A round without an ear is a polygon that crosses itself, or a line: any cut is as good as another.
    if (!isEar(a, at, c) && tries < left) {
      tries += 1;
      at = c;
      continue;
    }
    take(a, at, c);
    next[a] = c;
    before[c] = a;
    left -= 1;
    tries = 0;
    at = c;
  }
}
