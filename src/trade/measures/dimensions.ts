import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { meantUnit } from './meant.ts';
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

const BARE = new RegExp(`^${NUMBER}$`);
const UNIT_LAST = new RegExp(`(${LENGTH.pattern})$`, 'iu');

function rectangle(text: string, first: string, second: string): number | Refusal {
  if (BARE.test(first) && BARE.test(second)) {
    const example = `${first} x ${second} cm`;
    return new Refusal('unit-missing', say`Which unit? I expected a length and a width with theirs, and got “${text}”.`, {
      example: isRefusal(parseArea(example)) ? AREAS.example : example,
    });
  }
  const length = side(first, second);
  if (isRefusal(length)) return length;
  const width = side(second, first);
  if (isRefusal(width)) return width;
  if (length !== undefined && width !== undefined) return clean((length * width) / 1e6);
  const slip = [first, second].map((each) => (BARE.test(each) ? undefined : meantUnit(each, LENGTH.names, 'area-unreadable')));
  const [one, other] = slip.map((each, index) => each?.example ?? [first, second][index] ?? '');
  const meant = slip.find((each) => each !== undefined);
  const example = `${one} x ${other}`;
  if (meant && !isRefusal(parseArea(example))) return new Refusal(meant.code, meant.message, { example });
  return unreadable(text, AREAS);
}

/** One side in millimetres, in the unit of the other where it has none; undefined where it is no length. */
function side(text: string, other: string): number | Refusal | undefined {
  if (BARE.test(text)) {
    const number = parseNumber(text);
    if (isRefusal(number)) return number;
  }
  const read = readMeasure(BARE.test(text) ? `${text} ${UNIT_LAST.exec(other)?.[1] ?? ''}` : text, LENGTH);
  if (isRefusal(read)) return read;
  return read?.rest === '' ? read.value : undefined;
}
