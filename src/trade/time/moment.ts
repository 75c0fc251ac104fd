import { DateTime } from 'luxon';
import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import { DAY, HOUR, MINUTE } from './calendar.ts';

const EXAMPLE = 'at:10m ago';
/** Nobody logs what happened longer ago; it is a slip. */
const LONGEST_AGO = 366 * DAY;
const UNITS: Readonly<Record<string, number>> = { s: 1000, m: MINUTE, h: HOUR, d: DAY };

/** "2h30m", "1 h 30 min" or "90 minutes" in milliseconds; null if it is nothing of the kind. */
export function spanOf(text: string): number | null {
  let total = 0;
  let rest = text.trim().toLowerCase();
  if (rest === '') return null;
  while (rest !== '') {
    const piece =
      /^(\d+(?:[.,]\d+)?)\s*(s(?:ec(?:ond)?s?)?|m(?:in(?:ute)?s?)?|h(?:rs?|ours?)?|d(?:ays?)?)(?![a-z])\s*(?:,|and)?\s*/.exec(
        rest.replace(/^(\d+(?:[.,]\d+)?\s*h)(\d)/, '$1 $2').replace(/^(\d+(?:[.,]\d+)?\s*d)(\d)/, '$1 $2'),
      );
    if (piece === null) {
      // "1h30": what follows the hours without a unit is minutes.
      const bare = /^(\d{1,2})$/.exec(rest);
      if (bare === null || total === 0) return null;
      return total + Number(bare[1]) * MINUTE;
    }
    total += Number((piece[1] as string).replace(',', '.')) * (UNITS[(piece[2] as string)[0] as string] as number);
    rest = rest
      .replace(/^(\d+(?:[.,]\d+)?\s*h)(\d)/, '$1 $2')
      .replace(/^(\d+(?:[.,]\d+)?\s*d)(\d)/, '$1 $2')
      .slice(piece[0].length);
  }
  return total;
}

/** "14:05", "7.30", "14h05" or "2 pm" in minutes after midnight; null if it is nothing of the kind. */
export function wallClockOf(text: string): number | null {
  const found = /^(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?$/.exec(text.trim().toLowerCase());
  if (found === null || (found[2] === undefined && found[3] === undefined)) return null;
  const hour = Number(found[1]);
  const minute = Number(found[2] ?? 0);
  if (minute > 59 || hour > 23 || (found[3] !== undefined && (hour < 1 || hour > 12))) return null;
  return ((found[3] === undefined ? hour : (hour % 12) + (found[3] === 'pm' ? 12 : 0)) * 60 + minute) as number;
}

/**
 * When something happened, as people log it: "10m ago", "14:05" (the last time that the clock in `zone` showed it),
 * "yesterday 22:10", an ISO date with time, or "now". Refused: what cannot be read, and what has not happened yet.
 */
export function momentOf(text: string, now: number, zone: string): number | Refusal {
  const typed = text.trim();
  const words = inEnglish(typed.toLowerCase());
  const at = words === 'now' ? now : (agoOf(words, now) ?? clockOf(words, now, zone) ?? dateOf(typed, now, zone));
  if (at === null)
    return new Refusal(
      'bad-time',
      say`Expected a time, such as 10m ago, 14:05, yesterday 22:10 or 2026-03-02 14:05, got “${typed}”.`,
      { example: EXAMPLE },
    );
  if (!(at > now - LONGEST_AGO))
    return new Refusal('too-long-ago', say`Expected a time within the last year, got “${typed}”.`, { example: EXAMPLE });
  if (at > now + MINUTE)
    return new Refusal('in-future', say`Expected a time that has passed, got “${typed}”, which is still to come.`, {
      example: EXAMPLE,
    });
  return Math.min(at, now);
}

/** As German workshops say it: "heute 14.05 Uhr", "vor 10 min". */
const inEnglish = (words: string): string =>
  words
    .replace(/^jetzt$/, 'now')
    .replace(/^heute\b/, 'today')
    .replace(/^gestern\b/, 'yesterday')
    .replace(/^vor (.+)$/, '$1 ago')
    .replace(/(?<=^| )(\d{1,2}) ?uhr$/, '$1:00')
    .replace(/ ?uhr$/, '');

function agoOf(words: string, now: number): number | null {
  const found = /^(?:-\s*(?<minus>.+)|(?<ago>.+?)\s+ago)$/.exec(words);
  const span = found ? spanOf(found.groups?.['minus'] ?? found.groups?.['ago'] ?? '') : null;
  return span === null ? null : now - span;
}

/** A clock time alone means the last one: at half past midnight, 23:50 is ten to midnight, not tonight's. */
function clockOf(words: string, now: number, zone: string): number | null {
  const found = /^(?:(today|yesterday)\s+)?(.+)$/.exec(words);
  const minute = found ? wallClockOf(found[2] as string) : null;
  if (found === null || minute === null) return null;
  const today = DateTime.fromMillis(now, { zone }).startOf('day');
  const on = (day: DateTime) => lastOf(day.set({ hour: Math.floor(minute / 60), minute: minute % 60 }), now);
  if (found[1] === 'yesterday') return on(today.minus({ days: 1 }));
  if (found[1] === 'today' || on(today) <= now + MINUTE) return on(today);
  const before = on(today.minus({ days: 1 }));
  return now - before <= 12 * HOUR ? before : on(today);
}

/** Where clocks are set back an hour comes twice: the last one that has passed is meant, or else the first. */
function lastOf(time: DateTime, now: number): number {
  const times = time.getPossibleOffsets().map((each) => each.toMillis());
  const past = times.filter((each) => each <= now + MINUTE);
  return past.length > 0 ? Math.max(...past) : Math.min(...times);
}

/** A date with its own offset leaves nothing open. */
function dateOf(typed: string, now: number, zone: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}[T ]\d{1,2}:\d{2}/i.test(typed)) return null;
  const date = DateTime.fromISO(typed.replace(' ', 'T'), { zone });
  if (!date.isValid) return null;
  return /(?:z|[+-]\d{2}:?\d{0,2})$/i.test(typed.slice(10)) ? date.toMillis() : lastOf(date, now);
}
