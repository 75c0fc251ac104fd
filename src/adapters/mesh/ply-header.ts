import type { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { brokenOff, shown, unreadable } from './refusals.ts';

/** The kinds of number, each under both of its names. */
const KINDS = {
  int8: 'int8',
  char: 'int8',
  uint8: 'uint8',
  uchar: 'uint8',
  int16: 'int16',
  short: 'int16',
  uint16: 'uint16',
  ushort: 'uint16',
  int32: 'int32',
  int: 'int32',
  uint32: 'uint32',
  uint: 'uint32',
  float32: 'float32',
  float: 'float32',
  float64: 'float64',
  double: 'float64',
} as const;
export type NumberKind = (typeof KINDS)[keyof typeof KINDS];

export interface PlyProperty {
  readonly name: string;
  readonly kind: NumberKind;
  /** Of how many numbers the list is, as this kind of number; null for one number. */
  readonly counted: NumberKind | null;
}

export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: PlyProperty[];
}

export interface PlyHeader {
  readonly coded: 'ascii' | 'binary_little_endian' | 'binary_big_endian';
  readonly elements: readonly PlyElement[];
  /** Where the numbers begin. */
  readonly bytes: number;
}

/** More than any header has. */
const MOST_BYTES = 64 * 1024;
const END = /(?:^|[\r\n])end_header[ \t]*(\r\n|\n|\r)/;

/** `beginning`: the beginning of the file, one character for each byte. */
export function readPlyHeader(whole: string): PlyHeader | Refusal {
  const beginning = whole.slice(0, MOST_BYTES);
  const end = END.exec(beginning);
  if (!end) return brokenOff(say`Expected a PLY header that ends with end_header, got none.`);
  const elements: PlyElement[] = [];
  let coded = '';
  for (const line of beginning
    .slice(0, end.index)
    .split(/[\r\n]+/)
    .slice(1)) {
    const words = line.trim().split(/\s+/);
    const [word = '', ...rest] = words;
    if (word === 'format') coded = rest[0] ?? '';
    const understood =
      word === 'element' ? addElement(elements, rest) : word === 'property' ? addProperty(elements.at(-1), rest) : true;
    if (!understood) return unreadable(say`Expected a PLY header with elements and their properties, got “${shown(line)}”.`);
  }
  if (coded !== 'ascii' && coded !== 'binary_little_endian' && coded !== 'binary_big_endian')
    return unreadable(say`Expected a PLY file as ascii or binary, got “${shown(coded)}”.`);
  return { coded, elements, bytes: end.index + end[0].length };
}

function addElement(elements: PlyElement[], [name = '', count = '']: string[]): boolean {
  if (!/^\d{1,15}$/.test(count)) return false;
  elements.push({ name, count: Number(count), properties: [] });
  return true;
}

function addProperty(element: PlyElement | undefined, words: string[]): boolean {
  const list = words[0] === 'list';
  const [kind = '', name] = list ? words.slice(2) : words;
  const counted = list ? (words[1] ?? '') : null;
  if (!element || name === undefined || !isKind(kind) || (counted !== null && !isKind(counted))) return false;
  element.properties.push({ name, kind: KINDS[kind], counted: counted === null ? null : KINDS[counted] });
  return true;
}

const isKind = (word: string): word is keyof typeof KINDS => Object.hasOwn(KINDS, word);
