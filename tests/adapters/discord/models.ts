import { BOX_SIDES, boxCorner } from '../../support/models.ts';
import type { Upload } from '../../support/platform/options.ts';

type Place = readonly [number, number, number];

/** A binary STL file of triangles, as they are put one after the other. */
export function binaryStl(count: number, each: (put: (a: Place, b: Place, c: Place) => void) => void): Buffer {
  const bytes = Buffer.alloc(84 + 50 * count);
  bytes.writeUInt32LE(count, 80);
  let at = 84;
  each((...corners) => {
    at += 12;
    for (const corner of corners) for (const value of corner) at = bytes.writeFloatLE(value, at);
    at += 2;
  });
  if (at !== bytes.length) throw new Error(`${count} triangles were promised`);
  return bytes;
}

/** A box that stands on its bottom. */
export function box(x: number, y: number, z: number): Buffer {
  const at = (n: number): Place => boxCorner(n, [x, y, z]);
  return binaryStl(12, (put) => {
    for (const [a, b, c, d] of BOX_SIDES) {
      put(at(a), at(b), at(c));
      put(at(a), at(c), at(d));
    }
  });
}

/** A ball about the origin, of `rings` belts of twice as many fields, each of two triangles, and one at the poles. */
export function ball(radius: number, rings: number): Buffer {
  const round = 2 * rings;
  const at = (ring: number, field: number): Place => {
    const down = (Math.PI * ring) / rings;
    const about = (2 * Math.PI * (field % round)) / round;
    const out = radius * Math.sin(down);
    return [out * Math.cos(about), out * Math.sin(about), radius * Math.cos(down)];
  };
  return binaryStl(2 * round * (rings - 1), (put) => {
    for (let ring = 0; ring < rings; ring += 1)
      for (let field = 0; field < round; field += 1) {
        const [a, b, c, d] = [at(ring, field), at(ring + 1, field), at(ring + 1, field + 1), at(ring, field + 1)];
        if (ring > 0) put(a, b, d);
        if (ring < rings - 1) put(d, b, c);
      }
  });
}

export const file = (filename: string, bytes: Uint8Array): Upload => ({ filename, type: 'model/stl', bytes });
