import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { sizeOf } from '../measures/amount.ts';
import { parseNumber } from '../measures/number.ts';
import { parseAmount } from '../measures/quantity.ts';

/** What somebody wants of a plaster: a mould filled, or a weight of one of the things that it passes through. */
export type PlasterAsk =
  | { readonly of: 'mould'; readonly millilitres: number }
  | { readonly of: 'powder' | 'water' | 'mix' | 'dry'; readonly grams: number };

const WORDS: Readonly<Record<PlasterAsk['of'], readonly string[]>> = {
  powder: ['powder', 'plaster', 'gypsum', 'stone'],
  water: ['water'],
  mix: ['mix', 'slurry', 'cream', 'altogether', 'total'],
  dry: ['dry', 'dried', 'piece', 'casting', 'cast'],
  mould: ['mould', 'mold', 'cavity', 'volume'],
};
const KINDS = Object.keys(WORDS) as PlasterAsk['of'][];

/**
 * "0,4 L" (of mould), "2 kg" or "2 kg of powder", "1.2 kg dry", "3 kg of mix", "500 mL of water". A bare weight is that of the
 * powder, as in a kilo of plaster.
 *
 * Refusals: `plaster-amount-unreadable`, `powder-by-volume`, and those of `parseAmount`.
 */
export function parsePlasterAmount(text: string): PlasterAsk | Refusal {
  // "dry 1.2 kg" is "1.2 kg dry".
  const amount = parseAmount(text.replace(/^\s*(\p{L}{3,}):?\s+(?=[\d.,])(.+)$/u, '$2 of $1'));
  if (isRefusal(amount)) return withUnit(amount, text);
  const { quantity } = amount;
  const size = sizeOf(quantity);
  // A mix as a whole has no part's name in an amount: here that is another thing than the powder.
  const whole = amount.of === null && /\b(?:mix|total|altogether)\s*$/i.test(text);
  const of = amount.of === null ? (whole ? 'mix' : null) : kindIn(amount.of);
  if (of === undefined)
    return new Refusal(
      'plaster-amount-unreadable',
      say`I expected litres of mould, or a weight of powder, of mix or of the dry piece, and got “${text}”.`,
      { example: quantity.kind === 'mass' ? '2 kg of powder' : '0.4 L' },
    );
  if (quantity.kind === 'mass') {
    if (of === 'mould') return { of: 'mix', grams: size };
    return { of: of ?? 'powder', grams: size };
  }
  if (of === 'powder')
    return new Refusal('powder-by-volume', say`A heap of powder has no fixed volume: I expected its weight, and got “${text}”.`, {
      example: '2 kg of powder',
    });
  return of === 'water' ? { of, grams: size } : { of: 'mould', millilitres: size };
}

/** A number without its unit keeps the number: so little is litres, so much is grams. */
function withUnit(refusal: Refusal, text: string): Refusal {
  const number = refusal.code === 'unit-missing' ? parseNumber(text) : refusal;
  if (isRefusal(number)) return refusal;
  return new Refusal(refusal.code, refusal.message, { example: `${number} ${number <= 20 ? 'L' : 'g'}` });
}

/** What the words after an amount say: "dry" is the piece, but "dry plaster" and "casting plaster" are powder. */
function kindIn(words: string): PlasterAsk['of'] | undefined {
  const each = words.toLowerCase().match(/\p{L}+/gu) ?? [];
  const order: readonly PlasterAsk['of'][] = ['water', 'mix', 'mould', 'powder', 'dry'];
  const exact = order.find((kind) => each.some((word) => WORDS[kind].includes(word)));
  if (exact) return exact;
  const near = each
    .filter((word) => word.length > 3)
    .map(
      (word) =>
        nearest(
          word,
          KINDS.flatMap((kind) => WORDS[kind]),
          1,
        )[0],
    );
  return order.find((kind) => near.some((word) => word !== undefined && WORDS[kind].includes(word)));
}
