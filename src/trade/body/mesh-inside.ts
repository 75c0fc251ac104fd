import { type Edges, nextSide, OPEN } from './mesh-edges.ts';
import { forFaces } from './mesh-faces.ts';
import type { Sides } from './mesh-sides.ts';
import { inSlices, type Sliced } from './mesh-slices.ts';
import type { Welded } from './mesh-weld.ts';

/** Of how many bodies the boxes are looked into for hollows; a model has one, a plate of parts a few dozen. */
const MOST_HOSTS = 100;

interface Shell {
  /** Cubic millimetres, closed by cones to the middle of what is open. */
  volume: number;
  readonly least: number[];
  readonly most: number[];
}

/**
 * Turns bodies inside out that look inwards, which changes `turned`; a body within the box of another one that looks inwards
 * is a hollow of that one and stays.
 */
export function* turnOutwards(welded: Welded, edges: Edges, sides: Sides): Sliced<{ insideOut: number; cavities: number }> {
  const shells = yield* shellsOf(welded, edges, sides);
  const byVolume = [...shells].sort((a, b) => Math.abs(b.volume) - Math.abs(a.volume));
  const way = (byVolume[0]?.volume ?? 0) < 0 ? -1 : 1;
  const hosts = byVolume.slice(0, MOST_HOSTS).filter(({ volume }) => way * volume > 0);
  const turn = new Uint8Array(shells.length);
  let insideOut = 0;
  let cavities = 0;
  shells.forEach((shell, body) => {
    const cavity = way * shell.volume < 0 && hosts.some((host) => within(shell, host));
    const turns = cavity ? way < 0 : shell.volume < 0;
    turn[body] = turns ? 1 : 0;
    if (cavity) cavities += 1;
    else if (turns) insideOut += 1;
  });
  for (let triangle = 0; triangle < sides.turned.length; triangle += 1)
    sides.turned[triangle] = (sides.turned[triangle] as number) ^ (turn[sides.bodyOf[triangle] as number] as number);
  return { insideOut, cavities };
}

const within = (inner: Shell, outer: Shell): boolean =>
  inner.least.every((value, axis) => value > (outer.least[axis] as number)) &&
  inner.most.every((value, axis) => value < (outer.most[axis] as number));

function* shellsOf(welded: Welded, { mates, openEdges }: Edges, { bodies, bodyOf, turned }: Sides): Sliced<Shell[]> {
  const { points, corners } = welded;
  const shells = Array.from(
    { length: bodies },
    (): Shell => ({ volume: 0, least: [Infinity, Infinity, Infinity], most: [-Infinity, -Infinity, -Infinity] }),
  );
  // How the volume changes with the point that it is taken about.
  const flux = new Float64Array(3 * bodies);
  yield* forFaces(welded, turned, (triangle, face) => {
    const body = bodyOf[triangle] as number;
    const shell = shells[body];
    if (!shell) return;
    shell.volume += face.wedge / 6;
    flux[3 * body] = (flux[3 * body] as number) + face.x / 6;
    flux[3 * body + 1] = (flux[3 * body + 1] as number) + face.y / 6;
    flux[3 * body + 2] = (flux[3 * body + 2] as number) + face.z / 6;
  });
  yield* inSlices(corners.length, (from, until) => {
    for (let side = from; side < until; side += 1) {
      const shell = shells[bodyOf[Math.floor(side / 3)] as number];
      for (let axis = 0; axis < 3 && shell; axis += 1) {
        const value = points[3 * (corners[side] as number) + axis] as number;
        if (value < (shell.least[axis] as number)) shell.least[axis] = value;
        if (value > (shell.most[axis] as number)) shell.most[axis] = value;
      }
    }
  });
  if (openEdges === 0) return shells;
  const sums = new Float64Array(3 * bodies);
  const counts = new Uint32Array(bodies);
  yield* inSlices(corners.length, (from, until) => {
    for (let side = from; side < until; side += 1) {
      if (mates[side] !== OPEN) continue;
      const body = bodyOf[Math.floor(side / 3)] as number;
      counts[body] = (counts[body] as number) + 2;
      for (const corner of [side, nextSide(side)])
        for (let axis = 0; axis < 3; axis += 1)
          sums[3 * body + axis] = (sums[3 * body + axis] as number) + (points[3 * (corners[corner] as number) + axis] as number);
    }
  });
  shells.forEach((shell, body) => {
    if (counts[body] === 0) return;
    for (let axis = 0; axis < 3; axis += 1)
      shell.volume -= ((sums[3 * body + axis] as number) / (counts[body] as number)) * (flux[3 * body + axis] as number);
  });
  return shells;
}
