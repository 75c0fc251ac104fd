import { DateTime } from 'luxon';
import { dateAt, isoDate } from '../trade/time/calendar.ts';

/** Times as the options of a command are typed: whenever a button is pressed, it means what was meant when it was shown. */

/** From when to when, in milliseconds since the epoch. */
export interface Stretch {
  readonly from: number;
  readonly until: number;
}

const comesTwice = (time: DateTime): boolean => time.getPossibleOffsets().length > 1;
const withOffset = (time: DateTime): string => time.toFormat("yyyy-MM-dd'T'HH:mmZZ");

/** An instant; with its offset where the wall clock shows that time twice. */
export function momentTyped(at: number, zone: string): string {
  const time = DateTime.fromMillis(at, { zone });
  return comesTwice(time) ? withOffset(time) : time.toFormat('yyyy-MM-dd HH:mm');
}

const dayTyped = (at: number, zone: string): string => isoDate(dateAt(at, zone));
const exactTyped = ({ from, until }: Stretch, zone: string): string =>
  [from, until].map((at) => withOffset(DateTime.fromMillis(at, { zone }))).join('/');

/** "17:00-19:00"; as two instants with their offsets where the wall clock shows an end twice. */
function hoursTyped({ from, until }: Stretch, zone: string): string {
  const ends = [from, until].map((at) => DateTime.fromMillis(at, { zone }));
  return ends.some(comesTwice) ? exactTyped({ from, until }, zone) : ends.map((end) => end.toFormat('HH:mm')).join('-');
}

const isExact = (hours: string): boolean => hours.includes('/');

/** The hours of a change as `extra` options are typed: "2026-03-02 17:00-19:00". */
export function extraTyped(hours: Stretch, zone: string): string {
  const typed = hoursTyped(hours, zone);
  return isExact(typed) ? typed : `${dayTyped(hours.from, zone)} ${typed}`;
}

/** The day and the hours for `/shift`; as two instants where the day is over, as that of a night shift after midnight. */
export function hoursOptions(hours: Stretch, zone: string, now: number): { on?: string; hours: string } {
  const [on, typed] = [dayTyped(hours.from, zone), hoursTyped(hours, zone)];
  if (on < dayTyped(now, zone)) return { hours: exactTyped(hours, zone) };
  return isExact(typed) ? { hours: typed } : { on, hours: typed };
}

/** The same, to take those hours back. */
export function offOptions(hours: Stretch, zone: string, now: number): { on?: string; hours: string } {
  const options = hoursOptions(hours, zone, now);
  return { ...options, hours: `${options.hours} off` };
}

/** To take back all that was told of the day of these hours; of a day that is over, those hours alone. */
export function dayOffOptions(hours: Stretch, zone: string, now: number): { on?: string; hours: string } {
  const on = dayTyped(hours.from, zone);
  return on < dayTyped(now, zone) ? offOptions(hours, zone, now) : { on, hours: 'off' };
}
