import { DateTime } from 'luxon';

/** Writes instants, to the second, as ISO 8601 text with the offset that `zone` has then: `2026-03-02T08:00:00+01:00`. */
export const isoIn =
  (zone: string) =>
  (at: number): string =>
    DateTime.fromMillis(Math.floor(at / 1000) * 1000, { zone }).toISO({ suppressMilliseconds: true }) ??
    new Date(at).toISOString();
