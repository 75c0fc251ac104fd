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

/** The instant at which a wall clock in `zone` shows `minute` minutes after midnight on the day of `date`. */
function onDay(date: DateTime, minute: number): number {
  return date
    .startOf('day')
    .set({ hour: Math.floor(minute / 60), minute: minute % 60 })
    .toMillis();
}

function shiftsOfDay(shifts: Shifts, date: DateTime): Shift[] {
  if (!shifts.days.includes(date.weekday)) return [];
  return shifts.hours.map((hours) => ({
    hours,
    from: onDay(date, hours.fromMinute),
    until: onDay(hours.untilMinute <= hours.fromMinute ? date.plus({ days: 1 }) : date, hours.untilMinute),
  }));
}

/**
 * The shifts that overlap the time from `from` to `until`, in order of their start. Shift hours are wall-clock times: on
 * the night that the clocks change, a shift is an hour shorter or longer.
 */
export function shiftsBetween(shifts: Shifts, zone: string, from: number, until: number): Shift[] {
  if (shifts.hours.length === 0) return [];
  const found: Shift[] = [];
  const last = DateTime.fromMillis(until, { zone });
  for (let day = DateTime.fromMillis(from, { zone }).startOf('day').minus({ days: 1 }); day <= last; day = day.plus({ days: 1 }))
    found.push(...shiftsOfDay(shifts, day));
  return found.filter((shift) => shift.until > from && shift.from <= until).sort((a, b) => a.from - b.from);
}

/** The shift that runs at `now` and those of the week after it, in order of their start; every weekly pattern has its next one there. */
export const comingShifts = (shifts: Shifts, zone: string, now: number): Shift[] =>
  shiftsBetween(shifts, zone, now, now + 8 * DAY);

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

/** The instant at which a wall clock in `zone` shows `minute` minutes after midnight on a date, counted in days since 1970. */
function onDate(zone: string, date: number, minute: number): number {
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
