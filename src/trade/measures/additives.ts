import { isRefusal, Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { NUMBER, parseNumber, tidy } from './number.ts';

/** Something to stir in, as asked for. `of`: the part that the percentage refers to, as typed, where one was named. */
export interface AdditiveAsk {
  readonly name: string;
  /** Percent, or parts per hundred, which is the same number. */
  readonly percent: number;
  readonly basis: 'percent' | 'phr';
  readonly of: string | null;
}

const EXAMPLE = { example: '2 % pigment of B, 3 phr thickener' };
const SHARE = `(${NUMBER}) ?(%|percent(?!\\p{L})|phr(?!\\p{L}))`;
const NAME = '(\\p{L}.*?)';
const OF = '(?: (?:of|in) (?:part )?(.+))?';
const SHARE_FIRST = new RegExp(`^${SHARE} ?(?:of )?${NAME}${OF}$`, 'iu');
const NAME_FIRST = new RegExp(`^${NAME} ${SHARE}${OF}$`, 'iu');

/**
 * "2% pigment of B, 3 phr thickener", "catalyst 1,5 %": an empty text is no additives.
 *
 * Refusals: `additive-unreadable`, `additive-zero`, and those of `parseNumber`.
 */
export function parseAdditives(text: string): AdditiveAsk[] | Refusal {
  const asks: AdditiveAsk[] = [];
  for (const item of tidy(text).split(/(?<!\d),|,(?!\d)|[;+&]| and (?=[\d.])/)) {
    if (item.trim() === '') continue;
    const ask = additive(item.trim());
    if (isRefusal(ask)) return ask;
    asks.push(ask);
  }
  return asks;
}

function additive(text: string): AdditiveAsk | Refusal {
  const front = SHARE_FIRST.exec(text);
  const back = front ? null : NAME_FIRST.exec(text);
  const [number, unit, name, of] = front ? front.slice(1) : back ? [back[2], back[3], back[1], back[4]] : [];
  if (number === undefined || unit === undefined || name === undefined) {
    return new Refusal('additive-unreadable', say`I expected a percentage and what it is of, and got “${text}”.`, EXAMPLE);
  }
  const percent = parseNumber(number);
  if (isRefusal(percent)) return percent;
  if (percent === 0) return new Refusal('additive-zero', say`I expected more than zero of ${name}, and got “${text}”.`, EXAMPLE);
  return { name, percent, basis: unit.toLowerCase() === 'phr' ? 'phr' : 'percent', of: of ?? null };
}
