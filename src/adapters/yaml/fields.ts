import { z } from 'zod';
import {
  parseDuration,
  parseLength,
  parsePercent,
  parsePressure,
  parsePrice,
  parseQuantity,
  parseRatePerMole,
  parseTemperature,
} from '../../trade/measures/quantity.ts';
import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';

/** How a value from a file is named in a message. */
export function shown(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'object') return Array.isArray(value) ? 'a list' : 'a mapping';
  return String(value);
}

const flat = (text: Text): string =>
  text
    .map((span) =>
      span.as === 'strong' ? flat(span.text) : span.as === 'time' ? String(span.at) : span.as === 'person' ? span.id : span.text,
    )
    .join('');

/** A value that `read` turns into a T; undefined or a refusal from it becomes a problem. The refusal's own words are used. */
export function field<T>(expected: string, read: (value: unknown) => T | Refusal | undefined) {
  return z.any().transform((value, ctx): T => {
    const result = value === undefined || value === null ? undefined : read(value);
    const refusal = isRefusal(result) ? result : undefined;
    if (result !== undefined && !refusal) return result as T;
    ctx.addIssue({ code: 'custom', message: refusal ? flat(refusal.message) : `expected ${expected}, got ${shown(value)}` });
    return undefined as T;
  });
}

export const text = (expected: string) =>
  field(expected, (value) => (typeof value === 'string' && value.trim() ? value.trim() : undefined));

/** A text in a single line of a card: no longer than it can show. */
export const name = (expected: string, longest = 60) =>
  field(expected, (value) => {
    const words = typeof value === 'string' ? value.trim() : '';
    const length = [...words].length;
    if (length > longest) return new Refusal('too-long', say`expected at most ${longest} characters, got ${length}`);
    return words || undefined;
  });

export const number = (expected: string, least: number, most: number) =>
  field(expected, (value) => (typeof value === 'number' && value >= least && value <= most ? value : undefined));

export const positive = (expected: string) => number(expected, Number.MIN_VALUE, 1e9);

const ID_LONGEST = 40;
export const id = field('an id of lower case letters, digits and hyphens', (value) => {
  if (typeof value !== 'string' || !/^[a-z0-9][a-z0-9-]*$/.test(value)) return undefined;
  if (value.length <= ID_LONGEST) return value;
  return new Refusal('too-long', say`expected at most ${ID_LONGEST} characters, got ${value.length}`);
});

export function oneOf<const T extends string>(words: readonly T[]) {
  return z.any().transform((value, ctx): T => {
    const word = words.find((known) => known === value);
    if (word !== undefined) return word;
    const meant = typeof value === 'string' ? nearest(value, words, 1).join('') : '';
    const hint = meant && `; did you mean ${meant}?`;
    ctx.addIssue({ code: 'custom', message: `expected one of ${words.join(', ')}, got ${shown(value)}${hint}` });
    return undefined as unknown as T;
  });
}

/** Text with a unit: a bare number is refused, since nobody can tell what it counts. */
const measured = (expected: string, parse: (text: string) => number | Refusal, least: number, most = MOST) =>
  field(`${expected} with its unit`, (value) => {
    if (typeof value !== 'string' || !/[^\d\s.,+-]/.test(value)) return undefined;
    let amount = parse(value);
    // What is nothing or less is mostly no amount to the parsers, though it has its unit.
    const count = Number.parseFloat(value.trim().replace('−', '-').replace(',', '.'));
    if (isRefusal(amount) && count <= 0) {
      const one = parse(value.trim().replace(/^[-−]?[\d.,]+/, '1'));
      amount = isRefusal(one) || Number.isNaN(one) ? one : count;
    }
    if (isRefusal(amount) || Number.isNaN(amount)) return undefined;
    if (amount >= least && amount <= most) return amount;
    const bound = most !== MOST ? '' : amount > most ? ' that a studio can have' : least === TINY ? ' over 0' : ' of 0 or more';
    return new Refusal('out-of-range', say`expected ${plain(expected + bound)}, got ${shown(value)}`);
  });

const TINY = 1e-9;
const MOST = 1e9;
/** Minutes. */
export const duration = measured('a duration', parseDuration, TINY);
/** Minutes; none at all will do. */
export const handsOn = measured('a duration', parseDuration, 0);
/** Millimetres. */
export const length = measured('a thickness', parseLength, TINY);
/** Degrees Celsius. */
export const temperature = measured('a temperature from -50 to 300 C', parseTemperature, -50, 300);
/** Joules per mole. */
export const rate = measured('an activation energy from 1 to 300 kJ/mol', parseRatePerMole, 1e3, 3e5);
export const percent = (least: number, most: number) =>
  measured(`a percentage from ${least} to ${most} %`, parsePercent, least, most);
/** Pascal. */
export const pressure = measured('a stress from 1 mPa to 1 MPa', parsePressure, 1e-3, 1e6);
/** "24.50 EUR/kg", "9 USD/lb": by the kilogram, with the currency's ISO 4217 code. */
export const price = field('a price such as 24.50 EUR/kg', (value) => {
  const read = typeof value === 'string' ? parsePrice(value) : undefined;
  return isRefusal(read) ? undefined : read;
});
/** Grams. */
export const mass = measured('a mass', (typed) => amountOf(typed, 'mass'), TINY);
/** Millilitres. */
export const volume = measured('a volume', (typed) => amountOf(typed, 'volume'), TINY);

function amountOf(typed: string, kind: 'mass' | 'volume'): number | Refusal {
  const amount = parseQuantity(typed);
  if (isRefusal(amount)) return amount;
  if (amount.kind !== kind) return Number.NaN;
  return amount.kind === 'mass' ? amount.grams : amount.millilitres;
}

export const list = <T extends z.ZodType>(item: T, least = 0) =>
  z
    .array(item, { error: ({ input }) => `expected a list, got ${shown(input)}` })
    .min(least, { error: 'expected at least one, got an empty list' });

/** A mapping with these keys and no others. The names of its keys travel in the message of an unknown key (see document.ts). */
export const strict = <T extends z.ZodRawShape>(shape: T) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? Object.keys(shape).join(' ') : `expected a mapping, got ${shown(issue.input)}`,
  });

/** A mapping read by `mapping`, anything else by `word`. */
export const either = <A, B>(word: z.ZodType<A>, mapping: z.ZodType<B>) =>
  z.any().transform((value, ctx): A | B => {
    const result = (typeof value === 'object' && value !== null ? mapping : word).safeParse(value);
    if (result.success) return result.data;
    ctx.issues.push(...result.error.issues.map((issue) => ({ ...issue, input: value }) as z.core.$ZodRawIssue));
    return undefined as A | B;
  });

/** A check across fields, made even if other fields are wrong, as long as those that it is `about` are right. */
export const check = <T>(about: readonly (keyof T & string)[], fn: (entry: T, report: Report) => void) =>
  z.superRefine<T>(
    (entry, ctx) =>
      fn(entry, (path, message, example) =>
        ctx.addIssue({ code: 'custom', path: [...path], message, ...(example === undefined ? {} : { params: { example } }) }),
      ),
    {
      when: ({ issues }) =>
        !issues.some(({ path, code }) => (path?.length ? about.some((key) => key === path[0]) : code !== 'unrecognized_keys')),
    },
  );

/** `example` is for where the file's own example need not be right. */
export type Report = (path: readonly (string | number)[], message: string, example?: string) => void;
