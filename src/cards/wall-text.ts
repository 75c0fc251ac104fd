import { DateTime } from 'luxon';

/** "19:00", or "Tue 19:00" where it is not today, or "Tue 10 Mar 19:00" where it is a week away: for labels, which hold no times. */
export function wallText(at: number, zone: string, now: number): string {
  const [time, today] = [DateTime.fromMillis(at, { zone }).setLocale('en-GB'), DateTime.fromMillis(now, { zone })];
  if (time.hasSame(today, 'day')) return time.toFormat('HH:mm');
  const near = Math.abs(time.startOf('day').diff(today.startOf('day'), 'days').days) < 7;
  return time.toFormat(near ? 'ccc HH:mm' : 'ccc d LLL HH:mm');
}
