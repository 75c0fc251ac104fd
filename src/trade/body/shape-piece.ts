import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';
import { clean } from '../measures/measure.ts';
import { parseLength } from '../measures/quantity.ts';
import { factorOf, LENGTH } from '../measures/units.ts';
import { fill, labelled, type Measure, spoken, type Unit } from './shape-fill.ts';
import type { Many } from './shape-sums.ts';
import type { Shape } from './shape-table.ts';
import { isFiller, labelOf, shapeIn, shapesLike, startsWithShape, type Token } from './shape-words.ts';

/** A refusal, with whole texts that may work instead, likeliest first: whoever hands it on finds one that does. */
export class Unread {
  readonly refusal: Refusal;
  readonly instead: readonly string[];

  constructor(code: string, message: Text, ...instead: readonly string[]) {
    this.refusal = new Refusal(code, message);
    this.instead = instead;
  }
}

/** One shape, so many times, and how it is said. */
export interface Piece {
  readonly many: Many;
  readonly said: string;
}

/** Shorter or longer than this, or more of them, is a slip of the finger. */
const LEAST_MILLIMETRES = 0.01;
const MOST_MILLIMETRES = 100_000;
const MOST_PIECES = 1000;
const COUNTS = ['one', 'two', 'three', 'four', 'five', 'six'];

/** "2 x", "two", "a" in front of a shape's name, and the tokens from there on. */
export function counting(tokens: readonly Token[]): { count: number; tokens: readonly Token[] } {
  const [first, second] = tokens;
  if (first?.kind === 'word' && COUNTS.includes(first.word)) {
    return { count: COUNTS.indexOf(first.word) + 1, tokens: tokens.slice(1) };
  }
  if (first?.kind === 'word' && isFiller(first.word)) return counting(tokens.slice(1));
  if (first?.kind !== 'measure' || first.unit !== null || !/^\d+$/.test(first.number)) return { count: 1, tokens };
  const rest = tokens.slice(second?.kind === 'stop' ? 2 : 1);
  return startsWithShape(rest) ? { count: Number(first.number), tokens: rest } : { count: 1, tokens };
}

/** From this unit on people say a length in two: "1 m 20 cm", but not "30 cm 5 mm". */
const SAID_IN_TWO_MILLIMETRES = factorOf(LENGTH, 'ft') ?? 0;

/** "1 m 20 cm" as one measure: directly after each other, the second unit the smaller one. */
function inOne(tokens: readonly Token[]): Token[] {
  const sizeOf = (token: Token | undefined) =>
    token?.kind === 'measure' && token.unit !== null ? (factorOf(LENGTH, token.unit) ?? 0) : 0;
  const read: Token[] = [];
  for (const token of tokens) {
    const before = read.at(-1);
    const both = before?.kind === 'measure' && token.kind === 'measure' && sizeOf(token) > 0;
    if (both && sizeOf(before) >= SAID_IN_TWO_MILLIMETRES && sizeOf(before) > sizeOf(token))
      read.splice(-1, 1, { ...token, number: `${before.number} ${before.unit ?? ''} ${token.number}` });
    else read.push(token);
  }
  return read;
}

/**
 * What was typed about one shape. `unit`: where it has none of its own; `text`: all that was typed. Where "1 m 20 cm" makes no
 * shape as one measure, it is two.
 */
export function readPiece(typed: readonly Token[], unit: string | null, text: string): Piece | Unread {
  const tokens = inOne(typed);
  const piece = tokens.length < typed.length ? readTokens(tokens, unit, text) : undefined;
  return piece === undefined || piece instanceof Unread ? readTokens(typed, unit, text) : piece;
}

function readTokens(typed: readonly Token[], unit: string | null, text: string): Piece | Unread {
  const { count, tokens } = counting(typed);
  const found = shapeIn(tokens);
  if (!found) return withoutName(tokens, text);
  const { shape, rest } = found;
  const { named, strays } = labelled(rest.filter((token) => token.kind !== 'word' || !isFiller(token.word)));
  if (strays.length > 0) {
    const message = say`I do not know “${strays.join(' ')}” here; of ${plain(one(shape))} I expected ${plain(shape.expects)}.`;
    return new Unread('shape-words', message, shape.example);
  }
  if (!(count >= 1 && count <= MOST_PIECES)) {
    return new Unread('shape-absurd', say`I expected 1 to ${MOST_PIECES} pieces, and got “${text}”.`, shape.example);
  }
  const measures: Measure[] = [];
  for (const [index, { measure, labels }] of named.entries()) {
    const has = (each: { measure: { unit: string | null } }) => each.measure.unit !== null;
    const own = named.slice(index).find(has) ?? named.findLast(has);
    const read = readMeasure(measure.number, own?.measure.unit ?? unit, { text, shape });
    if (read instanceof Unread) return read;
    measures.push({ ...read, labels });
  }
  return made(measures, count, { text, shape });
}

