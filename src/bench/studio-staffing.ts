import { DAY, dateAt, type Hours, hoursText, isoDate } from '../trade/time/calendar.ts';
import type { HandsBetween, Studio } from './studio.ts';

/** What chat has set of staffed time, put into a studio. */

const KEPT_HOLIDAY_DAYS = 366;
const KEPT_HOURS_DAYS = 7;

/** What is said of all shifts holds for all, also for those of which something else was said before. */
export function withHands(studio: Studio, { hours, count }: { hours: Hours | null; count: number | null }): Studio {
  if (hours === null) return { ...studio, hands: { all: count, byShift: {} } };
  const { [hoursText(hours)]: _, ...others } = studio.hands.byShift;
  return { ...studio, hands: { ...studio.hands, byShift: count === null ? others : { ...others, [hoursText(hours)]: count } } };
}

/**
 * Where a day that runs is a working day again, its shift is kept from now on: nobody is told late that it began. Holidays of
 * more than a year ago are forgotten.
 */
export function withHolidays(
  studio: Studio,
  { at, add, drop }: { at: number; add: readonly string[]; drop: readonly string[] },
): Studio {
  const today = dateAt(at, studio.zone);
  const oldest = isoDate(today - KEPT_HOLIDAY_DAYS);
  const closed = new Set([...(studio.shifts.closed ?? []), ...add]);
  for (const date of drop) closed.delete(date);
  const runs = [today - 1, today].some((date) => drop.includes(isoDate(date)));
  return {
    ...studio,
    shifts: { ...studio.shifts, closed: [...closed].filter((date) => date >= oldest).sort() },
    shiftsSince: runs ? at : studio.shiftsSince,
  };
}

/** Staffed time that was told by the hour: what there is beside the shifts, and what is missing in them. */
export type ToldHours = 'extras' | 'missing';

/**
 * Such hours come beside the others, and their hands add up where they overlap: what was told of a day is wiped out by nothing
 * but the very same hours told anew. Those over for a week are forgotten.
 */
export function withHours(studio: Studio, which: ToldHours, { at, from, until, hands }: HandsBetween & { at: number }): Studio {
  const others = kept(studio[which], at).filter((each) => each.from !== from || each.until !== until);
  return { ...studio, [which]: [...others, { from, until, hands }].sort((a, b) => a.from - b.from) };
}

/** `exactly`: those hours alone, and not all that began in that time. */
export function withoutHours(
  studio: Studio,
  which: ToldHours,
  { at, from, until, exactly = false }: { at: number; from: number; until: number; exactly?: boolean | undefined },
): Studio {
  const isMeant = (each: HandsBetween) =>
    exactly ? each.from === from && each.until === until : each.from >= from && each.from < until;
  return { ...studio, [which]: kept(studio[which], at).filter((each) => !isMeant(each)) };
}

const kept = (hours: readonly HandsBetween[], at: number): HandsBetween[] =>
  hours.filter(({ until }) => until > at - KEPT_HOURS_DAYS * DAY);
