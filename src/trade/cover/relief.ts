import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { parseNumber } from '../measures/number.ts';

/** By how much a texture adds to the area. Common practice, no source. */
const TEXTURES = new Map(Object.entries({ smooth: 1, skin: 1.1, wood: 1.1, folds: 1.3, deep: 1.6, fur: 2 }));
/** Beyond this it is no texture any more, but a shape. */
const MOST = 3;

/**
 * How many times the area of the smooth shape a texture has: smooth, skin or wood (grain), folds, deep, fur, or a number from
 * 1 to 3. Refusals: `relief-unreadable`, `relief-out-of-range`, and those of `parseNumber`.
 */
export function parseRelief(text: string): number | Refusal {
  const typed = text.trim().toLowerCase();
  if (/\d/.test(typed)) {
    const factor = parseNumber(typed.replace(/\s*(?:x|×|times)$/, ''));
    if (isRefusal(factor)) return again(factor);
    if (factor >= 1 && factor <= MOST) return factor;
    return new Refusal('relief-out-of-range', say`I expected a relief from 1 (smooth) to ${MOST}, and got “${text}”.`, {
      example: '1.3',
    });
  }
  const word = typed.split(/\s+/).find((each) => TEXTURES.has(each)) ?? nearest(typed, [...TEXTURES.keys()])[0];
  const factor = word === undefined ? undefined : TEXTURES.get(word);
  if (factor !== undefined) return factor;
  return new Refusal(
    'relief-unreadable',
    say`I expected smooth, skin, wood, folds, deep or fur, or a number from 1 to ${MOST}, and got “${text}”.`,
    { example: 'folds' },
  );
}

const again = (refusal: Refusal) => new Refusal(refusal.code, refusal.message, { example: '1.3' });

/**
 * How much of its excess a texture still has under each of so many coats: all of it under the first, half under the second,
 * none under later ones, since the coats fill it. Our rule: common practice, no source.
 */
export const reliefShares = (coats: number): number[] =>
  Array.from({ length: coats }, (_, index) => (index === 0 ? 1 : index === 1 ? 0.5 : 0));
