import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { DAY, HOUR, nextWallClock, shiftsBetween } from '../../src/trade/time/calendar.ts';
import { waitOver } from '../../src/trade/time/cure.ts';
import { under } from '../support/conditions.ts';

const wall = (text: string, zone: string) => DateTime.fromISO(text, { zone }).toMillis();
/** From one midnight to the next, by the wall clock. */
const dayHours = (zone: string, day: string) => {
  const midnight = wall(`${day}T00:00`, zone);
  return (nextWallClock(zone, midnight, 0) - midnight) / HOUR;
};
const offsets = (zone: string, around: string) => {
  const at = Date.parse(around);
  return [at - 1, at].map((instant) => DateTime.fromMillis(instant, { zone }).offset / 60);
};

// The time zone database, releases 2025b and 2025c, read in its source; worked out again with two libraries.
describe('days on which clocks change', () => {
  test.each([
    ['Europe/Berlin', '2026-03-29', 23],
    ['Europe/Berlin', '2026-10-25', 25],
    ['America/New_York', '2026-03-08', 23],
    ['America/New_York', '2026-11-01', 25],
    ['Australia/Lord_Howe', '2026-04-05', 24.5],
    ['Europe/Berlin', '2026-03-28', 24],
  ])('%s, %s has %d h', (zone, day, hours) => expect(dayHours(zone, day)).toBe(hours));

  test.each([
    ['Europe/Berlin', '2026-03-29T01:00Z', [1, 2]],
    ['Europe/Berlin', '2026-10-25T01:00Z', [2, 1]],
    ['America/New_York', '2026-03-08T07:00Z', [-5, -4]],
    ['America/New_York', '2026-11-01T06:00Z', [-4, -5]],
  ])('%s changes at %s', (zone, instant, expected) => expect(offsets(zone, instant)).toEqual(expected));
});

// Worked out with the Temporal polyfill 0.5.1 and luxon 3.7.2, which agree: a second implementation, no published value.
describe('an elapsed wait over the night of the change', () => {
  test.each([
    ['2026-10-24T20:00', '2026-10-25T11:00:00.000+01:00'],
    ['2026-03-28T20:00', '2026-03-29T13:00:00.000+02:00'],
  ])('16 h from %s in Berlin', (begun, expected) => {
    const over = waitOver(under(), null, wall(begun, 'Europe/Berlin'), 16 * 60);
    expect(DateTime.fromMillis(over, { zone: 'Europe/Berlin' }).toISO()).toBe(expected);
  });
});

// Worked out from the rows above: a shift is kept by the wall clock, so that the night makes it longer or shorter.
describe('a night shift from 22:00 to 06:00 in Berlin', () => {
  const nights = { hours: [{ fromMinute: 22 * 60, untilMinute: 6 * 60 }], days: [1, 2, 3, 4, 5, 6, 7] };
  test.each([
    ['2026-03-28', 7],
    ['2026-10-24', 9],
    ['2026-10-23', 8],
  ])('of %s lasts %d h', (day, hours) => {
    const begins = wall(`${day}T22:00`, 'Europe/Berlin');
    const shift = shiftsBetween(nights, 'Europe/Berlin', begins, begins + DAY).find((each) => each.from === begins);
    expect(((shift?.until ?? 0) - begins) / HOUR).toBe(hours);
  });
});
