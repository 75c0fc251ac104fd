import type { Measure } from './painter.ts';

const graphemes = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** Controls, halves of characters, what turns the direction of writing around, and what XML cannot hold. */
const UNFIT = /[\p{Cc}\p{Cs}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffe\uffff]+/gu;

/** Whatever anybody typed, as one line that can be drawn. */
export const tidy = (text: string): string => text.replace(UNFIT, ' ').replace(/\s+/g, ' ').trim();

/** The text where it is no wider than `width`, else as much of it as fits with an ellipsis; empty where not even that does. */
export function fitted(text: string, width: number, size: number, bold: boolean, measure: Measure): string {
  if (measure(text, size, bold) <= width) return text;
  const pieces = [...graphemes.segment(text)].map(({ segment }) => segment);
  let [fits, least] = ['', 0];
  let most = pieces.length - 1;
  while (least <= most) {
    const middle = (least + most) >> 1;
    const shorter = `${pieces.slice(0, middle).join('').trimEnd()}…`;
    if (measure(shorter, size, bold) <= width) [fits, least] = [shorter, middle + 1];
    else most = middle - 1;
  }
  return fits;
}

/** A number stays with its unit, a time with its day and with "by", "in 35 min" in one piece, and "now" not alone. */
const glued = (text: string): string =>
  text
    .replace(/(\d) (min|h|d|°C|°F|%)(?!\p{L})/gu, '$1\u00a0$2')
    .replace(/\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun) (\d)/g, '$1\u00a0$2')
    .replace(/(\d) (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) (\d)/g, '$1\u00a0$2\u00a0$3')
    .replace(/\b(at|by|from|ready) (?=\d|(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)\u00a0\d)/g, '$1\u00a0')
    .replaceAll('(in ', '(in\u00a0')
    .replace(/ now(?=,|$)/g, '\u00a0now')
    .replace(/(\u00a0h) (\d)/g, '$1\u00a0$2');

/** The text on at most so many lines, broken between words; what does not fit on the last one is cut. */
export function wrapped(text: string, width: number, size: number, bold: boolean, most: number, measure: Measure): string[] {
  const lines: string[] = [];
  let rest = glued(text)
    .split(' ')
    .filter((word) => word !== '');
  while (rest.length > 0 && lines.length < most - 1) {
    let count = 1;
    while (count < rest.length && measure(rest.slice(0, count + 1).join(' '), size, bold) <= width) count += 1;
    lines.push(fitted(rest.slice(0, count).join(' '), width, size, bold, measure));
    rest = rest.slice(count);
  }
  if (rest.length > 0) lines.push(fitted(rest.join(' '), width, size, bold, measure));
  return lines.filter((line) => line !== '');
}
