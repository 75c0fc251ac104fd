import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import type { Quantity } from '../measures/amount.ts';
import { tidy } from '../measures/number.ts';
import { parseAddedShare, parseLength, parseQuantity } from '../measures/quantity.ts';
import type { Overpour } from './amount.ts';

/** What people type of a casting. */

/** The same refusal, with what would do here. */
const instead = ({ code, message }: Refusal, example: string): Refusal => new Refusal(code, message, { example });

/** "5 %", "5", "20 mL", "30 g"; zero is allowed. Refusals: those of `parseAddedShare` and `parseQuantity`. */
export function parseOverpour(text: string): Overpour | Refusal {
  const typed = tidy(text);
  const isShare = /%|per ?cent|\d$/i.test(typed) || !/\d/.test(typed);
  if (!isShare) {
    const quantity = parseQuantity(typed);
    return isRefusal(quantity) ? quantity : { quantity };
  }
  const percent = parseAddedShare(typed);
  return isRefusal(percent) ? instead(percent, '5 %') : { percent };
}

/** The water that a mould holds: "412 g", "14 oz", also "400 mL". Refusals: those of `parseQuantity`. */
export function parseHeldWater(text: string): Quantity | Refusal {
  const quantity = parseQuantity(text);
  if (!isRefusal(quantity)) return quantity;
  return instead(quantity, quantity.code === 'unit-missing' ? `${text.trim()} g` : (quantity.example ?? '412 g'));
}

/** Millilitres that a mould holds: "350 mL", "0,4 L", "12 fl oz". Refusals: `wrong-unit` for a weight, those of `parseQuantity`. */
export function parseCavity(text: string): number | Refusal {
  const quantity = parseQuantity(text);
  if (isRefusal(quantity)) return instead(quantity, quantity.code === 'unit-missing' ? `${text.trim()} mL` : '350 mL');
  if (quantity.kind === 'volume') return quantity.millilitres;
  const fluid = /oz|ounce/i.test(text) ? '12 fl oz' : '350 mL';
  const message = say`Expected what the mould holds as a volume, got the weight “${text}”. If that is the water that it holds, call it water.`;
  return new Refusal('wrong-unit', message, { example: fluid });
}

/** Millimetres; in a refusal a bare number is taken to be meant in them. Refusals: those of `parseLength`. */
export function parseSize(text: string): number | Refusal {
  const length = parseLength(text);
  if (!isRefusal(length)) return length;
  return instead(length, length.code === 'unit-missing' ? `${text.trim()} mm` : (length.example ?? '3 mm'));
}
