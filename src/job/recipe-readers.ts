import type { BlockRule, LayerRule } from '../trade/cover/skin.ts';
import { NUMBER, parseNumber, tidy } from '../trade/measures/number.ts';
import { parseDuration, parseLength } from '../trade/measures/quantity.ts';
import { named, nearest } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { RecipeWait } from './recipe.ts';

/** What people type of a step, read into what a recipe keeps. Each refusal's example is a value that would do. */

const BARE = new RegExp(`^${NUMBER}$`);

/** A time as `parseDuration` reads it; what lacks its unit was meant in minutes. */
export function parseHands(text: string): number | Refusal {
  const read = parseDuration(text);
  const typed = tidy(text);
  if (!isRefusal(read) || !BARE.test(typed) || isRefusal(parseNumber(typed))) return read;
  return new Refusal(read.code, read.message, { example: `${typed} min` });
}

const WAIT_WORDS: Readonly<Record<'recoat' | 'cure' | 'none', readonly string[]>> = {
  recoat: ['recoat', 're-coat', 'next coat', 'tacky'],
  cure: ['cure', 'cured', 'curing', 'full cure'],
  none: ['none', 'no', 'nothing', 'no wait', 'at once', '0'],
};

const waitUnreadable = (text: string) =>
  new Refusal(
    'wait-unreadable',
    say`I expected recoat, cure, none, a time such as 15 min, or one to another such as 15 min to 4 h, and got “${text}”.`,
    { example: '15 min to 4 h' },
  );

/**
 * What must pass before the next step: "recoat", "cure", "none", "15 min", "15 min to 4 h", "15-20 min".
 * Refusals: `wait-unreadable`, `wait-backwards`, `wait-zero`, and those of `parseDuration`.
 */
export function parseWait(text: string): RecipeWait | Refusal {
  const typed = tidy(text.replace(/—/g, '-').replace(/…|\.{2,}/g, ' to ')).replace(/^(?:wait|from|at least)\s+(?=\S)/i, '');
  for (const [kind, words] of Object.entries(WAIT_WORDS))
    if (named(typed, words) !== undefined) return { kind: kind as keyof typeof WAIT_WORDS };
  const whole = parseHands(typed);
  if (!isRefusal(whole)) return whole === 0 ? { kind: 'none' } : fixed(whole, null);
  const [, first, second] = /^(.+?)\s*(?:\b(?:to|until|till|and)\b|-)\s*(.+)$/i.exec(typed) ?? [];
  if (first === undefined || second === undefined)
    return slipOf(text, typed) ?? (/\d/.test(typed) ? whole : waitUnreadable(text));
  return between(text, withUnitOf(first, second), withUnitOf(second, first), BARE.test(second));
}

const isRight = (wait: string): boolean => !isRefusal(parseWait(wait));

const fixed = (fromMinutes: number, untilMinutes: number | null): RecipeWait => ({ kind: 'fixed', fromMinutes, untilMinutes });

function slipOf(text: string, typed: string): Refusal | undefined {
  const [meant] = /\d/.test(typed) ? [] : nearest(typed, Object.keys(WAIT_WORDS), 1);
  if (meant === undefined) return undefined;
  return new Refusal('wait-unreadable', say`I do not know the wait “${text}”: did you mean ${plain(meant)}?`, { example: meant });
}

/** "15" beside "20 min" is in minutes as well. */
const withUnitOf = (time: string, other: string): string => {
  const [unit = ''] = /\p{L}+/u.exec(other) ?? [];
  return BARE.test(time) ? `${time} ${unit}`.trim() : time;
};

