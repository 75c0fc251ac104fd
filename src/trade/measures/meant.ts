import { distance } from 'fastest-levenshtein';
import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';

/** Shorter words than this are a slip of too many units. */
const LEAST_LETTERS = 3;

/** A number, a word that is no unit, and maybe more of it: "500 gramm of B". */
const AFTER_NUMBER = new RegExp(`^(${NUMBER}) ?(\\p{L}[^\\d]*[23]?)$`, 'iu');

/**
 * For a measure whose unit looks like a slip of one of `names`, "500 gramm", "3 milimeter": a refusal with that code, which
 * names the unit, and whose example has the same number. Undefined where no unit is near.
 */
export function meantUnit(text: string, names: readonly string[], code: string): Refusal | undefined {
  const [, number = '', rest = ''] = AFTER_NUMBER.exec(tidy(text)) ?? [];
  if (rest === '' || isRefusal(parseNumber(number))) return undefined;
  const long = names.filter((name) => name.length >= LEAST_LETTERS);
  const words = rest.split(' ');
  for (const typed of new Set([rest, words.slice(0, 2).join(' '), words[0] ?? ''])) {
    if (typed.length < LEAST_LETTERS || names.includes(typed.toLowerCase())) continue;
    const off = (name: string) => distance(name, typed.toLowerCase());
    const alike = (name: string) => Number(name.endsWith('s') === typed.toLowerCase().endsWith('s'));
    // Of the near ones really the nearest: "litr" is in "millilitre", but it is a litre that was meant.
    const [meant] = nearest(typed, long, long.length)
      .filter((name) => off(name) <= Math.max(1, Math.floor((typed.length + 1) / 4)))
      .sort((one, other) => off(one) - off(other) || alike(other) - alike(one) || long.indexOf(one) - long.indexOf(other));
    if (meant === undefined) continue;
    return new Refusal(code, say`I do not know the unit in “${text}”: did you mean ${plain(meant)}?`, {
      example: `${number} ${meant}${rest.slice(typed.length)}`,
    });
  }
  return undefined;
}
