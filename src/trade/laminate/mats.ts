import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { NUMBER, parseNumber, tidy } from '../measures/number.ts';
import { parseArealWeight } from '../measures/quantity.ts';
import type { Make } from './fibres.ts';

/** Common practice, no source: mats overlap and are trimmed. */
export const OFFCUT_PERCENT = 10;

/** So many layers of one reinforcement. */
export interface Mats {
  readonly gramsPerSquareMetre: number;
  readonly count: number;
  /** Null where neither its name nor its unit tells. */
  readonly make: Make | null;
}

const EXAMPLE = { example: '2 x 450 g/m2, 1 x 300 g/m2' };
const COUNT_WORDS = ['one', 'two', 'three', 'four', 'five', 'six'];
const MOST_LAYERS = 60;
/** Grams per square metre: between a veil and the heaviest roving there is sense. */
const [LIGHTEST, HEAVIEST] = [10, 2400];
/** A bare number from here on is in grams per square metre: no reinforcement has as many ounces. */
const SURELY_GRAMS = 80;
/** A bare number up to this was probably meant in ounces. */
const MOST_OUNCES = 10;

const MAT = /\b(?:csm|chopped(?: strand)?|strand|mats?)\b/gi;
const CLOTH = /\b(?:wov[ae]n|cloths?|twill|plain weave|weave|rovings?|wr|fabrics?|biaxial|biax|unidirectional|ud)\b/gi;
const OTHER = /\b(?:glass|fibre|fiber|fibreglass|fiberglass|carbon|aramid|jute|flax|stitched|unbound|of)\b/gi;
const BARE_OUNCES = new RegExp(`^(${NUMBER}) ?(?:oz\\.?|ounces?)$`, 'i');

/**
 * "2 x 450 g/m2, 1 x 300 g/m2", "450 gsm x 2", "two layers of 1.5 oz mat", "6 oz/sq yd cloth". Chopped strand mat is sold by the
 * ounce per square foot and cloth by the ounce per square yard, so bare ounces need one of these words; grams are per square
 * metre.
 *
 * Refusals: `mats-unreadable`, `ounces-unclear` (see `readingsOf`), `layers-out-of-range`, `areal-weight-out-of-range`, and
 * those of `parseArealWeight` and `parseNumber`.
 */
export function parseMats(text: string): Mats[] | Refusal {
  const layers: Mats[] = [];
  for (const item of itemsOf(text)) {
    const mats = itemIn(item);
    if (isRefusal(mats)) return mats;
    layers.push(mats);
  }
  if (layers.length === 0) return unreadable(text);
  const count = layers.reduce((sum, mats) => sum + mats.count, 0);
  return count > MOST_LAYERS ? tooMany(text) : layers;
}

/** Bare ounces read in both ways: as mat, and as cloth. What is clear stays as it was typed. */
export const readingsOf = (text: string): Record<Make, string> => {
  const with_ = (unit: string) =>
    itemsOf(text)
      .map((item) => (isUnclear(item) ? item.replace(/(?:oz\.?|ounces?)(?= |$)/i, unit) : item))
      .join(', ');
  return { mat: with_('oz/sq ft'), cloth: with_('oz/sq yd') };
};

const isUnclear = (item: string): boolean => {
  const mats = itemIn(item);
  return isRefusal(mats) && mats.code === 'ounces-unclear';
};

/** One spelling for the units that people write out, then what stands between commas: "m2," ends an item, "1,5" does not. */
const itemsOf = (text: string): string[] =>
  tidy(text)
    .replace(/(?<=[\p{L}\d]) ?per (?=(?:m|f|y|sq))/giu, '/')
    .replace(/\bsquare (?=f|y|m)/gi, 'sq ')
    .replace(/\bsq\.? ?(?:foot|feet)\b/gi, 'sq ft')
    .replace(/\bsq\.? ?yards?\b/gi, 'sq yd')
    .replace(/\bsq\.? ?met(?:re|er)s?\b/gi, 'm2')
    .replace(/\bounces?(?= ?\/)/gi, 'oz')
    .replace(/(?<=\d) ?(?:gr?|gms?|grams?) ?\/? ?(?:m ?\^? ?2|sq ?m)(?![\p{L}\d])/giu, ' g/m2')
    .split(/(?<=(?:m|ft|yd) ?\^?2) ?,|(?<!\d),|,(?!\d)|[;+&\n]| and | then /i)
    .map((item) => item.trim())
    .filter((item) => item !== '');

