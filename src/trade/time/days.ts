import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say, type Text } from '../../words/text.ts';
import { DAY, dateAt, isoDate } from './calendar.ts';
import { type Day, firstOf, inMonthOf, lastOf, saidDay, slipOf } from './day.ts';

/** Nobody closes for longer; it is a slip. */
const MOST_DAYS = 100;
/** Two years. */
const FARTHEST_DAYS = 731;
const EXAMPLE = '24 Dec to 26 Dec, tomorrow';

const no = (code: string, message: Text, example = EXAMPLE) => new Refusal(code, message, { example });

/** A day, or the number of one whose month stands beside it. */
type Named = Day | number;
/** From one day to another, or one alone, and how it was typed. */
type Piece = { readonly typed: string; readonly ends: readonly Named[] };

const SEPARATOR = /\s*(?:\.{2,3}|…|–|—|-|\b(?:to|until|till|through|bis)\b)\s*/gi;

function namedIn(typed: string, today: number): Named | Refusal | null {
  const bare = /^(\d{1,2})(?:st|nd|rd|th|\.)?$/i.exec(typed.trim());
  return bare ? Number(bare[1]) : saidDay(typed, today);
}

/** "24 Dec", or the first way to take it apart in which both ends are days: "24.-26.12.", "2026-12-24 to 2026-12-26". */
function pieceOf(typed: string, today: number): Piece | Refusal {
  const whole = namedIn(typed, today);
  if (isRefusal(whole)) return whole;
  if (whole !== null) return { typed, ends: [whole] };
  for (const separator of typed.matchAll(SEPARATOR)) {
    const ends = [typed.slice(0, separator.index), typed.slice(separator.index + separator[0].length)].map((end) =>
      namedIn(end, today),
    );
    const wrong = ends.find(isRefusal);
    const right = ends.filter((end): end is Named => end !== null && !isRefusal(end));
    if (right.length === 2) return { typed, ends: right };
    if (wrong && !ends.includes(null)) return wrong;
  }
  const meant = slipOf(typed);
  const hint = meant === undefined ? '' : `; did you mean ${meant}?`;
  return no(
    'not-a-day',
    say`Expected days, such as 24 Dec, 2026-12-24 or tomorrow, got “${typed}”${plain(hint)}`,
    meant ?? EXAMPLE,
  );
}

/** Numbers alone take their month from what follows, "24 and 25 Dec", or else from what comes before, "Dec 24, 25". */
function withMonths(pieces: readonly Piece[], today: number): (Piece & { ends: readonly Day[] })[] | Refusal {
  const all = pieces.flatMap(({ ends }) => ends);
  let index = -1;
  const complete: (Piece & { ends: readonly Day[] })[] = [];
  for (const { typed, ends } of pieces) {
    const days: Day[] = [];
    for (const end of ends) {
      index += 1;
      const isDay = (each: Named): each is Day => typeof each !== 'number';
      const beside = all.slice(index).find(isDay) ?? all.slice(0, index).findLast(isDay);
      const day = isDay(end) ? end : beside && inMonthOf(end, beside, today);
      if (day === undefined) return no('not-a-day', say`Expected the month, too, got “${typed}”`);
      if (isRefusal(day)) return day;
      days.push(day);
    }
    complete.push({ typed, ends: days });
  }
  return complete;
}

/** The first and the last date. Of two without a year, the last is the one that comes: the holidays may have begun. */
function rangeOf([first, last]: readonly Day[], today: number): [number, number] {
  if (first === undefined) return [Number.NaN, Number.NaN];
  if (last === undefined) return [firstOf(first, today), firstOf(first, today)];
  if (first.as !== 'yearly') return [firstOf(first, today), firstOf(last, firstOf(first, today))];
  const until = firstOf(last, today);
  return [lastOf(first, until), until];
}

/**
 * Reads days from today on, separated by commas or `and`, also from one `to` another, into ISO dates, in order, each once.
 * See `saidDay` for the forms of one day. `daysBack`: so many days before today are days, too. Refusals: its own, `not-a-day`, `bad-range`, `past-day`, `too-far`.
 */
export function parseDates(text: string, now: number, zone: string, daysBack = 0): string[] | Refusal {
  const today = dateAt(now, zone);
  const earliest = today - daysBack;
  const words = text.replace(/\b([a-z]{3,}\.?\s+\d{1,2}(?:st|nd|rd|th)?),\s*(\d{4})\b(?![-/.])/gi, '$1 $2');
  const pieces: Piece[] = [];
  for (const typed of words.split(/\s*[,;+&]\s*|\s+and\s+/i).filter((each) => each.trim() !== '')) {
    const piece = pieceOf(typed, today);
    if (isRefusal(piece)) return piece;
    pieces.push(piece);
  }
  const complete = withMonths(pieces, today);
  if (isRefusal(complete)) return complete;
  const dates = new Set<number>();
  for (const { typed, ends } of complete) {
    const [first, last] = rangeOf(ends, today);
    if (first > last || last - first >= MOST_DAYS)
      return no('bad-range', say`Expected a first and a last day, at most ${MOST_DAYS} days in all, got “${typed}”`);
    if (last < earliest) return no('past-day', say`Expected days from today on, got “${typed}”`);
    if (last > today + FARTHEST_DAYS) return no('too-far', say`Expected days within two years, got “${typed}”`);
    for (let date = Math.max(first, earliest); date <= last; date += 1) dates.add(date);
  }
  if (dates.size === 0) return no('not-a-day', say`Expected days, got nothing`);
  return [...dates].sort((a, b) => a - b).map(isoDate);
}

/** Reads "2026-12-24", or "2026-12-24..2026-12-26" as all from one to the other, into ISO dates, whenever they are. */
export function isoDates(text: string): string[] | Refusal {
  const ends = text.split('..').map((end) => (/^\s*\d{4}-\d{2}-\d{2}\s*$/.test(end) ? saidDay(end, 0) : null));
  const wrong = ends.find(isRefusal);
  if (wrong) return wrong;
  const [first, last = first] = ends.map((end) => (end && !isRefusal(end) ? firstOf(end, 0) : Number.NaN));
  if (first === undefined || last === undefined || ends.length > 2 || !(first <= last && last - first < MOST_DAYS))
    return no(
      'bad-range',
      say`expected an ISO date, or a first and a last one, at most ${MOST_DAYS} days in all, got “${text}”`,
      '2026-12-24..2026-12-26',
    );
  return Array.from({ length: last - first + 1 }, (_, index) => isoDate(first + index));
}

/** The first and the last of each run of days without a gap; `dates` are ISO dates in order. */
export function runsOf(dates: readonly string[]): [string, string][] {
  const runs: [string, string][] = [];
  for (const date of dates) {
    const last = runs.at(-1);
    if (last && Date.parse(date) - Date.parse(last[1]) === DAY) last[1] = date;
    else runs.push([date, date]);
  }
  return runs;
}

/** The same dates as they would be typed. */
export const datesText = (dates: readonly string[]): string =>
  runsOf(dates)
    .map(([first, last]) => (first === last ? first : `${first} to ${last}`))
    .join(', ');
