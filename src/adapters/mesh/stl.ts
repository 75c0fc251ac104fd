import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import type { Triangles } from '../../trade/body/mesh-triangles.ts';
import type { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { brokenOff, empty, isPlace, MOST_TRIANGLES, otherKind, shown, tooLarge, unreadable } from './refusals.ts';
import { announced, HEADER_BYTES, isBinaryStl, TRIANGLE_BYTES } from './stl-length.ts';

export function readBinaryStl(bytes: Uint8Array): Triangles | Refusal {
  const count = announced(bytes);
  if (count === null)
    return brokenOff(say`Expected a binary STL file of at least ${HEADER_BYTES} bytes, got ${bytes.length} bytes.`);
  const held = Math.floor((bytes.length - HEADER_BYTES) / TRIANGLE_BYTES);
  if (!isBinaryStl(bytes)) {
    const why = say`Expected ${count} triangles, as the STL file announces, got ${held}`;
    return held < count
      ? brokenOff([...why, ...say`: the rest is missing.`])
      : unreadable([...why, ...say` and more bytes than triangles take.`]);
  }
  if (count === 0) return empty(say`Expected triangles in the STL file, got none.`);
  if (count > MOST_TRIANGLES) return tooLarge();
  const exact = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
  return positionsOf(exact, count);
}

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const CORNER = String.raw`\s+vertex\s+${NUMBER}\s+${NUMBER}\s+${NUMBER}(?=\s)`;
const HEAD = /\s*solid([^\n]{0,1000})\n/y;
const FACET = new RegExp(
  String.raw`\s*facet\s+normal\s+(\S+\s+\S+\s+\S+)\s+outer\s+loop(?:${CORNER}){3}\s+endloop\s+endfacet(?=\s)`,
  'y',
);
const WHOLE_NUMBERS = new RegExp(String.raw`^${NUMBER}\s+${NUMBER}\s+${NUMBER}$`);
const FOOT = /\s*endsolid([^\n]{0,1000})(?:\n|$)/y;

/** The grammar is checked before the loader sees the text: it passes over whatever it does not understand. */
export function readAsciiStl(whole: string): Triangles | Refusal {
  const text = whole.trim().toLowerCase();
  let at = 0;
  let count = 0;
  let oddNormals = false;
  const next = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match) at = pattern.lastIndex;
    return match;
  };
  while (at < text.length) {
    if (!next(HEAD)) return stopped(text, at, count);
    for (let facet = next(FACET); facet; facet = next(FACET)) {
      count += 1;
      oddNormals ||= !WHOLE_NUMBERS.test(facet[1] ?? '');
      if (count > MOST_TRIANGLES) return tooLarge();
    }
    if (!next(FOOT)) return stopped(text, at, count);
  }
  if (count === 0) return empty(say`Expected triangles in the STL file, got none.`);
  // A triangle without an area has no normal, and some programs write so; nobody needs it.
  return positionsOf(oddNormals ? text.replace(/normal\s+\S+\s+\S+\s+\S+/g, 'normal 0 0 0') : text, count);
}

function stopped(text: string, at: number, count: number): Refusal {
  const rest = text.slice(at);
  if (!rest.includes('endsolid'))
    return count === 0 && !rest.includes('facet')
      ? otherKind(say`some other text`)
      : brokenOff(say`Expected an STL text that ends with endsolid, got ${count} whole triangles and no end.`);
  const line = /^\s*vertex(?!(?:\s+[-+.\de]+){3}\s*$).*$/m.exec(rest.slice(0, 1000))?.[0] ?? rest.slice(0, 60);
  return unreadable(
    say`Triangle ${count + 1} of the STL text: expected a normal and three corners of three numbers, got “${shown(line)}”.`,
  );
}

function positionsOf(data: ArrayBuffer | string, count: number): Triangles | Refusal {
  const positions = new STLLoader().parse(data).getAttribute('position').array;
  if (!(positions instanceof Float32Array) || positions.length !== 9 * count)
    return unreadable(say`Expected ${count} triangles in the STL file, got ${positions.length / 9}.`);
  let odd = 0;
  for (const value of positions) if (!isPlace(value)) odd += 1;
  if (odd > 0) return unreadable(say`Expected numbers for all corners in the STL file, got ${odd} that are none.`);
  return { positions, indices: null };
}
