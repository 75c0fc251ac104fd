import { inSlices, type Sliced } from './mesh-slices.ts';
import type { Welded } from './mesh-weld.ts';

/** One triangle at a time; the same object is used again for the next one. */
export interface Face {
  /** A vector along the normal, as long as twice the area. */
  x: number;
  y: number;
  z: number;
  /** Six times the volume of the wedge between the triangle and the middle of the box. */
  wedge: number;
  areaSquareMillimetres: number;
  highest: number;
}

/** Looks at the triangles one by one; where `turned` is 1, from the other side. */
export function* forFaces(
  { points, corners }: Welded,
  turned: Uint8Array,
  look: (triangle: number, face: Face) => void,
): Sliced<void> {
  const face: Face = { x: 0, y: 0, z: 0, wedge: 0, areaSquareMillimetres: 0, highest: 0 };
  yield* inSlices(corners.length / 3, (from, until) => {
    for (let triangle = from; triangle < until; triangle += 1) {
      const a = 3 * (corners[3 * triangle] as number);
      const b = 3 * (corners[3 * triangle + 1] as number);
      const c = 3 * (corners[3 * triangle + 2] as number);
      const ax = points[a] as number;
      const ay = points[a + 1] as number;
      const az = points[a + 2] as number;
      const bx = (points[b] as number) - ax;
      const by = (points[b + 1] as number) - ay;
      const bz = (points[b + 2] as number) - az;
      const cx = (points[c] as number) - ax;
      const cy = (points[c + 1] as number) - ay;
      const cz = (points[c + 2] as number) - az;
      const way = turned[triangle] === 1 ? -1 : 1;
      face.x = way * (by * cz - bz * cy);
      face.y = way * (bz * cx - bx * cz);
      face.z = way * (bx * cy - by * cx);
      face.wedge = ax * face.x + ay * face.y + az * face.z;
      face.areaSquareMillimetres = Math.sqrt(face.x * face.x + face.y * face.y + face.z * face.z) / 2;
      face.highest = az + Math.max(0, bz, cz);
      look(triangle, face);
    }
  });
}
