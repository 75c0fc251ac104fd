import { nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { DAY, weekdayOf } from './calendar.ts';
import { WEEKDAYS, weekdayNamed } from './calendar-text.ts';

/** Dates are counted in days since 1970. */

/** A day as people name it: itself, or one that comes again and again. */
export type Day =
  | { readonly as: 'date'; readonly date: number }
  | { readonly as: 'weekday'; readonly weekday: number }
  | { readonly as: 'yearly'; readonly month: number; readonly day: number };

const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];
/** English, and as German workshops say it. */
const NEAR: Readonly<Record<string, number>> = {
  yesterday: -1,
  gestern: -1,
  today: 0,
  tonight: 0,
  heute: 0,
  tomorrow: 1,
  morgen: 1,
  'day after tomorrow': 2,
  übermorgen: 2,
  uebermorgen: 2,
};
const SHORTEST_MONTH_NAME = 3;
/** A year in which every day of every month is there. */
const LEAP_YEAR = 2024;

/** As German workshops write them, where they are not the beginning of the English ones. */
const GERMAN_MONTHS = [
  'januar',
  'februar',
  'märz',
  'april',
  'mai',
  'juni',
  'juli',
  'august',
  'september',
  'oktober',
  'november',
  'dezember',
];

function monthNamed(word: string): number {
  const plainly = word.replace('ä', 'a').replace('ae', 'a');
  const isIt = (month: string) => month.startsWith(word) || month.replace('ä', 'a').startsWith(plainly);
  if (word.length < SHORTEST_MONTH_NAME) return 0;
  return MONTHS.findIndex((month) => month.startsWith(word)) + 1 || GERMAN_MONTHS.findIndex(isIt) + 1;
}
const shortDay = (month: number, day: number) =>
  `${day} ${(MONTHS[month - 1] ?? '').slice(0, 3).replace(/^./, (letter) => letter.toUpperCase())}`;

/** The date, or null where no calendar has it. */
function dateOf(year: number, month: number, day: number): number | null {
  const at = new Date(Date.UTC(year, month - 1, day));
  return at.getUTCMonth() === month - 1 && at.getUTCDate() === day ? at.getTime() / DAY : null;
}

/** Such a day in the month of another, as the 24 in "24 and 25 Dec". */
export function inMonthOf(day: number, other: Day, today: number): Day | Refusal {
  const at = new Date(firstOf(other, today) * DAY);
  const month = other.as === 'yearly' ? other.month : at.getUTCMonth() + 1;
  return dayOf(shortDay(month, day), day, month, other.as === 'yearly' ? undefined : String(at.getUTCFullYear()));
}

/** "24.12." and "24.12.2026": `year` is undefined where it was left out. */
function dayOf(typed: string, day: number, month: number, year: string | undefined): Day | Refusal {
  const full = year === undefined ? LEAP_YEAR : Number(year) + (year.length === 2 ? 2000 : 0);
  const date = dateOf(full, month, day);
  if (date === null) return new Refusal('no-such-day', say`No calendar has “${typed}”.`, { example: 'tomorrow' });
  return year === undefined ? { as: 'yearly', month, day } : { as: 'date', date };
}

/** Some write the day first, others the month: where both could be meant, nobody guesses; the nearer to come is named first. */
function slashed(typed: string, one: number, other: number, year: string | undefined, today: number): Day | Refusal {
  const readings = [dayOf(typed, one, other, year), dayOf(typed, other, one, year)] as const;
  const [first, second] = readings;
  if (isRefusal(first) || isRefusal(second) || one === other) return isRefusal(first) ? second : first;
  const isPast = (day: Day) => firstOf(day, today) < today;
  const [near = '', far = ''] = [
    { day: first, text: shortDay(other, one) },
    { day: second, text: shortDay(one, other) },
  ]
    .sort((a, b) => Number(isPast(a.day)) - Number(isPast(b.day)) || firstOf(a.day, today) - firstOf(b.day, today))
    .map(({ text }) => text);
  return new Refusal('two-readings', say`“${typed}” may be ${plain(near)} or ${plain(far)}: say which.`, {
    example: year === undefined ? near : `${near} ${year.length === 2 ? `20${year}` : year}`,
  });
}

const ORDINAL = '(?<day>\\d{1,2})(?:st|nd|rd|th|\\.)?';
const YEAR = '(?:,?\\s+(?<year>\\d{4}))?';
const DAY_AND_MONTH = [
  new RegExp(`^${ORDINAL}\\s*(?:of\\s+)?(?<month>[a-zä]{3,})\\.?${YEAR}$`),
  new RegExp(`^(?<month>[a-zä]{3,})\\.?\\s*${ORDINAL}${YEAR}$`),
];