function itemIn(item: string): Mats | Refusal {
  const made = MAT.test(item) ? 'mat' : CLOTH.test(item) ? 'cloth' : null;
  [MAT.lastIndex, CLOTH.lastIndex] = [0, 0];
  const bare = tidy(
    item
      .replace(/\b(?:layers?|plies|ply|sheets?|off)\b(?: of\b)?|(?<=^\S+ )(?:mats|cloths)\b/gi, ' x ')
      .replace(MAT, ' ')
      .replace(CLOTH, ' ')
      .replace(OTHER, ' '),
  );
  const { count, rest } = countIn(bare);
  if (isRefusal(count)) return count;
  if (!(Number.isInteger(count) && count >= 1)) return tooMany(item);
  const weight = weightIn(rest, made, item);
  if (isRefusal(weight)) return weight;
  if (weight < LIGHTEST || weight > HEAVIEST)
    return new Refusal(
      'areal-weight-out-of-range',
      say`“${item}” comes to ${plain(String(Number(weight.toPrecision(3))))} g/m² a layer; I expected ${LIGHTEST} to ${HEAVIEST}.`,
      /^\d \d{3}\b/.test(rest) ? { example: `${rest.slice(0, 1)} x ${rest.slice(2)}` } : EXAMPLE,
    );
  const unit = /oz ?\/ ?(?:ft2|sq ?ft)/i.test(rest) ? 'mat' : /oz ?\/ ?(?:yd2|sq ?yd)/i.test(rest) ? 'cloth' : null;
  return { gramsPerSquareMetre: weight, count, make: made ?? unit };
}

/** "2 x …", "… x 2", "two x …": the count, and what is left. Of two bare numbers the smaller is the count. */
function countIn(text: string): { count: number | Refusal; rest: string } {
  const sign = '(?:x|×|\\*|times)';
  const words = COUNT_WORDS.join('|');
  const front = new RegExp(`^(${NUMBER}|${words}) ?(?:${sign} ?)+(?=\\S)(.+)$`, 'i').exec(text);
  const back = new RegExp(`^(.+?) ?(?:${sign} ?)+(${NUMBER}|${words})(?: ?${sign})*$`, 'i').exec(text);
  if (front && back && /^\d+$/.test(front[1] ?? '') && /^\d+$/.test(back[2] ?? '') && Number(front[1]) > Number(back[2]))
    return { count: numberIn(back[2] ?? ''), rest: front[1] ?? '' };
  if (front) return { count: numberIn(front[1] ?? ''), rest: front[2]?.trim() ?? '' };
  if (back) return { count: numberIn(back[2] ?? ''), rest: back[1]?.trim() ?? '' };
  const twice = /^(.+?) (twice)$/i.exec(text);
  if (twice) return { count: 2, rest: twice[1] ?? '' };
  const word = new RegExp(`^(${words}) (.+)$`, 'i').exec(text);
  return word ? { count: numberIn(word[1] ?? ''), rest: word[2] ?? '' } : { count: 1, rest: text };
}

function numberIn(typed: string): number | Refusal {
  const word = COUNT_WORDS.indexOf(typed.toLowerCase());
  return word < 0 ? parseNumber(typed) : word + 1;
}

function weightIn(text: string, make: Make | null, item: string): number | Refusal {
  const ounces = BARE_OUNCES.exec(text);
  if (ounces && make === null)
    return new Refusal(
      'ounces-unclear',
      say`Ounces of what? Chopped strand mat is sold by the ounce per square foot, cloth by the ounce per square yard; I got “${item}”.`,
      { example: readingOfOne(item) },
    );
  if (ounces) return parseArealWeight(`${ounces[1]} ${make === 'mat' ? 'oz/sq ft' : 'oz/sq yd'}`);
  const grams = new RegExp(`^(${NUMBER}) ?(?:g|gr|gms?|grams?)?$`, 'i').exec(text);
  const number = grams ? parseNumber(grams[1] ?? '') : undefined;
  if (isRefusal(number)) return number;
  if (number !== undefined && (/[a-z]$/i.test(text) || number >= SURELY_GRAMS)) return number;
  if (number !== undefined)
    return new Refusal('unit-missing', say`Which unit? I expected a weight by area in g/m² or oz/sq ft, and got “${item}”.`, {
      example: `${item} ${number <= MOST_OUNCES ? 'oz/sq ft' : 'g/m2'}`,
    });
  const weight = parseArealWeight(text);
  return isRefusal(weight) && weight.code === 'areal-weight-unreadable' ? unreadable(item) : weight;
}

const readingOfOne = (item: string) => item.replace(/(?:oz\.?|ounces?)(?= |$)/i, 'oz/sq ft');

const unreadable = (text: string) =>
  new Refusal('mats-unreadable', say`I expected how many layers of what weight by area, and got “${text}”.`, EXAMPLE);

const tooMany = (text: string) =>
  new Refusal('layers-out-of-range', say`I expected 1 to ${MOST_LAYERS} whole layers, and got “${text}”.`, EXAMPLE);
