import type { Edges } from './mesh-edges.ts';
import { forFaces } from './mesh-faces.ts';
import { loopsOf, type Outlines, outlinesOf } from './mesh-loops.ts';
import { inSlices, type Sliced } from './mesh-slices.ts';
import type { Welded } from './mesh-weld.ts';

/** Off straight down. */
const FLAT_DEGREES = 5;
/** Of the height of the model: how far off the board a foot may be, which is the noise of a scan. */
const OFF_BOARD = 1e-3;
/** Of the box seen from above: less is no face but a few triangles at the bottom of something round. */
const LEAST_SHARE = 0.005;

/** The face on which a model stands. */
export interface Foot {
  /** 1 for each triangle that belongs to it. */
  readonly belongs: Uint8Array;
  readonly squareMillimetres: number;
  /** The edges between it and the rest of the surface. */
  readonly outlines: Outlines;
}

/** Null where a model stands on no flat face. */
export function* footOf(welded: Welded, { mates }: Edges, turned: Uint8Array): Sliced<Foot | null> {
  const { boxMillimetres } = welded;
  const [width, depth, height] = boxMillimetres;
  const board = -height / 2 + OFF_BOARD * height;
  const flat = -Math.cos((FLAT_DEGREES * Math.PI) / 180);
  const belongs = new Uint8Array(turned.length);
  let squareMillimetres = 0;
  if (height > 0)
    yield* forFaces(welded, turned, (triangle, face) => {
      if (face.highest > board || face.areaSquareMillimetres === 0) return;
      if (face.z > flat * 2 * face.areaSquareMillimetres) return;
      belongs[triangle] = 1;
      squareMillimetres += face.areaSquareMillimetres;
    });
  if (squareMillimetres === 0 || squareMillimetres < LEAST_SHARE * width * depth) return null;
  const outline: number[] = [];
  yield* inSlices(mates.length, (from, until) => {
    for (let side = from; side < until; side += 1) {
      const mate = mates[side] as number;
      if (belongs[Math.floor(side / 3)] === 0 || mate < 0 || belongs[Math.floor(mate / 3)] === 1) continue;
      outline.push(side);
    }
  });
  // The foot looks down, and so its outer outlines run clockwise when seen from above.
  const outlines = outlinesOf(loopsOf(Uint32Array.from(outline), welded, turned), -1);
  return { belongs, squareMillimetres, outlines };
}
