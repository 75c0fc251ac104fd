import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { parseQuantity } from './amount.ts';

const EXAMPLE = { example: '0.1 g' };

/** The smallest step that a scale shows, in grams: "0,1 g", "0.05 oz". Refusals: `bad-scale` for a volume, those of `parseQuantity`. */
export function parseScaleStep(text: string): number | Refusal {
  const quantity = parseQuantity(text);
  if (isRefusal(quantity)) return new Refusal(quantity.code, quantity.message, EXAMPLE);
  if (quantity.kind === 'mass') return quantity.grams;
  return new Refusal('bad-scale', say`I expected the smallest step that the scale shows, and got “${text}”.`, EXAMPLE);
}
