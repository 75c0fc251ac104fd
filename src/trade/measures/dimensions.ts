import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { clean, type Kind, notZero, parseMeasure, readMeasure, unreadable } from './measure.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';
import { AREA, LENGTH } from './units.ts';

const LENGTHS: Kind = { what: 'a length', code: 'length', units: 'mm, cm, m, in or ft', example: '3 mm' };
const AREAS: Kind = { what: 'an area', code: 'area', units: 'm², cm², sq ft, or as length x width', example: '20 x 30 cm' };

/** Millimetres: "3 mm", "3/8 in", "5 mil", "120 µm". Refusals: `unit-missing`, `length-unreadable`, `length-zero`, and those of `parseNumber`. */
export const parseLength = (text: string): number | Refusal => notZero(parseMeasure(text, LENGTH, LENGTHS), text, LENGTHS);

/**
 * Square metres: "0.4 m2", "3 sq ft", or a rectangle, "20 x 30 cm", where a side without a unit has the other's.
 * Refusals: `unit-missing`, `area-unreadable`, `area-zero`, and those of `parseNumber`.
 */
export function parseArea(text: string): number | Refusal {
  const sides = tidy(text).split(/ ?(?:[x×*]|\bby\b) ?/i);
  const area = sides.length === 2 ? rectangle(text, sides[0] ?? '', sides[1] ?? '') : parseMeasure(text, AREA, AREAS);
  return notZero(area, text, AREAS);
}

function rectangle(text: string, first: string, second: string): number | Refusal {
  const width = readMeasure(second, LENGTH);
  if (isRefusal(width)) return width;
  if (width === undefined && new RegExp(`^${NUMBER}$`).test(second) && readMeasure(first, LENGTH) === undefined) {
    return new Refusal('unit-missing', say`Which unit? I expected a length and a width with theirs, and got “${text}”.`, AREAS);
  }
  if (width === undefined || width.rest !== '') return unreadable(text, AREAS);
  const bare = new RegExp(`^${NUMBER}$`).test(first);
  const unit = new RegExp(`(${LENGTH.pattern})$`, 'iu').exec(second)?.[1] ?? '';
  if (bare) {
    const number = parseNumber(first);
    if (isRefusal(number)) return number;
  }
  const length = readMeasure(bare ? `${first} ${unit}` : first, LENGTH);
  if (isRefusal(length)) return length;
  if (length === undefined || length.rest !== '') return unreadable(text, AREAS);
  return clean((length.value * width.value) / 1e6);
}
