import type { Triangles } from '../../trade/body/mesh-triangles.ts';
import { isRefusal, type Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { type PlyElement, type PlyProperty, readPlyHeader } from './ply-header.ts';
import { type Numbers, PackedNumbers, TypedNumbers } from './ply-numbers.ts';
import { brokenOff, empty, isPlace, MOST_CORNERS_OF_FACE, tooLarge, tooManyCorners, unreadable } from './refusals.ts';
import { Surface } from './surface.ts';

const CORNERS_OF_FACE = ['vertex_indices', 'vertex_index'];

/** Corners and faces, of any number of corners; other elements and properties are passed over. `text`: a character for each byte. */
export function readPly(bytes: Uint8Array, text: string): Triangles | Refusal {
  const header = readPlyHeader(text);
  if (isRefusal(header)) return header;
  const { coded, elements } = header;
  const places = ['vertex', 'face'].map((name) => elements.findIndex((element) => element.name === name));
  const [corners = -1, faces = -1] = places;
  if (corners < 0) return unreadable(say`Expected corners (element vertex) in the PLY file, got none.`);
  if (faces < 0 || elements[faces]?.count === 0)
    return empty(say`Expected faces in the PLY file, got points only. Make a surface of the point cloud first.`);
  if (faces < corners) return unreadable(say`Expected the corners before the faces in the PLY file, got them after.`);
  const numbers =
    coded === 'ascii'
      ? new TypedNumbers(text, header.bytes)
      : new PackedNumbers(bytes.subarray(header.bytes), coded === 'binary_little_endian');
  const surface = new Surface();
  for (const element of elements.slice(0, faces + 1)) {
    const wrong = readElement(element, numbers, surface);
    if (wrong) return wrong;
  }
  if (surface.triangleCount > 0) return surface.triangles();
  return empty(say`Expected faces with at least three corners in the PLY file, got none.`);
}

function readElement(element: PlyElement, numbers: Numbers, surface: Surface): Refusal | null {
  const { name, count, properties } = element;
  const add =
    name === 'vertex' ? cornerAdder(properties, surface) : name === 'face' ? faceAdder(properties, surface) : () => null;
  if (add === null)
    return unreadable(say`Expected x, y and z of each corner and a list of corners for each face in the PLY file, got others.`);
  // What has no properties takes up no room, however many of it the header announces.
  if (properties.length === 0) return null;
  const row = properties.map((): number[] => []);
  for (let index = 0; index < count; index += 1) {
    for (const [at, property] of properties.entries()) readProperty(property, numbers, row[at] as number[]);
    if (row.some(({ length }) => length > MOST_CORNERS_OF_FACE)) return tooManyCorners();
    if (numbers.ended) return brokenOff(say`Expected ${count} of “${name}” in the PLY file, got ${index}: the rest is missing.`);
    const wrong = add(row);
    if (wrong) return unreadable(say`Number ${index + 1} of “${name}” in the PLY file: expected ${wrong}.`);
    if (surface.isTooLarge) return tooLarge();
    if (surface.isTooIntricate) return unreadable(say`Expected polygons that can be cut into triangles, got some too intricate.`);
  }
  return null;
}

function readProperty({ kind, counted }: PlyProperty, numbers: Numbers, into: number[]): void {
  into.length = 0;
  const length = counted === null ? 1 : numbers.next(counted);
  // One more than a face may have tells enough.
  const most = Math.min(length, MOST_CORNERS_OF_FACE + 1);
  for (let index = 0; index < most && !numbers.ended; index += 1) into.push(numbers.next(kind));
}

/** Takes the numbers of one element, by property; returns what was expected of them, or null where all is well. */
type Adder = (row: readonly (readonly number[])[]) => ReturnType<typeof say> | null;

function cornerAdder(properties: readonly PlyProperty[], surface: Surface): Adder | null {
  const [x = -1, y = -1, z = -1] = ['x', 'y', 'z'].map((axis) =>
    properties.findIndex(({ name, counted }) => name === axis && counted === null),
  );
  if (Math.min(x, y, z) < 0) return null;
  return (row) => {
    const [right = NaN, back = NaN, up = NaN] = [row[x]?.[0], row[y]?.[0], row[z]?.[0]];
    if (![right, back, up].every(isPlace)) return say`three numbers with decimal points`;
    surface.addCorner(right, back, up);
    return null;
  };
}

function faceAdder(properties: readonly PlyProperty[], surface: Surface): Adder | null {
  const list = properties.findIndex(({ name, counted }) => CORNERS_OF_FACE.includes(name) && counted !== null);
  if (list < 0) return null;
  return (row) => {
    const polygon = row[list] ?? [];
    const corners = surface.cornerCount;
    for (const corner of polygon)
      if (!Number.isInteger(corner) || corner < 0 || corner >= corners) return say`corners among the ${corners} there are`;
    surface.addPolygon(polygon);
    return null;
  };
}
