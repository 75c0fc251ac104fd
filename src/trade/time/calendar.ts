import { DateTime } from 'luxon';

/** Minutes after midnight by the wall clock; `untilMinute` at or before `fromMinute` means that it ends the next day. */
export interface Hours {
  readonly fromMinute: number;
  readonly untilMinute: number;
}

/** Staffed hours: each of `hours` on each of `days` (ISO weekdays, Monday is 1). No hours: shifts are not kept. */
export interface Shifts {
  readonly hours: readonly Hours[];
  readonly days: readonly number[];
  /** Holidays, as ISO dates: no shift begins on them. */
  readonly closed?: readonly string[];
}

/** One shift that really happens: instants in milliseconds since the epoch. */
export interface Shift {
  readonly hours: Hours;
  readonly from: number;
  readonly until: number;
}

export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

/** The first whole minute that is not before `at`. */
export const fullMinute = (at: number): number => Math.ceil(at / MINUTE) * MINUTE;
/** The last whole minute that is not after `at`. */
export const begunMinute = (at: number): number => Math.floor(at / MINUTE) * MINUTE;

/** The instant at which a wall clock in `zone` shows `minute` minutes after midnight on the day of `date`. */
function onDay(date: DateTime, minute: number): number {
  return date
    .startOf('day')
    .set({ hour: Math.floor(minute / 60), minute: minute % 60 })
    .toMillis();
}

/** The date in `zone` at `at`, counted in days since 1970. */
export function dateAt(at: number, zone: string): number {
  const { year, month, day } = DateTime.fromMillis(at, { zone });
  return Date.UTC(year, month - 1, day) / DAY;
}

/** The ISO weekday of a date counted in days since 1970, which began on a Thursday. */
export const weekdayOf = (date: number) => ((((date + 3) % 7) + 7) % 7) + 1;
/** The same date as `2026-03-02`. */
export const isoDate = (date: number): string => new Date(date * DAY).toISOString().slice(0, 10);

/**
 * The shifts that overlap the time from `from` to `until`, in order of their start. Shift hours are wall-clock times: on
 * the night that the clocks change, a shift is an hour shorter or longer.
 */
export function shiftsBetween(shifts: Shifts, zone: string, from: number, until: number): Shift[] {
  if (shifts.hours.length === 0) return [];
  const found: Shift[] = [];
  const closed = new Set(shifts.closed);
  // A shift that began the day before may still run, and the date in the zone is that of UTC, or one beside it.
  for (let date = Math.floor(from / DAY) - 2; date <= Math.floor(until / DAY) + 1; date += 1) {
    if (!shifts.days.includes(weekdayOf(date)) || closed.has(isoDate(date))) continue;
    for (const hours of shifts.hours)
      found.push({
        hours,
        from: onDate(zone, date, hours.fromMinute),
        until: onDate(zone, hours.untilMinute <= hours.fromMinute ? date + 1 : date, hours.untilMinute),
      });
  }
  return found.filter((shift) => shift.until > from && shift.from <= until).sort((a, b) => a.from - b.from);
}

/** Every weekly pattern has its next shift within these days, unless it is a holiday's. */
const WEEK_AND_DAY = 8;
/** Nobody closes for longer and calls it holidays. */
const MOST_DAYS_CLOSED = 512;

/**
 * The shift that runs at `now` and those of the week after it, in order of their start; where holidays leave none that is
 * still to begin, those up to the end of the holidays and a while after them.
 */
export function comingShifts(shifts: Shifts, zone: string, now: number): Shift[] {
  for (let days = WEEK_AND_DAY; ; days *= 2) {
    const found = shiftsBetween(shifts, zone, now, now + days * DAY);
    if (found.some((shift) => shift.from > now) || days >= MOST_DAYS_CLOSED || !shifts.closed?.length) return found;
  }
}

/** The shift that runs at `now`, or null. Where two overlap, the one that began last. */
export function shiftAt(shifts: Shifts, zone: string, now: number): Shift | null {
  return shiftsBetween(shifts, zone, now, now).findLast((shift) => shift.from <= now && now < shift.until) ?? null;
}

/** Whether the wall clock in `zone` stands inside `hours` at `now`. */
export function within(hours: Hours, zone: string, now: number): boolean {
  return shiftAt({ hours: [hours], days: [1, 2, 3, 4, 5, 6, 7] }, zone, now) !== null;
}

/** The next instant after `now` at which a wall clock in `zone` shows `minute` minutes after midnight. */
export function nextWallClock(zone: string, now: number, minute: number): number {
  // The date in the zone is that of UTC, or one beside it.
  const today = Math.floor(now / DAY);
  const coming = [-1, 0, 1, 2].map((days) => onDate(zone, today + days, minute));
  return coming.find((at) => at > now) ?? Number.NaN;
}

/** Working out one instant from a zone takes a tenth of a millisecond, and every wait asks for the same few. */
const kept = new Map<string, number>();
const MOST_KEPT = 10_000;

/**
 * The instant at which a wall clock in `zone` shows `minute` minutes after midnight on a date, counted in days since 1970:
 * the first of two; where a spring night leaves it out, as much later as that night leaves out.
 */
export function onDate(zone: string, date: number, minute: number): number {
  const key = `${date}/${minute}/${zone}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const { year, month, day } = DateTime.fromMillis(date * DAY, { zone: 'utc' });
  const at = onDay(DateTime.fromObject({ year, month, day }, { zone }), minute);
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, at);
  return at;
}

const two = (value: number) => String(value).padStart(2, '0');
export const hoursText = ({ fromMinute, untilMinute }: Hours): string =>
  [fromMinute, untilMinute].map((minute) => `${two(Math.floor(minute / 60))}:${two(minute % 60)}`).join('-');
