import { DateTime } from 'luxon';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';
import { DAY, dateAt, isoDate, MINUTE } from './calendar.ts';
import { firstOf, saidDay, slipOf } from './day.ts';
import { spanOf, wallClockOf } from './moment.ts';

const FARTHEST_DAYS = 366;
const EXAMPLE = 'tomorrow 7:00';
const NOW = ['now', 'jetzt'];
const NOON = 12 * 60;
/** What an example names where no time was typed. */
const USUAL_MINUTE = 16 * 60;
const DAY_MINUTES = 24 * 60;
const WEEK_DAYS = 7;

const no = (code: string, message: Text, example = EXAMPLE) => new Refusal(code, message, { example });
const clockText = (minute: number) => `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;

/**
 * A moment that is still to come, as people plan: "now", "in 2h", "14:05" (the next time that the clock in `zone` shows it),
 * "tomorrow 7:00", "tomorrow 7", "fri 16:00", "next fri 16:00", "6 Mar 16:00", "6.3. 16:00", "6. März 16:00", "2026-03-06 16:00", "thu 16h", "wed 1600". Where clocks are set back
 * and it comes twice, the first that is still to come; where a spring night leaves it out, as much later. A time of day or a
 * weekday that leaves its date open is the first later than `after`, such as when the work begins. Milliseconds since the
 * epoch, within the next 366 days. Refusals: `bad-time`, `which-time`, `in-past`, `too-far`, and those of `saidDay`.
 */
export function comingMoment(text: string, now: number, zone: string, after = now): number | Refusal {
  const typed = text.trim();
  const words = typed.replace(/\s+/g, ' ').replace(/^(?:at|by|on|from|um|bis|ab) /i, '');
  const small = words.toLowerCase();
  if (NOW.includes(small)) return now;
  const moment =
    spanFrom(small, now) ?? withOffset(small) ?? onTheClock(typed, words, { now, zone, after: Math.max(after, now) });
  if (isRefusal(moment)) return moment;
  if (moment < now) {
    const { hour, minute } = DateTime.fromMillis(moment, { zone });
    const example = `tomorrow ${clockText(hour * 60 + minute)}`;
    return no('in-past', say`Expected a time that is still to come, got “${typed}”, which has passed.`, example);
  }
  if (!(moment <= now + FARTHEST_DAYS * DAY)) return no('too-far', say`Expected a time within the next year, got “${typed}”.`);
  return moment;
}

/** "in 2h", "+90 min", "2 days from now", "10m ago"; "16h" alone is no span, as it may be a time of day. */
function spanFrom(words: string, now: number): number | null {
  const found = /^(?:in |\+ ?)(?<span>.+)$|^(?<past>.+) ago$|^(?<far>.+) from now$/.exec(words)?.groups;
  const said = found ? (found['span'] ?? found['past'] ?? found['far'] ?? '') : /^\d{1,2} ?h$/.test(words) ? '' : words;
  const span = wallClockOf(words) === null ? spanOf(said) : null;
  return span === null ? null : now + (found?.['past'] === undefined ? span : -span);
}

/** A date with its own offset leaves nothing open; `words` in small letters. */
export function withOffset(words: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}[t ]\d{1,2}:\d{2}\S*?(?:z|[+-]\d{2}(?::?\d{2})?)$/.test(words)) return null;
  const date = DateTime.fromISO(words.replace(' ', 'T').toUpperCase());
  return date.isValid ? date.toMillis() : null;
}

const CLOCK = String.raw`(?:\d{1,2}[:.h]\d{2}(?: ?(?:am|pm|uhr|o.?clock))?|\d{1,2} ?(?:am|pm|uhr|o.?clock)|noon)`;
const DAY_THEN_CLOCK = new RegExp(`^(?:(?<day>.+?)(?:, ?| (?:(?:at|um) )?))?(?<clock>${CLOCK})$`, 'i');
const CLOCK_THEN_DAY = new RegExp(`^(?<clock>${CLOCK}),? (?:on )?(?<day>.+)$`, 'i');

/** Minutes after midnight; 24:00 is the end of a day. */
function minuteOf(clock: string): number | null {
  if (clock === 'noon') return NOON;
  if (/^24[:.h]00$/.test(clock)) return DAY_MINUTES;
  const plainly = clock.replace(/ ?(?:uhr|o.?clock)$/, '');
  return wallClockOf(/^\d{1,2}$/.test(plainly) ? `${plainly}:00` : plainly);
}

interface Sought {
  readonly now: number;
  readonly zone: string;
  /** An open date is the first later than this. */
  readonly after: number;
}

/** "16h" and "1600" behind a day are times of day, and so is "16" behind one that is said in letters: no span and no year stands there. */
const DAY_THEN_SHORT = /^(?<day>.+?),? (?:(?:at|um) )?(?:(?<hour>\d{1,2}) ?h|(?<alone>\d{1,2})|(?<four>\d{4}))$/i;

function spelledOut(words: string, today: number): string {
  const { day = '', hour, alone, four } = DAY_THEN_SHORT.exec(words)?.groups ?? {};
  const said = day === '' || (hour === undefined && /\d/.test(day)) ? null : saidDay(day, today);
  // "6 Mar", "März 6": the number is the day's; and nobody says "tonight 8" of the morning.
  if (said === null || isRefusal(said) || (alone !== undefined && day.toLowerCase() === 'tonight')) return words;
  // "Fri 6" may be the sixth.
  if (alone !== undefined && Number(isoDate(firstOf(said, today)).slice(-2)) === Number(alone)) return words;
  return four === undefined ? `${day} ${hour ?? alone}:00` : `${day} ${four.slice(0, 2)}:${four.slice(2)}`;
}

function onTheClock(typed: string, asTyped: string, sought: Sought): number | Refusal {
  const { now, zone, after } = sought;
  const words = spelledOut(asTyped, dateAt(now, zone));
  const today = dateAt(now, zone);
  const spaced = words.replace(/^(\d{4}-\d{2}-\d{2})t/i, '$1 ');
  const found = (DAY_THEN_CLOCK.exec(spaced) ?? CLOCK_THEN_DAY.exec(spaced))?.groups;
  const minute = found ? minuteOf((found['clock'] ?? '').toLowerCase()) : null;
  if (!found || minute === null) return withoutClock(typed, spaced, now, zone);
  const from = dateAt(after, zone);
  if (found['day'] === undefined) return nextOf([from, from + 1], minute, sought);
  const day = saidDay(found['day'], today);
  if (isRefusal(day)) {
    // Of two readings the nearer is offered, unless its time has passed.
    const later = nextOf([today], minute, sought) < now ? saidDay(found['day'], today + 1) : day;
    return again(isRefusal(later) ? later : day, minute);
  }
  if (day === null) return unreadable(typed, slipOf(found['day']), minute);
  const date = firstOf(day, day.as === 'weekday' ? from : today);
  const dates = day.as === 'weekday' ? [date, date + WEEK_DAYS] : [date];
  return nextOf(dates, minute, sought);
}

/** The first of these that is still to come, where this minute is now; or else the last. */
function nextOf(dates: readonly number[], minute: number, { now, zone, after }: Sought): number {
  const times = dates.flatMap((date) => instantsOn(date, minute, zone));
  const next = times.find((each) => (after > now ? each > after : each + MINUTE > now));
  return next === undefined ? (times.at(-1) ?? Number.NaN) : Math.max(next, now);
}

/** When a wall clock in `zone` shows it on that date: twice where clocks are set back. */
function instantsOn(date: number, minute: number, zone: string): number[] {
  const [whole, rest] = minute === DAY_MINUTES ? [date + 1, 0] : [date, minute];
  const midnight = DateTime.fromISO(isoDate(whole), { zone }).startOf('day');
  const shown = midnight.set({ hour: Math.floor(rest / 60), minute: rest % 60 });
  return shown
    .getPossibleOffsets()
    .map((each) => each.toMillis())
    .sort((a, b) => a - b);
}

/** A day without its time, or a number that may be either: asked for, with the line that was likely meant. */
function withoutClock(typed: string, words: string, now: number, zone: string): number | Refusal {
  const works = (example: string) => !isRefusal(comingMoment(example, now, zone));
  const hours = /^(\d{1,2}) ?h$/i.exec(words)?.[1];
  if (hours !== undefined) return no('which-time', say`Is “${typed}” hours from now, or a time of day?`, `in ${hours}h`);
  const short = DAY_THEN_SHORT.exec(words)?.groups ?? {};
  // "6 Mar 2026" ends in a year.
  const { day: before = '', hour, alone, four } = short['four'] !== undefined && /\d/.test(short['day'] ?? '') ? {} : short;
  const evening = before.toLowerCase() === 'tonight' && Number(alone) < 12 ? String(Number(alone) + 12) : alone;
  const shown = `${four?.slice(0, 2) ?? hour ?? evening ?? words}:${four?.slice(2) ?? '00'}`;
  const minute = wallClockOf(shown);
  const full = before === '' ? shown : `${before} ${shown}`;
  if (minute !== null && works(full)) return no('which-time', say`Expected a time such as 14:05, got “${typed}”.`, full);
  const day = saidDay(words, dateAt(now, zone));
  if (isRefusal(day)) return again(day, USUAL_MINUTE);
  if (day === null) return unreadable(typed, slipOf(minute === null ? words : before), minute ?? USUAL_MINUTE);
  const example = `${words} ${clockText(USUAL_MINUTE)}`;
  return no('which-time', say`At what time? Got “${typed}”.`, works(example) ? example : EXAMPLE);
}

/** The day’s refusal, with an example that has the time, too. */
const again = (refusal: Refusal, minute: number): Refusal =>
  no(refusal.code, refusal.message, `${refusal.example ?? 'tomorrow'} ${clockText(minute % DAY_MINUTES)}`);

/** `meant`: the day that it looks like a slip of, if any. */
function unreadable(typed: string, meant: string | undefined, minute: number): Refusal {
  const hint = meant === undefined ? '' : `; did you mean ${meant}?`;
  const message = say`Expected a time to come, such as 14:05, tomorrow 7:00, fri 16:00 or in 2h, got “${typed}”${plain(hint)}`;
  return no('bad-time', message, meant === undefined ? EXAMPLE : `${meant} ${clockText(minute % DAY_MINUTES)}`);
}
