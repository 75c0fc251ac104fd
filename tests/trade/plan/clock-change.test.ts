import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import type { Span } from '../../../src/trade/plan/spans.ts';
import { DAY, type Hours, MINUTE, shiftsBetween } from '../../../src/trade/time/calendar.ts';
import { earliest, latest } from '../../support/chains.ts';
import { under } from '../../support/conditions.ts';
import type { GridAsk, GridStep } from '../../support/grid.ts';

const minute = (instant: string) => Date.parse(instant) / MINUTE;
const clock = (at: number, zone: string) =>
  DateTime.fromMillis(at * MINUTE, { zone }).toISO({ suppressSeconds: true, suppressMilliseconds: true });
const hours = (from: number, until: number): Hours => ({ fromMinute: from * 60, untilMinute: until * 60 });
/** The staffed minutes of the shifts that overlap the two days from `instant` on. */
const staffed = (zone: string, instant: string, ...list: Hours[]): Span[] =>
  shiftsBetween({ hours: list, days: [1, 2, 3, 4, 5, 6, 7] }, zone, Date.parse(instant), Date.parse(instant) + 2 * DAY).map(
    ({ from, until }) => ({ from: from / MINUTE, until: until / MINUTE - 1 }),
  );
const step = (handsMinutes: number, fromMinutes: number | null = null, untilMinutes = fromMinutes): GridStep => ({
  handsMinutes,
  wait: fromMinutes === null ? null : { fromMinutes, untilMinutes, speed: null },
});
const ask = (steps: GridStep[], begin: Span, shifts: Span[] | null, readyBy: number | null = null): GridAsk => ({
  steps,
  begin,
  staffed: shifts,
  busy: [],
  readyBy,
  conditions: under(),
});
const at = (instant: string): Span => ({ from: minute(instant), until: minute(instant) });

// The changes: the zone files of IANA, tzdata 2025b. Sums from there by hand; the 16 hours also by the reference
// implementation of Temporal, polyfill 0.5.1.
describe.each([
  {
    zone: 'Europe/Berlin',
    evening: '2026-03-28T20:00+01:00',
    change: '2026-03-29T01:00Z',
    night: 7,
    day: 23,
    after16: '2026-03-29T13:00+02:00',
  },
  {
    zone: 'Europe/Berlin',
    evening: '2026-10-24T20:00+02:00',
    change: '2026-10-25T01:00Z',
    night: 9,
    day: 25,
    after16: '2026-10-25T11:00+01:00',
  },
  {
    zone: 'America/New_York',
    evening: '2026-03-07T20:00-05:00',
    change: '2026-03-08T07:00Z',
    night: 7,
    day: 23,
    after16: '2026-03-08T13:00-04:00',
  },
  {
    zone: 'America/New_York',
    evening: '2026-10-31T20:00-04:00',
    change: '2026-11-01T06:00Z',
    night: 9,
    day: 25,
    after16: '2026-11-01T11:00-05:00',
  },
])('the night of $change in $zone', ({ zone, evening, change, night, day, after16 }) => {
  const nights = staffed(zone, evening, hours(22, 6));
  const ten = minute(evening) + 120;
  /** Six o’clock next morning: an hour sooner or later than in another night. */
  const six = ten + night * 60;

  test('a wait of 16 hours from eight in the evening', () => {
    const found = earliest(ask([step(0, 16 * 60), step(0)], at(evening), null));
    expect(found).toMatchObject({ starts: [minute(evening), minute(after16)] });
    expect(clock(minute(after16), zone)).toBe(after16);
  });

  test(`the shift from ten to six has ${night} hours for work, and not a minute more`, () => {
    const begin = { from: ten - 60, until: ten + 12 * 60 };
    expect(earliest(ask([step(night * 60)], begin, nights))).toMatchObject({ starts: [ten], latest: [ten], readyAt: six });
    expect(clock(six, zone)).toMatch(/T06:00/);
    expect(earliest(ask([step(night * 60 + 1)], begin, nights))).toMatchObject({ why: 'no-start', step: 0 });
  });

  test('two steps with a wait across the change fill the shift', () => {
    const chain = [step(60, night * 60 - 150), step(90)];
    const begin = { from: ten - 60, until: ten + 12 * 60 };
    expect(minute(change)).toBeGreaterThan(ten + 60);
    expect(minute(change)).toBeLessThan(six - 90);
    expect(earliest(ask(chain, begin, nights))).toMatchObject({ starts: [ten, six - 90], readyAt: six });
    expect(earliest(ask([step(60, night * 60 - 149), step(90)], begin, nights))).toMatchObject({ why: 'no-start', step: 1 });
    expect(latest(ask(chain, begin, nights, six))).toMatchObject({ starts: [ten, six - 90] });
    expect(latest(ask(chain, begin, nights, six - 1))).toMatchObject({ why: 'late', step: 1, readyAt: six });
  });

  test('begun as late as can be for a demould by six, after a wait of six hours', () => {
    const found = latest(ask([step(30, 6 * 60), step(15)], { from: ten - 1440, until: ten + 1440 }, nights, six));
    expect(found).toMatchObject({ starts: [six - 405, six - 15], readyAt: six });
    // In another night that is 23:15.
    expect(clock(six - 405, zone)).toMatch(night === 7 ? /T22:15/ : /T00:15/);
  });

  test('from eight in the morning to eight in the morning', () => {
    const mornings = staffed(zone, evening, hours(8, 16));
    const eight = six + 120;
    const begun = { from: eight - day * 60, until: eight - day * 60 + 60 };
    // A window of four hours a day later opens and closes by the clock that has been changed.
    const found = earliest(
      ask([step(10, 24 * 60, 28 * 60), step(10)], begun, [...mornings, { from: begun.from, until: begun.from + 479 }]),
    );
    const second = Math.max(eight, begun.from + 10 + 24 * 60);
    expect(found).toMatchObject({ starts: [begun.from, second], latest: [begun.until, begun.from + 10 + 28 * 60] });
  });
});

// The zone files of IANA, tzdata 2025b: half an hour.
test('the Sunday on which Lord Howe Island sets its clocks back has 24 and a half hours', () => {
  const zone = 'Australia/Lord_Howe';
  const midnight = minute('2026-04-05T00:00+11:00');
  const whole = shiftsBetween({ hours: [hours(0, 0)], days: [7] }, zone, midnight * MINUTE, midnight * MINUTE).map(
    ({ from, until }) => ({
      from: from / MINUTE,
      until: until / MINUTE - 1,
    }),
  );
  const begin = { from: midnight, until: Number.POSITIVE_INFINITY };
  expect(earliest(ask([step(24.5 * 60)], begin, whole))).toMatchObject({ starts: [midnight] });
  expect(earliest(ask([step(24.5 * 60 + 1)], begin, whole))).toMatchObject({ why: 'no-start', step: 0 });
});
