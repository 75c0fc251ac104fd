import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { meantUnit } from './meant.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';
import { factorOf, type Units } from './units.ts';

/** What was read at the beginning of a text, in the base unit of its table, and the text after it. */
export interface Reading {
  readonly value: number;
  readonly rest: string;
}

/**
 * Reads "500 g …" or "1 lb 4 oz …" off the front of tidied text; later units must be smaller than the ones before.
 * Undefined where there is no number with a unit of this table. Refusals: those of `parseNumber`.
 */
export function readMeasure(text: string, units: Units): Reading | Refusal | undefined {
  const one = new RegExp(`^ ?(${NUMBER}) ?(${units.pattern})`, 'iu');
  let [value, rest, last] = [0, text, Number.POSITIVE_INFINITY];
  for (let match = one.exec(rest); match; match = one.exec(rest)) {
    const size = factorOf(units, match[2] ?? '') ?? Number.NaN;
    if (!(size < last)) break;
    const number = parseNumber(match[1] ?? '');
    if (isRefusal(number)) return withUnit(number, match[1] ?? '', match[2] ?? '', size);
    value = clean(value + number * size);
    last = size;
    rest = rest.slice(match[0].length);
  }
  return last === Number.POSITIVE_INFINITY ? undefined : { value, rest: rest.trim() };
}

/** Drops the noise of binary fractions in the fifteenth digit: 3/8 in is 9.525 mm, not 9.524999999999999. */
export const clean = (value: number): number => Number(value.toPrecision(14));

/** As the refusal, with the unit: of two readings the example is the likelier, the small one where the unit is large. */
function withUnit({ code, message, example }: Refusal, typed: string, unit: string, size: number): Refusal {
  if (code !== 'number-ambiguous') {
    return new Refusal(code, message, example === undefined ? {} : { example: `${example} ${unit}` });
  }
  const [large, small] = [`${typed.replace(',', '')} ${unit}`, `${Number(typed.replace(',', '.'))} ${unit}`];
  const both = say`“${`${typed} ${unit}`}” can be read in two ways: write ${plain(large)} or ${plain(small)}.`;
  return new Refusal(code, both, { example: size > 1 ? small : large });
}

/** The words for one kind of measure: what it is called, a code's beginning, and what would have done. */
export interface Kind {
  readonly what: string;
  readonly code: string;
  readonly units: string;
  readonly example: string;
}

/** The text as one measure and nothing else. Refusals: `unit-missing`, `<code>-unreadable`, those of `parseNumber`. */
export function parseMeasure(text: string, units: Units, kind: Kind): number | Refusal {
  const read = readMeasure(tidy(text), units);
  if (isRefusal(read)) return read;
  return read?.rest === '' ? read.value : unreadable(text, kind, units.names);
}

/** Refusals `unit-missing`, those of `parseNumber`, else `<code>-unreadable`; `names`: of units, one of which may have been meant. */
export function unreadable(text: string, kind: Kind, names: readonly string[] = []): Refusal {
  const { what, code, units, example } = kind;
  const number = new RegExp(`^${NUMBER}$`).test(tidy(text)) ? parseNumber(text) : undefined;
  if (isRefusal(number)) return number;
  if (number !== undefined) {
    return new Refusal('unit-missing', say`Which unit? I expected ${plain(what)} in ${plain(units)}, and got “${text}”.`, {
      example,
    });
  }
  return (
    meantUnit(text, names, `${code}-unreadable`) ??
    new Refusal(`${code}-unreadable`, say`I expected ${plain(what)} in ${plain(units)}, and got “${text}”.`, { example })
  );
}

/** Refusal `<code>-zero`, for where nothing is too little. */
export const notZero = (value: number | Refusal, text: string, { what, code, example }: Kind): number | Refusal =>
  isRefusal(value) || value > 0
    ? value
    : new Refusal(`${code}-zero`, say`I expected ${plain(what)} of more than zero, and got “${text}”.`, { example });
