import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { readQuantity, sizeOf } from '../measures/amount.ts';
import { NUMBER, parseNumber, tidy } from '../measures/number.ts';
import { WATER_TAKEN_UP } from './chemistry.ts';

/** Parts of water by weight to 100 of powder: less would not set all of it, more makes a casting that falls apart. */
const LEAST = WATER_TAKEN_UP * 100;
const MOST = 120;
/** A bare number up to this is water ÷ powder; a larger one is parts of water to 100. */
const MOST_QUOTIENT = 1.5;

const EXAMPLE = { example: '70:100' };
const NAMES = {
  water: ['water', 'w'],
  powder: ['powder', 'plaster', 'gypsum', 'stone', 'hemihydrate', 'p'],
} as const;
type Named = keyof typeof NAMES;

/** Words that tell nothing here, and the signs between two numbers. */
const FILLER = /^(?:parts?|pts?|by|weight|wt|to|per|of|and|into|in|on|with|for|the|every|each|a|ratio|[:/,;+=&-]|÷)\.?$/i;

interface Share {
  readonly value: number;
  readonly is: 'bare' | 'percent' | 'mass' | 'volume';
  readonly of: Named | null;
}

/**
 * How much water a plaster gets, as parts by weight to 100 of powder: "70:100", "70", "0,7", "w/p 0.6", "100 powder to 70
 * water", "30 ml per 100 g". Where nothing says which number is which, a hundred is the powder if it can be, and else the larger one; a
 * millilitre of water is a gram.
 *
 * Refusals: `water-unreadable`, `powder-by-volume`, `water-too-little`, `water-too-much`, and those of `parseNumber`.
 */
export function parseWater(text: string): number | Refusal {
  const shares = sharesIn(
    tidy(text)
      .replace(/^w(?:ater)? ?[:/] ?p(?:owder)?\b/i, 'ratio')
      .replace(/^wp\b/i, 'ratio')
      // "70/100" is no fraction here, and "70,100" no number of thousands.
      .replace(/(?<=\d) ?\/ ?(?=\d)|(?<=^\d{2,3}),(?=100$)/g, ' : '),
  );
  if (isRefusal(shares)) return shares;
  const water = shares === undefined ? undefined : waterIn(shares);
  if (water === undefined)
    return new Refusal(
      'water-unreadable',
      say`I expected the water to 100 of powder, by weight, as 70:100, 0.7 or 30 ml per 100 g, and got “${text}”.`,
      EXAMPLE,
    );
  return isRefusal(water) ? water : withinReach(water, text);
}

/** Undefined where something in the text is neither a number nor a word that belongs here. */
function sharesIn(text: string): Share[] | Refusal | undefined {
  const shares: Share[] = [];
  let [rest, before]: [string, Named | null] = [text, null];
  const number = new RegExp(`^(${NUMBER}) ?(%|percent)?`, 'i');
  while (rest !== '') {
    const quantity = readQuantity(rest);
    if (isRefusal(quantity)) return quantity;
    const bare = quantity ? null : number.exec(rest);
    if (quantity) {
      shares.push({ value: sizeOf(quantity.quantity), is: quantity.quantity.kind, of: before });
      rest = quantity.rest;
    } else if (bare) {
      const value = parseNumber(bare[1] ?? '');
      if (isRefusal(value)) return value;
      shares.push({ value, is: bare[2] ? 'percent' : 'bare', of: before });
      rest = rest.slice(bare[0].length).trimStart();
    } else {
      const word = /^(?:\p{L}+\.?|\S)/u.exec(rest)?.[0] ?? '';
      rest = rest.slice(word.length).trimStart();
      if (FILLER.test(word)) continue;
      const of = namedBy(word);
      const last = shares.at(-1);
      if (of === undefined) return undefined;
      if (before === null && last?.of === null) shares[shares.length - 1] = { ...last, of };
      else before = of;
      continue;
    }
    before = null;
  }
  return shares;
}

function namedBy(word: string): Named | undefined {
  const all = [...NAMES.water, ...NAMES.powder];
  const name = all.find((one) => one === word.toLowerCase()) ?? nearest(word, word.length < 4 ? [] : all.slice(), 1)[0];
  if (name === undefined) return undefined;
  return NAMES.water.some((one) => one === name) ? 'water' : 'powder';
}

function waterIn(shares: readonly Share[]): number | Refusal | undefined {
  const [one, two] = shares;
  if (one === undefined || shares.length > 2) return undefined;
  if (two === undefined) return alone(one);
  if (one.is === 'percent' || two.is === 'percent' || (one.of !== null && one.of === two.of)) return undefined;
  if (!(one.value > 0 && two.value > 0)) return undefined;
  const water = waterOf(one, two);
  const powder = water === one ? two : one;
  if (powder.is === 'volume')
    return new Refusal('powder-by-volume', say`A heap of powder has no fixed volume: I expected its weight.`, {
      example: '30 ml per 100 g',
    });
  return Number(((100 * water.value) / powder.value).toPrecision(12));
}

function alone({ value, is, of }: Share): number | undefined {
  if (of === 'powder' || is === 'mass' || is === 'volume' || !(value > 0)) return undefined;
  return is === 'bare' && value <= MOST_QUOTIENT ? Number((value * 100).toPrecision(12)) : value;
}

/**
 * Which of two is the water: what is called so, what is measured by volume, what is beside a hundred, else the smaller; where
 * that cannot be, the first, as in 70:100.
 */
function waterOf(one: Share, two: Share): Share {
  if (one.of !== null || two.of !== null) return one.of === 'water' || two.of === 'powder' ? one : two;
  if (one.is !== two.is && (one.is === 'volume' || two.is === 'volume')) return one.is === 'volume' ? one : two;
  const beside = one.value === 100 ? two : two.value === 100 ? one : undefined;
  if (beside?.is === 'bare' && beside.value <= MOST) return beside;
  const [less, more] = one.value <= two.value ? [one, two] : [two, one];
  return (100 * less.value) / more.value < LEAST * (1 - 1e-9) ? one : less;
}

function withinReach(water: number, text: string): number | Refusal {
  const got = plain(String(Number(water.toPrecision(3))));
  if (water < LEAST * (1 - 1e-9))
    return new Refusal(
      'water-too-little',
      say`I read “${text}” as ${got} of water to 100 of powder, and setting takes up ${Number(LEAST.toFixed(1))}: I expected more.`,
      water <= 2 ? EXAMPLE : { example: '19:100' },
    );
  if (water > MOST)
    return new Refusal(
      'water-too-much',
      say`I read “${text}” as ${got} of water to 100 of powder; I expected ${MOST} at most, since more leaves nothing that holds together.`,
      EXAMPLE,
    );
  return water;
}
