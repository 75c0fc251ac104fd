import type { StudioEvent } from '../bench/studio-events.ts';
import { dayText } from '../cards/day-text.ts';
import { dateAt, isoDate } from '../trade/time/calendar.ts';
import { parseDates } from '../trade/time/days.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, line } from './examples.ts';

/** What days depend on: where, when, and who says so. */
export type At = Pick<Desk, 'studio' | 'now' | 'who'>;

export const stampOf = ({ now, who }: At) => ({ version: 1 as const, at: now, by: who });
export const today = ({ studio, now }: At): string => isoDate(dateAt(now, studio.zone));

/** ISO dates; `lineOf`: the line that an example would be; `daysBack`: so many days before today may be said, too. */
export function datesIn(
  { studio, now }: At,
  typed: string,
  lineOf: (example: string) => string,
  daysBack = 0,
): string[] | Refusal {
  const dates = parseDates(typed, now, studio.zone, daysBack);
  return isRefusal(dates) ? again(dates, { example: lineOf(dates.example ?? 'tomorrow') }) : dates;
}

type HolidaysSet = Extract<StudioEvent, { type: 'HolidaysSet' }>;

export const closedOn = (at: At, dates: readonly string[]): HolidaysSet => ({
  ...stampOf(at),
  type: 'HolidaysSet',
  add: [...dates],
  drop: [],
});

/** Takes back those of the days that are holidays. Refusal: `no-holiday` if none is. */
export function openOn(at: At, dates: readonly string[]): HolidaysSet | Refusal {
  const closed = at.studio.shifts.closed ?? [];
  const drop = dates.filter((date) => closed.includes(date));
  if (drop.length > 0) return { ...stampOf(at), type: 'HolidaysSet', add: [], drop };
  const coming = closed.find((date) => date >= today(at));
  const known = coming === undefined ? 'none is set' : `the next is ${dayText(coming, today(at))}`;
  return new Refusal('no-holiday', say`None of these days is a holiday; ${plain(known)}.`, {
    example: coming === undefined ? '/shift show' : line('shift workday', { days: coming }),
  });
}
