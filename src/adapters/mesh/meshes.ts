import { setImmediate } from 'node:timers/promises';
import type { Meshes } from '../../desk/desk.ts';
import type { Triangles } from '../../trade/body/mesh-triangles.ts';
import type { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { kindOf } from './kind.ts';
import { readObj } from './obj.ts';
import { readPly } from './ply.ts';
import { empty, otherKind, unreadable } from './refusals.ts';

/** So much of a file tells its kind. */
const BEGINNING_BYTES = 64 * 1024;

/** Files that describe a surface by triangles: STL, OBJ and PLY. Nothing that a file announces is believed before it is there. */
export const meshes: Meshes = {
  async read(name, bytes) {
    try {
      return await readMesh(name, bytes);
    } catch {
      return unreadable(say`Expected a mesh that can be read, got one that cannot.`);
    }
  },
  pause: () => setImmediate(),
};

async function readMesh(name: string, bytes: Uint8Array): Promise<Triangles | Refusal> {
  if (bytes.length === 0) return empty(say`Expected a mesh, got an empty file.`);
  const kind = kindOf(name, bytes, textOf(bytes.subarray(0, BEGINNING_BYTES)));
  if (typeof kind !== 'string') return otherKind(kind);
  if (kind === 'obj') return readObj(linesOf(textOf(bytes)));
  if (kind === 'ply') return readPly(bytes, textOf(bytes));
  // Its loader takes a while to load, and most days nobody hands a mesh in.
  const { readAsciiStl, readBinaryStl } = await import('./stl.ts');
  return kind === 'binary-stl' ? readBinaryStl(bytes) : readAsciiStl(linesOf(textOf(bytes)));
}

/** One character for each byte, without a byte order mark: all that matters in these files is ASCII. */
const textOf = (bytes: Uint8Array): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    .toString('latin1')
    .replace(/^\xef\xbb\xbf/, '');

const linesOf = (text: string): string => (text.includes('\n') ? text : text.replaceAll('\r', '\n'));