interface Context {
  readonly text: string;
  readonly shape: Shape;
}

/** "a cone", "an ellipsoid". */
export const article = (said: string): string => (/^\d/.test(said) ? said : `${/^[aeiou]/.test(said) ? 'an' : 'a'} ${said}`);

const nameOf = (shape: Shape) => shape.forms[0]?.said ?? '';
const one = (shape: Shape) => article(nameOf(shape));

const MILLIMETRE: Unit = { name: 'mm', millimetres: 1 };
const SAID: readonly Unit[] = ['in', 'ft', 'yd', 'm', 'cm'].map((name) => ({
  name,
  millimetres: factorOf(LENGTH, name) ?? Number.NaN,
}));

function readMeasure(number: string, unit: string | null, { text, shape }: Context): Omit<Measure, 'labels'> | Unread {
  if (unit === null) {
    const message = say`Which unit? I expected measures in mm, cm, m, in or ft, and got “${text}”.`;
    return new Unread('unit-missing', message, `${text} cm`, shape.example);
  }
  const typed = `${number} ${unit}`;
  const millimetres = parseLength(typed);
  if (isRefusal(millimetres)) {
    const { code, message, example } = millimetres;
    const there = new RegExp(`${escaped(number)}(?: ?${escaped(unit)}(?![\\p{L}\\d]))?`, 'iu');
    const mended = example === undefined || code === 'length-zero' ? [] : [text.replace(there, example)];
    return new Unread(code, message, ...mended, shape.example);
  }
  if (!(millimetres >= LEAST_MILLIMETRES && millimetres <= MOST_MILLIMETRES)) {
    return new Unread('shape-absurd', say`I expected measures of 0.01 mm to 100 m, and got “${typed}”.`, shape.example);
  }
  const size = factorOf(LENGTH, unit);
  return { millimetres, unit: SAID.find((each) => each.millimetres === size) ?? MILLIMETRE };
}

const escaped = (typed: string) => typed.replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);

function made(measures: readonly Measure[], count: number, { text, shape }: Context): Piece | Unread {
  const filled = fill(shape, measures);
  if (!filled) {
    const message = say`Of ${plain(one(shape))} I expected ${plain(shape.expects)}, and got “${text}”.`;
    return new Unread('shape-measures', message, shape.example);
  }
  const [first = 0, second = 0, third = 0] = filled.measures.map((measure) => clean(measure.millimetres));
  const why = filled.form.impossible?.(first, second, third);
  if (why !== undefined) {
    return new Unread('shape-impossible', say`There is no such shape: ${plain(why)}. I got “${text}”.`, shape.example);
  }
  const said = spoken(filled);
  return { many: { solid: filled.form.of(first, second, third), count }, said: count === 1 ? said : `${count} x ${said}` };
}

const BY_MEASURES = ['half sphere', 'plate', 'box'];

function withoutName(tokens: readonly Token[], text: string): Unread {
  const expected = plain('plate, box, cylinder, cone, frustum, cap, half sphere, sphere, ellipsoid or torus');
  const words = tokens.flatMap((token) => (token.kind === 'word' && labelOf(token.word) === undefined ? [token.word] : []));
  if (words.length > 0) {
    const instead = shapesLike(words).flatMap((shape) => [`${nameOf(shape)} ${withoutWords(tokens)}`, shape.example]);
    return new Unread(
      'shape-unknown',
      say`I do not know the shape in “${text}”; I expected ${expected}, with measures.`,
      ...instead,
    );
  }
  const measures = tokens.filter(({ kind }) => kind === 'measure').length;
  const message = say`Which shape? I expected ${expected}, with measures, and got “${text}”.`;
  return new Unread('shape-missing', message, `${BY_MEASURES[measures - 1]} ${text}`);
}

/** The measures and what they are called, as typed. */
function withoutWords(tokens: readonly Token[]): string {
  const kept = tokens.map((token) => {
    if (token.kind === 'measure') return token.unit === null ? token.number : `${token.number} ${token.unit}`;
    if (token.kind === 'stop') return 'x';
    return labelOf(token.word) === undefined ? '' : token.word;
  });
  return kept.filter((each) => each !== '').join(' ');
}