function inLetters(typed: string, words: string): Day | Refusal | null {
  const found = DAY_AND_MONTH.map((form) => form.exec(words)?.groups).find((groups) => groups !== undefined);
  if (!found) return null;
  const name = found['month'] ?? '';
  const month = monthNamed(name);
  if (month > 0) return dayOf(typed, Number(found['day']), month, found['year']);
  const meant = nearest(name, [...MONTHS, ...MONTHS.map((month) => month.slice(0, SHORTEST_MONTH_NAME))], 1)[0];
  if (meant === undefined) return null;
  const example = [shortDay(monthNamed(meant), Number(found['day'])), ...(found['year'] ? [found['year']] : [])].join(' ');
  const right = isRefusal(inLetters(example, example.toLowerCase())) ? 'tomorrow' : example;
  return new Refusal('not-a-day', say`Expected a month, got “${name}”; did you mean ${plain(meant)}?`, { example: right });
}

function inDigits(typed: string, words: string, today: number): Day | Refusal | null {
  const iso = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/.exec(words);
  if (iso) return dayOf(typed, Number(iso[4]), Number(iso[3]), iso[1]);
  const dotted = /^(\d{1,2})\.\s*(\d{1,2})(?:\.\s*(\d{4}|\d{2})?)?$/.exec(words);
  if (dotted) return dayOf(typed, Number(dotted[1]), Number(dotted[2]), dotted[3]);
  const other = /^(\d{1,2})\/(\d{1,2})(?:\/(\d{4}|\d{2}))?$/.exec(words) ?? /^(\d{1,2})-(\d{1,2})-(\d{4})$/.exec(words);
  return other && slashed(typed, Number(other[1]), Number(other[2]), other[3], today);
}

/** "fri" is the one that comes; "next fri" the one of the week after this, which begins on Monday. */
function inTheWeek(words: string, today: number): Day | null {
  const found = /^(?:(next)|this|coming|on)?\s*([a-z]{2,}\.?)$/.exec(words);
  const weekday = weekdayNamed(found?.[2] ?? '');
  if (!found || weekday === 0) return null;
  return found[1] ? { as: 'date', date: today - weekdayOf(today) + 7 + weekday } : { as: 'weekday', weekday };
}

/**
 * The day that `typed` names: "2026-12-24", "24 Dec", "Dec 24th 2026", "24.12.", "Thu 24 Dec", "tomorrow", "fri", "next fri".
 * Null where it is nothing of the kind. Refusals: `two-readings`, `no-such-day`, `other-weekday`, `not-a-day`.
 */
export function saidDay(typed: string, today: number): Day | Refusal | null {
  const words = typed.trim().toLowerCase().replace(/\s+/g, ' ').replace(/^the /, '');
  const near = Object.hasOwn(NEAR, words) ? NEAR[words] : undefined;
  if (near !== undefined) return { as: 'date', date: today + near };
  const plainly = inTheWeek(words, today) ?? inLetters(typed, words) ?? inDigits(typed, words, today);
  if (plainly !== null) return plainly;
  const [, name = '', rest = ''] = /^([a-z]{2,})\.?,?\s+(.*\d.*)$/.exec(words) ?? [];
  const said = weekdayNamed(name) > 0 ? saidDay(rest, today) : null;
  if (said === null || isRefusal(said)) return said;
  return onWeekday(typed, said, weekdayNamed(name), today);
}

/** The day that a word looks like a slip of. */
export const slipOf = (word: string): string | undefined =>
  nearest(word.trim().toLowerCase(), ['today', 'tomorrow', ...WEEKDAYS], 1)[0];

/** The same day, if it falls on that weekday. */
function onWeekday(typed: string, said: Day, weekday: number, today: number): Day | Refusal {
  const date = firstOf(said, today);
  const real = weekdayOf(date);
  if (real === weekday) return { as: 'date', date };
  return new Refusal('other-weekday', say`That day is a ${plain(nameOf(real))}, got “${typed}”.`, {
    example: typed.trim().replace(/^\S+\s+/, ''),
  });
}

const nameOf = (weekday: number) => (WEEKDAYS[weekday - 1] ?? '').replace(/^./, (letter) => letter.toUpperCase());

/** The first date on or after `from` that is meant; a date is itself, wherever it lies. */
export function firstOf(said: Day, from: number): number {
  if (said.as === 'date') return said.date;
  if (said.as === 'weekday') return from + ((said.weekday - weekdayOf(from) + 7) % 7);
  return inYears(said, from, 1);
}

/** The last date on or before `until` that is meant. */
export const lastOf = (said: Day, until: number): number =>
  said.as === 'yearly' ? inYears(said, until, -1) : firstOf(said, until);

/** 29 February comes every fourth year, or every eighth. */
const MOST_YEARS_BETWEEN = 8;

function inYears({ month, day }: { month: number; day: number }, from: number, step: 1 | -1): number {
  const year = new Date(from * DAY).getUTCFullYear();
  for (let years = 0; years <= MOST_YEARS_BETWEEN; years += 1) {
    const date = dateOf(year + step * years, month, day);
    if (date !== null && (date - from) * step >= 0) return date;
  }
  return Number.NaN;
}
