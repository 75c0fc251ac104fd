import { distance } from 'fastest-levenshtein';
import { nearest } from '../../words/nearest.ts';
import { NUMBER, tidy } from '../measures/number.ts';
import { LENGTH } from '../measures/units.ts';
import { type Label, SHAPES, type Shape } from './shape-table.ts';

/** A piece of what was typed about one shape. `unit` is null where a number stands alone; a stop parts two measures. */
export type Token =
  | { readonly kind: 'measure'; readonly number: string; readonly unit: string | null }
  | { readonly kind: 'word'; readonly word: string; readonly typed: string }
  | { readonly kind: 'stop' };

const LABELS: Readonly<Record<Label, string>> = {
  across: 'd dia diam diameter diameters ø ⌀ φ across',
  radius: 'r rad radius',
  high: 'h ht high height tall deep depth',
  long: 'l long length',
  wide: 'w wide width breadth',
  thick: 't th thick thickness',
  side: 'side sides edge edges',
  bottom: 'bottom base foot lower',
  top: 'top upper',
  ring: 'ring middle centreline centerline',
  tube: 'tube',
  outer: 'outer outside overall od',
  inner: 'inner inside hole id',
  ball: 'ball sphere curve curvature',
};
const LABEL_OF = new Map(
  Object.entries(LABELS).flatMap(([label, words]) => words.split(' ').map((word) => [word, label as Label])),
);
export const labelOf = (word: string): Label | undefined => LABEL_OF.get(word);

/** Said along with a measure, and of no weight. */
const FILLERS = new Set(
  'a an the of at its is with and each line axis axes standing sitting about measuring measures'.split(' '),
);
export const isFiller = (word: string): boolean => FILLERS.has(word);

const NAMES = SHAPES.flatMap((shape) => shape.names.map((name) => ({ words: name.split(' '), shape })));
const NAME_WORDS = new Set(NAMES.flatMap(({ words }) => words));
const LONG_WORDS = [...NAME_WORDS, ...LABEL_OF.keys()].filter((word) => word.length >= 5);

/** Puts a slip of the finger right, and plurals; short names are left alone, for a bell is no ball, nor a torso a torus. */
function corrected(typed: string): string {
  const word = typed.toLowerCase();
  const known = (one: string) => NAME_WORDS.has(one) || LABEL_OF.has(one) || FILLERS.has(one);
  if (known(word)) return word;
  if (known(word.replace(/s$/, ''))) return word.replace(/s$/, '');
  if (word.length < 4) return word;
  const [close] = nearest(word, LONG_WORDS, 1);
  return close !== undefined && distance(word, close) <= (word.length < 6 ? 1 : 2) ? close : word;
}

const ONE = new RegExp(
  [
    // Feet and inches are one measure.
    `(?<feet>${NUMBER} ?(?:feet|foot|ft|') ?${NUMBER}) ?(?<inches>inches|inch|in|")(?![\\p{L}\\d])`,
    `(?<number>${NUMBER}) ?(?<unit>${LENGTH.pattern})?`,
    `(?<stop>[x×*](?![\\p{L}])|by(?!\\p{L})|[,;/:=])`,
    '(?<word>[\\p{L}⌀]+)',
    '(?<other>\\S)',
  ].join('|'),
  'giu',
);

/** What was typed about one shape, in tokens; a sign that means nothing here comes as a word. */
export function tokensOf(text: string): Token[] {
  const spaced = tidy(text)
    .replace(/['’]s\b/giu, ' ')
    .replace(/[()[\]]/g, ' ')
    .replace(/(?<=\p{L})-(?=\p{L})/gu, ' ')
    .replace(/\bhalf (?:of )?an? /gi, 'half ')
    .replace(/(?<=\d|["']|(?<!\p{L})(?:mm|cm|m|in|ft|inch|mil))\s*[x×*]\s*(?=[\d.,])/giu, ' x ');
  return [...spaced.matchAll(ONE)].map(({ groups = {} }): Token => {
    const { feet, inches, number, unit, stop, word, other } = groups;
    if (feet !== undefined) return { kind: 'measure', number: feet, unit: inches ?? '' };
    if (number !== undefined) return { kind: 'measure', number, unit: unit ?? null };
    if (stop !== undefined) return { kind: 'stop' };
    const typed = word ?? other ?? '';
    return { kind: 'word', word: corrected(typed), typed };
  });
}

/** The shape that is named among the tokens, and the tokens without its name; undefined where none is. */
export function shapeIn(tokens: readonly Token[]): { shape: Shape; rest: Token[] } | undefined {
  for (const { words, shape } of NAMES) {
    const at = tokens.findIndex((_, start) => standsAt(tokens, start, words));
    if (at >= 0) return { shape, rest: [...tokens.slice(0, at), ...tokens.slice(at + words.length)] };
  }
  return undefined;
}

export const startsWithShape = (tokens: readonly Token[]): boolean => NAMES.some(({ words }) => standsAt(tokens, 0, words));

const standsAt = (tokens: readonly Token[], start: number, words: readonly string[]): boolean =>
  words.every((word, index) => {
    const token = tokens[start + index];
    return token?.kind === 'word' && token.word === word;
  });

/** The shapes whose names look like the words, nearest first. */
export function shapesLike(words: readonly string[]): Shape[] {
  const typed = words.filter((word) => !isFiller(word)).join(' ');
  const names = nearest(
    typed,
    NAMES.map(({ words: name }) => name.join(' ')),
  );
  return names.flatMap((name) => SHAPES.filter((shape) => shape.names.includes(name)).slice(0, 1));
}
