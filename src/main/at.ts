import { DateTime } from 'luxon';

/** The instant that `--at` names, read in `zone` where it has no offset; null where it names none from 1970 on. */
export function startOf(typed: string, zone: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}|$)/.test(typed)) return null;
  const at = DateTime.fromISO(typed.replace(' ', 'T'), { zone });
  return at.isValid && at.toMillis() >= 0 ? at.toMillis() : null;
}
