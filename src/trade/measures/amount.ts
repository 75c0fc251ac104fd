import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { meantUnit } from './meant.ts';
import { type Kind, notZero, readMeasure, unreadable } from './measure.ts';
import { NUMBER, tidy } from './number.ts';
import { MASS, VOLUME } from './units.ts';

export type Quantity =
  | { readonly kind: 'mass'; readonly grams: number }
  | { readonly kind: 'volume'; readonly millilitres: number };

/** A quantity, and the part that it is of; `of` is null where it is of the whole mix. */
export interface Amount {
  readonly quantity: Quantity;
  readonly of: string | null;
}

const AMOUNT: Kind = { what: 'an amount', code: 'amount', units: 'g, kg, mL, L, oz, lb or fl oz', example: '500 g' };

/** Reads a quantity off the front of tidied text; undefined where none stands there. Refusals: those of `parseNumber`. */
export function readQuantity(text: string): { quantity: Quantity; rest: string } | Refusal | undefined {
  const mass = readMeasure(text, MASS);
  if (isRefusal(mass)) return mass;
  if (mass) return { quantity: { kind: 'mass', grams: mass.value }, rest: mass.rest };
  const volume = readMeasure(text, VOLUME);
  if (volume === undefined || isRefusal(volume)) return volume;
  return { quantity: { kind: 'volume', millilitres: volume.value }, rest: volume.rest };
}

/** The number in a quantity, grams or millilitres. */
export const sizeOf = (quantity: Quantity): number => (quantity.kind === 'mass' ? quantity.grams : quantity.millilitres);

/**
 * "500 g", "1 lb 4 oz", "0,4 L", "150 g of B", "150 g B". Plain oz is mass, fl oz is volume; American unless "imp".
 *
 * Refusals: `ratio-not-amount` ("90:100"), `unit-missing`, `unit-unknown`, `amount-unreadable`, `amount-zero`,
 * `amount-absurd`, and those of `parseNumber`.
 */
export function parseAmount(text: string): Amount | Refusal {
  const typed = tidy(text);
  if (isRatio(typed)) {
    return new Refusal(
      'ratio-not-amount',
      say`“${text}” is a ratio, which the material knows already; I expected how much to mix.`,
      { example: AMOUNT.example },
    );
  }
  const power = /^(\d+(?:[.,]\d+)?e[+-]?\d+)(?: ?(\p{L}.*))?$/iu.exec(typed);
  if (power) return withPower(text, power[1] ?? '', power[2] ?? 'g');
  const read = readQuantity(typed);
  if (isRefusal(read)) return read;
  if (read === undefined) return withoutUnit(text, typed);
  const of = read.rest.replace(/^of /i, '').trim();
  if (/^(?:of|in|altogether|(?:in )?total|(?:the )?(?:whole )?mix)$/i.test(of)) {
    if (/^(?:of|in)$/i.test(of)) return unreadable(text, AMOUNT);
  } else if (of !== '' && (!/^[\p{L}\d]/u.test(of) || /\s\d+\D|^\d+\D|[,;]/u.test(of) || of.length > 80)) {
    return unreadable(text, AMOUNT);
  }
  const size = notZero(sizeOf(read.quantity), text, AMOUNT);
  if (isRefusal(size)) return size;
  const absurd = absurdAmount(read.quantity, text);
  if (absurd) return absurd;
  const whole = of === '' || /^(?:altogether|(?:in )?total|(?:the )?(?:whole )?mix)$/i.test(of);
  return { quantity: read.quantity, of: whole ? null : of };
}

/** As `parseAmount`, where no part may be named. Refusals: the same. */
export function parseQuantity(text: string): Quantity | Refusal {
  const amount = parseAmount(text);
  if (isRefusal(amount)) return amount;
  return amount.of === null ? amount.quantity : unreadable(text, AMOUNT);
}

/** "90:100", "1 to 1", "100/45"; a plain fraction such as 1/2 or 3/4 is an amount without its unit. */
function isRatio(typed: string): boolean {
  if (new RegExp(`^${NUMBER} ?(?::|to(?!\\p{L})) ?(?:${NUMBER})`, 'iu').test(typed)) return true;
  const over = /^(\d+(?:[.,]\d+)?) ?\/ ?(\d+(?:[.,]\d+)?)$/.exec(typed);
  return over !== null && !(Number(over[1]) < Number(over[2]) && ['2', '3', '4', '8', '16'].includes(over[2] ?? ''));
}

/** More than this, in grams or millilitres, is a slip of the finger: a tonne, a cubic metre. */
const MOST = 1e6;

/** Refusal `amount-absurd`, where no studio could want as much. */
export function absurdAmount(quantity: Quantity, text: string): Refusal | undefined {
  if (sizeOf(quantity) <= MOST) return undefined;
  return new Refusal(
    'amount-absurd',
    say`“${text}” is more than a studio can mix; I expected at most 1000 kg or 1000 L.`,
    AMOUNT,
  );
}

function withPower(text: string, typed: string, rest: string): Refusal {
  const value = Number(typed.replace(',', '.'));
  const example = `${Number(value.toPrecision(12))} ${rest}`;
  const will = value > 0 && value < MOST && !/\de/i.test(example) && !isRefusal(parseAmount(example));
  return new Refusal('number-unreadable', say`I expected a number written out, and got “${text}”.`, {
    example: will ? example : AMOUNT.example,
  });
}

function withoutUnit(text: string, typed: string): Refusal {
  const match = new RegExp(`^(${NUMBER}) ?(.*)$`, 'u').exec(typed);
  if (!match) return unreadable(text, AMOUNT);
  const [, number = '', rest = ''] = match;
  const plainNumber = unreadable(number, AMOUNT);
  if (rest === '' || plainNumber.code !== 'unit-missing') return plainNumber;
  if (/^of\b|^\p{L}$/iu.test(rest)) {
    return new Refusal(
      'unit-missing',
      say`Which unit? I expected ${plain(AMOUNT.what)} in ${plain(AMOUNT.units)}, and got “${text}”.`,
      { example: `${number} g of ${rest.replace(/^of\s*/i, '') || 'B'}` },
    );
  }
  const meant = meantUnit(text, [...MASS.names, ...VOLUME.names], 'unit-unknown');
  if (meant?.example !== undefined && !isRefusal(parseAmount(meant.example))) return meant;
  return new Refusal('unit-unknown', say`I do not know the unit in “${text}”; I expected ${plain(AMOUNT.units)}.`, {
    example: `${number} g`,
  });
}
