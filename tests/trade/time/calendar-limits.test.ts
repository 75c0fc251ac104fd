import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { comingShifts, shiftAt } from '../../../src/trade/time/calendar.ts';
import { parseDays, parseHours } from '../../../src/trade/time/calendar-text.ts';
import { isRefusal } from '../../../src/words/refusal.ts';
import { hours } from '../../support/studio.ts';

const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7];
const at = (text: string, zone: string) => DateTime.fromISO(text, { zone }).toMillis();

// Zone files of IANA: Honolulu is ten hours behind UTC, Auckland in March 13 ahead of it.
describe('far from Greenwich, where the date is another than that of UTC', () => {
  test('a shift of nearly a day that began the day before still runs', () => {
    const zone = 'Pacific/Honolulu';
    const long = { hours: [hours('22:30-22:29')], days: EVERY_DAY };
    expect(shiftAt(long, zone, at('2026-03-02T22:00', zone))?.from).toBe(at('2026-03-01T22:30', zone));
    expect(shiftAt(long, zone, at('2026-03-02T22:29', zone))).toBeNull();
  });
  test('a shift that began after midnight is found while UTC has the day before', () => {
    const zone = 'Pacific/Auckland';
    const early = { hours: [hours('00:30-08:00')], days: EVERY_DAY };
    expect(shiftAt(early, zone, at('2026-03-03T01:00', zone))?.from).toBe(at('2026-03-03T00:30', zone));
  });
});

describe('the next shift after holidays', () => {
  const zone = 'Europe/Berlin';
  const works = (days: number) => ({
    hours: [hours('08:00-16:00')],
    days: EVERY_DAY,
    closed: Array.from({ length: days }, (_, index) => DateTime.fromISO('2026-03-03').plus({ days: index }).toISODate() ?? ''),
  });
  // 300 days from 3 March on end on 27 December: 29 of March, then 30, 31, 30, 31, 31, 30, 31 and 30 days, and 27 more.
  test.each([
    ['half a year', 150, '2026-07-31'],
    ['most of a year', 300, '2026-12-28'],
  ])('of %s', (_, days, expected) => {
    const now = at('2026-03-02T12:00', zone);
    expect(comingShifts(works(days), zone, now).find(({ from }) => from > now)?.from).toBe(at(`${expected}T08:00`, zone));
  });
  test('the one that begins this very moment is not the next', () => {
    const now = at('2026-03-02T08:00', zone);
    expect(
      comingShifts(works(21), zone, now)
        .slice(0, 2)
        .map(({ from }) => from),
    ).toEqual([now, at('2026-03-24T08:00', zone)]);
  });
});

describe('as people write it', () => {
  test('midnight and noon by a clock of twelve hours', () => {
    expect(parseHours('12am-12pm')).toEqual({ fromMinute: 0, untilMinute: 720 });
    expect(isRefusal(parseHours('0am-6am'))).toBe(true);
    expect(isRefusal(parseHours('6am-13pm'))).toBe(true);
  });
  test('days shortened with a full stop', () => expect(parseDays('Mon., Wed. and Fri.')).toEqual([1, 3, 5]));
});
