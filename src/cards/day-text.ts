import { DateTime } from 'luxon';
import { DAY } from '../trade/time/calendar.ts';
import { runsOf } from '../trade/time/days.ts';

/** From so many days on, "24 Dec" could be taken for one that is nearer. */
const YEAR_FROM_DAYS = 330;

const dateOf = (iso: string) => Date.parse(iso) / DAY;

/** "Thu 24 Dec", with its year where it is far off; `today` as an ISO date, too. */
export function dayText(iso: string, today: string): string {
  const far = dateOf(iso) - dateOf(today) >= YEAR_FROM_DAYS;
  return DateTime.fromISO(iso, { zone: 'utc', locale: 'en' }).toFormat(far ? 'ccc d LLL yyyy' : 'ccc d LLL');
}

/** "Thu 24 Dec to Sat 26 Dec, Thu 31 Dec and 4 more days": at most `most` days or runs of them. `days` are in order. */
export function daysText(days: readonly string[], today: string, most = 3): string {
  const runs = runsOf(days);
  const shown = runs
    .slice(0, most)
    .map(([first, last]) => (first === last ? dayText(first, today) : `${dayText(first, today)} to ${dayText(last, today)}`));
  const left = runs.slice(most).reduce((sum, [first, last]) => sum + dateOf(last) - dateOf(first) + 1, 0);
  return shown.join(', ') + (left === 0 ? '' : ` and ${left} more ${left === 1 ? 'day' : 'days'}`);
}
