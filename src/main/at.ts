import { DateTime } from 'luxon';

const WALL_CLOCK = /^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}|$)/;
const WITH_OFFSET = /T.*(?:Z|[+-]\d{2}(?::?\d{2})?)$/i;
const MINUTE = 'HH:mm';
const DAY_AND_MINUTE = `yyyy-MM-dd'T'${MINUTE}`;

/** What `--at` names: an instant, and whether the wall clock shows it twice; or a time that the clocks leave out. */
export type Start =
  | { readonly kind: 'once' | 'twice'; readonly at: number }
  | { readonly kind: 'left-out'; readonly before: string; readonly after: string };

/** What `--at` names, read in `zone` where it has no offset; null where it names nothing from 1970 on. */
export function startOf(typed: string, zone: string): Start | null {
  if (!WALL_CLOCK.test(typed)) return null;
  const iso = typed.replace(' ', 'T');
  const at = DateTime.fromISO(iso, { zone });
  if (!at.isValid || at.toMillis() < 0) return null;
  if (WITH_OFFSET.test(iso)) return { kind: 'once', at: at.toMillis() };
  const wall = DateTime.fromISO(iso, { zone: 'utc' });
  // 24:00 and its like are the next day on both clocks.
  if (at.toFormat(DAY_AND_MINUTE) !== wall.toFormat(DAY_AND_MINUTE)) return leftOut(at);
  const [first = at, ...more] = at.getPossibleOffsets().sort((a, b) => a.toMillis() - b.toMillis());
  return { kind: more.length > 0 ? 'twice' : 'once', at: first.toMillis() };
}

/** The last minute before the change of the clocks that is near `moved`, and the first one after it. */
function leftOut(moved: DateTime): Start {
  let [before, after] = [moved.minus({ hours: 26 }), moved.plus({ hours: 26 })];
  while (after.diff(before).as('minutes') > 1) {
    const between = before.plus({ minutes: Math.floor(after.diff(before).as('minutes') / 2) });
    if (between.offset === before.offset) before = between;
    else after = between;
  }
  // A zone that changes its side of the date line leaves out a whole day.
  const format = before.hasSame(after, 'day') ? MINUTE : DAY_AND_MINUTE;
  return { kind: 'left-out', before: before.toFormat(format), after: after.toFormat(format) };
}
