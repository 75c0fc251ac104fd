import type { Triangles } from '../../trade/body/mesh-triangles.ts';
import type { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { decimalIn } from './number.ts';
import { empty, isPlace, MOST_CORNERS_OF_FACE, otherKind, shown, tooLarge, tooManyCorners, unreadable } from './refusals.ts';
import { Surface } from './surface.ts';

const V = 118;
const F = 102;
const isBlank = (code: number) => code === 32 || code === 9 || code === 13;

/**
 * Corners (`v`) and polygons (`f`) of all objects together; whatever else may be in an OBJ file has no area. Read here and not
 * by a library: the one at hand takes a gigabyte for a file of 20 MB, and fills what is missing with what is no number.
 */
export function readObj(whole: string): Triangles | Refusal {
  const text = whole.includes('\\') ? whole.replace(/\\\r?\n/g, ' ') : whole;
  const surface = new Surface();
  const polygon: number[] = [];
  let line = 0;
  for (let start = 0; start < text.length; ) {
    const found = text.indexOf('\n', start);
    const end = found < 0 ? text.length : found;
    line += 1;
    let at = start;
    while (isBlank(text.charCodeAt(at))) at += 1;
    const kind = text.charCodeAt(at);
    if ((kind === V || kind === F) && isBlank(text.charCodeAt(at + 1))) {
      const wrong = kind === V ? addCorner(text, at + 1, end, surface) : addPolygon(text, at + 1, end, surface, polygon);
      if (wrong) return unreadable(say`Line ${line} of the OBJ file: expected ${wrong}, got “${shown(text.slice(start, end))}”.`);
      if (polygon.length > MOST_CORNERS_OF_FACE) return tooManyCorners();
      if (surface.isTooLarge) return tooLarge();
      if (surface.isTooIntricate)
        return unreadable(say`Expected polygons that can be cut into triangles, got some too intricate.`);
    }
    start = end + 1;
  }
  if (surface.triangleCount > 0) return surface.triangles();
  if (surface.cornerCount === 0) return otherKind(say`text without corners and faces`);
  return empty(say`Expected faces in the OBJ file, got ${surface.cornerCount} corners and no face.`);
}

/** Returns what was expected, or null where all is well. */
function addCorner(text: string, from: number, end: number, surface: Surface) {
  const values = [NaN, NaN, NaN];
  let at = from;
  for (let axis = 0; axis < 3; axis += 1) {
    while (at < end && isBlank(text.charCodeAt(at))) at += 1;
    const start = at;
    while (at < end && !isBlank(text.charCodeAt(at))) at += 1;
    values[axis] = decimalIn(text, start, at);
  }
  const [x = NaN, y = NaN, z = NaN] = values;
  if (![x, y, z].every(isPlace)) return say`three numbers with decimal points`;
  surface.addCorner(x, y, z);
  return null;
}

/** As `addCorner`; a face with too many corners is not added. Corners are counted from 1, or, below zero, backwards from the newest. */
function addPolygon(text: string, from: number, end: number, surface: Surface, polygon: number[]) {
  polygon.length = 0;
  const corners = surface.cornerCount;
  for (let at = from; at < end; ) {
    if (isBlank(text.charCodeAt(at))) {
      at += 1;
      continue;
    }
    const start = at;
    while (at < end && !isBlank(text.charCodeAt(at))) at += 1;
    const number = leadingNumber(text, start, at);
    const corner = number > 0 ? number - 1 : corners + number;
    if (Number.isNaN(number) || number === 0) return say`numbers of corners`;
    if (corner < 0 || corner >= corners) return say`corners among the ${corners} before it`;
    polygon.push(corner);
    if (polygon.length > MOST_CORNERS_OF_FACE) return null;
  }
  if (polygon.length < 3) return say`at least three corners`;
  surface.addPolygon(polygon);
  return null;
}

/** The whole number before the first slash; what follows are numbers of textures and normals. */
function leadingNumber(text: string, start: number, end: number): number {
  const sign = text.charCodeAt(start) === 45 ? -1 : 1;
  let value = 0;
  let at = sign < 0 ? start + 1 : start;
  if (at === end) return NaN;
  for (; at < end; at += 1) {
    const digit = text.charCodeAt(at) - 48;
    if (digit === -1 && value > 0) break;
    if (digit < 0 || digit > 9) return NaN;
    value = 10 * value + digit;
  }
  return sign * value;
}