/** `unitLent`: the second time was typed without a unit, and has that of the first. */
function between(text: string, first: string, second: string, unitLent: boolean): RecipeWait | Refusal {
  const from = parseHands(first);
  const until = parseHands(second);
  if (isRefusal(from) || isRefusal(until)) {
    const refusal = isRefusal(from) ? from : (until as Refusal);
    if (!/\d/.test(first) || !/\d/.test(second)) return waitUnreadable(text);
    const [one, other] = [from, until].map((each, index) =>
      isRefusal(each) ? (each.example ?? '15 min') : index === 0 ? first : second,
    );
    const example = `${one} to ${other}`;
    return new Refusal(refusal.code, refusal.message, { example: isRefusal(parseWait(example)) ? '15 min to 4 h' : example });
  }
  if (from === 0 && until > 0)
    return new Refusal('wait-zero', say`I expected a wait of at least a minute before it opens, or none, and got “${text}”.`, {
      example: `1 min to ${second}`,
    });
  if (until > from) return fixed(from, until);
  const inHours = `${first} to ${/^[\d.,]+/.exec(second)?.[0]} h`;
  const example = unitLent && isRight(inHours) ? inHours : from > until && until > 0 ? `${second} to ${first}` : '15 min to 4 h';
  return new Refusal(
    'wait-backwards',
    say`I expected the longer time second: open from the first on, and too late after the second. I got “${text}”.`,
    { example },
  );
}

/** Thicker layers, and more times the usual coat, than anybody lays in one step. */
const MOST_MILLIMETRES = 1000;
const MOST_TIMES = 20;

const TIMES = new RegExp(`^(?:[x×*] ?)?(${NUMBER}) ?(?:(?:[x×*]|times)(?: the)?(?: usual)?(?: coat)?)?$`, 'i');

/**
 * How thick a layer a step adds: "0.8 mm", "0.7 x" (times the material's usual coat), "70 %", "block 12 mm", "none".
 * Refusals: `thickness-unreadable`, `unit-missing`, `thickness-too-much`, and those of `parseLength`.
 */
export function parseThickness(text: string): LayerRule | BlockRule | 'none' | Refusal {
  const typed = tidy(text);
  if (named(typed, ['none', 'no', 'nothing', '0', '0 mm']) !== undefined) return 'none';
  const block = /^(?:block|wall)\b[ :]*(.+)$|^(.+?) (?:block|wall)$/i.exec(typed);
  if (block) {
    const wall = parseLength(block[1] ?? block[2] ?? '');
    return isRefusal(wall)
      ? inBlock(wall)
      : wall > MOST_MILLIMETRES
        ? tooMuch(text, 'block 12 mm')
        : { blockWallMillimetres: wall };
  }
  const times = TIMES.exec(typed) ?? new RegExp(`^(${NUMBER}) ?%$`).exec(typed);
  if (times) return timesUsual(text, typed, times[1] ?? '');
  const millimetres = parseLength(typed);
  if (isRefusal(millimetres))
    return /\d/.test(typed)
      ? millimetres
      : new Refusal(
          'thickness-unreadable',
          say`I expected a thickness such as 0.8 mm, or times the usual coat such as 0.7 x, or none, and got “${text}”.`,
          { example: '0.7 x' },
        );
  return millimetres > MOST_MILLIMETRES ? tooMuch(text, '0.8 mm') : { millimetres };
}

const inBlock = ({ code, message, example }: Refusal) => new Refusal(code, message, { example: `block ${example ?? '12 mm'}` });

const tooMuch = (text: string, example: string) =>
  new Refusal('thickness-too-much', say`I expected less than anybody lays at once, and got “${text}”.`, { example });

function timesUsual(text: string, typed: string, number: string): LayerRule | Refusal {
  const read = parseNumber(number);
  if (isRefusal(read)) return new Refusal(read.code, read.message, { example: `${read.example ?? '0.7'} x` });
  if (typed === number)
    return new Refusal(
      'unit-missing',
      say`Which is it: ${number} mm, or ${number} times the usual coat (${number} x)? I got “${text}”.`,
      {
        example: read > 0 && read <= MOST_TIMES ? `${number} mm` : '0.8 mm',
      },
    );
  const timesUsualCoat = typed.endsWith('%') ? Number((read / 100).toPrecision(12)) : read;
  if (timesUsualCoat > 0 && timesUsualCoat <= MOST_TIMES) return { timesUsualCoat };
  return tooMuch(text, '0.7 x');
}
