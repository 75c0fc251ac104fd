import type { BufferGeometry } from 'three';
import type { Triangles } from '../../../src/trade/body/mesh.ts';

/** A geometry as a file of loose triangles would give it. */
export function soup(geometry: BufferGeometry): Triangles {
  const loose = geometry.index ? geometry.toNonIndexed() : geometry;
  return { positions: new Float64Array(loose.getAttribute('position').array), indices: null };
}

/** The triangles with each corner put elsewhere. */
export function moved(
  { positions }: Triangles,
  to: (x: number, y: number, z: number) => readonly [number, number, number],
): Triangles {
  const all = new Float64Array(positions.length);
  for (let at = 0; at < all.length; at += 3)
    all.set(to(positions[at] as number, positions[at + 1] as number, positions[at + 2] as number), at);
  return { positions: all, indices: null };
}

/** Only those triangles for which `keep` holds. */
export function only({ positions }: Triangles, keep: (triangle: number, corners: number[][]) => boolean): Triangles {
  const kept: number[] = [];
  for (let triangle = 0; 9 * triangle < positions.length; triangle += 1) {
    const nine = [...positions.subarray(9 * triangle, 9 * triangle + 9)];
    if (keep(triangle, [nine.slice(0, 3), nine.slice(3, 6), nine.slice(6)])) kept.push(...nine);
  }
  return { positions: Float64Array.from(kept), indices: null };
}

/** Turns those triangles over for which `turn` holds. */
export function turnedOver({ positions }: Triangles, turn: (triangle: number) => boolean): Triangles {
  const all = Float64Array.from(positions);
  for (let triangle = 0; 9 * triangle < all.length; triangle += 1) {
    if (!turn(triangle)) continue;
    const third = all.slice(9 * triangle + 6, 9 * triangle + 9);
    all.copyWithin(9 * triangle + 6, 9 * triangle + 3, 9 * triangle + 6);
    all.set(third, 9 * triangle + 3);
  }
  return { positions: all, indices: null };
}

export function together(...parts: readonly Triangles[]): Triangles {
  return { positions: Float64Array.from(parts.flatMap(({ positions }) => [...positions])), indices: null };
}
