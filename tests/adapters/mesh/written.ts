import { BoxGeometry, type BufferGeometry, Group, Mesh } from 'three';
import { OBJExporter } from 'three/examples/jsm/exporters/OBJExporter.js';
import { PLYExporter } from 'three/examples/jsm/exporters/PLYExporter.js';
import { STLExporter } from 'three/examples/jsm/exporters/STLExporter.js';

const bytesOf = (data: string | ArrayBuffer | DataView | null): Uint8Array => {
  if (typeof data === 'string') return new TextEncoder().encode(data);
  return new Uint8Array(data instanceof DataView ? (data.buffer as ArrayBuffer) : (data ?? new ArrayBuffer(0)));
};

/** Without a function to call when it is done, which it would do by a browser's means. */
const ply = (mesh: Mesh, options: { binary?: boolean; littleEndian?: boolean }): Uint8Array =>
  bytesOf(
    new PLYExporter().parse(mesh, null as never, { excludeAttributes: ['uv', 'normal', 'color'], ...options } as never) as
      | string
      | ArrayBuffer
      | null,
  );

/** A geometry in every form, as an independent writer (three's exporters) writes it, by the name of the file. */
export function written(geometry: BufferGeometry): Record<string, Uint8Array> {
  const mesh = new Mesh(geometry);
  return {
    'binary.stl': bytesOf(new STLExporter().parse(mesh, { binary: true })),
    'text.STL': bytesOf(new STLExporter().parse(mesh, { binary: false })),
    'one.obj': bytesOf(new OBJExporter().parse(mesh)),
    'text.ply': ply(mesh, { binary: false }),
    'little.ply': ply(mesh, { binary: true, littleEndian: true }),
    'big.PLY': ply(mesh, { binary: true, littleEndian: false }),
  };
}

/** Two boxes far apart, as two objects of one file. */
export function twoObjects(): Uint8Array {
  const other = new BoxGeometry(2, 3, 4).translate(10, 0, 0);
  return bytesOf(new OBJExporter().parse(new Group().add(new Mesh(new BoxGeometry(2, 3, 4)), new Mesh(other))));
}

export const typed = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Corners of a box of 1 x 1 x 1 and its six sides, counted from 0 and looking outwards. */
export const CUBE_CORNERS = ['0 0 0', '1 0 0', '1 1 0', '0 1 0', '0 0 1', '1 0 1', '1 1 1', '0 1 1'];
export const CUBE_SIDES = [
  [0, 3, 2, 1],
  [4, 5, 6, 7],
  [0, 1, 5, 4],
  [1, 2, 6, 5],
  [2, 3, 7, 6],
  [3, 0, 4, 7],
];
