import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import {
  comingShifts,
  DAY,
  HOUR,
  hoursText,
  MINUTE,
  nextWallClock,
  shiftAt,
  shiftsBetween,
  within,
} from '../../../src/trade/time/calendar.ts';
import { hours } from '../../support/studio.ts';

const BERLIN = 'Europe/Berlin';
const at = (text: string, zone = BERLIN) => DateTime.fromISO(text, { zone }).toMillis();
const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7];
const day = { hours: [hours('06:00-14:00'), hours('14:00-22:00')], days: [1, 2, 3, 4, 5] };
const night = { hours: [hours('22:00-06:00')], days: EVERY_DAY };

describe('shifts', () => {
  test('from Monday to Friday, in order', () => {
    const found = shiftsBetween(day, BERLIN, at('2026-03-06T15:00'), at('2026-03-09T15:00'));
    expect(found.map((shift) => [shift.from, shift.until])).toEqual([
      [at('2026-03-06T14:00'), at('2026-03-06T22:00')],
      [at('2026-03-09T06:00'), at('2026-03-09T14:00')],
      [at('2026-03-09T14:00'), at('2026-03-09T22:00')],
    ]);
  });
  test('the start belongs to a shift, its end does not', () => {
    expect(shiftAt(day, BERLIN, at('2026-03-02T14:00'))?.from).toBe(at('2026-03-02T14:00'));
    expect(shiftAt(day, BERLIN, at('2026-03-02T14:00') - 1)?.from).toBe(at('2026-03-02T06:00'));
    expect(shiftAt(day, BERLIN, at('2026-03-02T22:00'))).toBeNull();
  });
  test('a night shift belongs to the day on which it begins', () => {
    const fridays = { ...night, days: [5] };
    expect(shiftAt(fridays, BERLIN, at('2026-03-07T05:00'))?.from).toBe(at('2026-03-06T22:00'));
    expect(shiftAt(fridays, BERLIN, at('2026-03-06T05:00'))).toBeNull();
  });
  test('none begins on a holiday, but a night shift that began the day before goes on', () => {
    const closed = ['2026-12-25'];
    expect(shiftAt({ ...night, closed }, BERLIN, at('2026-12-25T05:00'))?.from).toBe(at('2026-12-24T22:00'));
    expect(shiftAt({ ...night, closed }, BERLIN, at('2026-12-25T23:00'))).toBeNull();
    expect(shiftAt({ ...night, closed }, BERLIN, at('2026-12-26T05:00'))).toBeNull();
  });
  test('the next one is found after holidays of any length, and never after years of them', () => {
    const closedFor = (days: number) =>
      Array.from({ length: days }, (_, index) => DateTime.fromISO('2026-03-02').plus({ days: index }).toISODate() ?? '');
    const next = (days: number) =>
      comingShifts({ ...day, closed: closedFor(days) }, BERLIN, at('2026-03-02T08:00')).find(
        ({ from }) => from > at('2026-03-02T08:00'),
      );
    expect(next(0)?.from).toBe(at('2026-03-02T14:00'));
    expect(next(21)?.from).toBe(at('2026-03-23T06:00'));
    expect(next(100)?.from).toBe(at('2026-06-10T06:00'));
    expect(next(600)).toBeUndefined();
  });
  test('of two that overlap, the one that began last', () =>
    expect(
      shiftAt({ hours: [hours('06:00-14:00'), hours('13:00-21:00')], days: EVERY_DAY }, BERLIN, at('2026-03-02T13:30'))?.from,
    ).toBe(at('2026-03-02T13:00')));
  test('no hours, no shift', () => expect(shiftAt({ hours: [], days: EVERY_DAY }, BERLIN, at('2026-03-02T13:30'))).toBeNull());
  test('over the night of the change, a shift ends by the wall clock', () => {
    for (const [evening, long] of [
      ['2026-03-28T22:00', 7],
      ['2026-10-24T22:00', 9],
    ] as const) {
      const shift = shiftAt(night, BERLIN, at(evening));
      expect(((shift?.until ?? 0) - at(evening)) / HOUR).toBe(long);
    }
  });
});

test('hours round midnight hold on both sides of it', () => {
  const quiet = hours('22:00-06:00');
  const inside = ['2026-03-02T22:00', '2026-03-02T23:59', '2026-03-03T00:00', '2026-03-03T05:59'];
  const outside = ['2026-03-02T21:59', '2026-03-03T06:00', '2026-03-03T12:00'];
  expect(inside.map((text) => within(quiet, BERLIN, at(text)))).toEqual(inside.map(() => true));
  expect(outside.map((text) => within(quiet, BERLIN, at(text)))).toEqual(outside.map(() => false));
});

test('the next time that a clock shows a minute is after now, within a day and an hour, and shows it', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(BERLIN, 'America/New_York', 'Australia/Lord_Howe', 'Etc/UTC'),
      fc.integer({ min: at('2026-01-01T00:00'), max: at('2026-12-31T00:00') }),
      fc.integer({ min: 0, max: 1439 }),
      (zone, now, minute) => {
        const next = nextWallClock(zone, now, minute);
        expect(next).toBeGreaterThan(now);
        expect(next - now).toBeLessThanOrEqual(DAY + HOUR);
        const shown = DateTime.fromMillis(next, { zone });
        // In the hour that a spring night leaves out, no clock shows that minute: it is an hour later then.
        if (shown.hour * 60 + shown.minute !== minute) expect(shown.minus({ minutes: 61 }).offset).not.toBe(shown.offset);
      },
    ),
    { numRuns: 500 },
  ));

test('a shift that runs at a moment is among those that are found around it', () =>
  fc.assert(
    fc.property(
      fc.array(fc.record({ fromMinute: fc.nat(1439), untilMinute: fc.nat(1439) }), { maxLength: 4 }),
      fc.uniqueArray(fc.integer({ min: 1, max: 7 })),
      fc.integer({ min: at('2026-03-01T00:00'), max: at('2026-04-10T00:00') }),
      (list, days, now) => {
        const shifts = { hours: list, days };
        const found = shiftsBetween(shifts, BERLIN, now - HOUR, now + HOUR);
        const running = shiftAt(shifts, BERLIN, now);
        if (running) expect(found).toContainEqual(running);
        for (const shift of found) {
          expect(shift.until).toBeGreaterThan(now - HOUR);
          expect(shift.from).toBeLessThanOrEqual(now + HOUR);
          expect(days).toContain(DateTime.fromMillis(shift.from, { zone: BERLIN }).weekday);
          expect(shift.until - shift.from).toBeLessThanOrEqual(DAY + HOUR);
        }
        expect(found.map((shift) => shift.from)).toEqual(found.map((shift) => shift.from).sort((a, b) => a - b));
      },
    ),
  ));

test('hours as text', () => expect([hoursText(hours('06:00-14:30')), MINUTE]).toEqual(['06:00-14:30', 60_000]));
