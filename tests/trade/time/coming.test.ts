import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { DAY, HOUR, MINUTE } from '../../../src/trade/time/calendar.ts';
import { comingMoment } from '../../../src/trade/time/coming.ts';
import { isRefusal } from '../../../src/words/refusal.ts';

const BERLIN = 'Europe/Berlin';
/** A Wednesday, twenty seconds after half past two. */
const NOW = Date.parse('2026-03-04T14:30:20+01:00');
const read = (text: string, now = NOW, zone = BERLIN) => {
  const moment = comingMoment(text, now, zone);
  return isRefusal(moment) ? moment.code : DateTime.fromMillis(moment, { zone }).toFormat("yyyy-LL-dd'T'HH:mm");
};

test.each([
  ['now', '2026-03-04T14:30'],
  ['14:31', '2026-03-04T14:31'],
  ['14:05', '2026-03-05T14:05'],
  ['7.30', '2026-03-05T07:30'],
  ['4 pm', '2026-03-04T16:00'],
  ['at 16:00', '2026-03-04T16:00'],
  ['by 16 Uhr', '2026-03-04T16:00'],
  ['noon', '2026-03-05T12:00'],
  ['24:00', '2026-03-05T00:00'],
  ['in 2h', '2026-03-04T16:30'],
  ['in 2,5 h', '2026-03-04T17:00'],
  ['+90m', '2026-03-04T16:00'],
  ['90 min', '2026-03-04T16:00'],
  ['2 hours from now', '2026-03-04T16:30'],
  ['in 3 days', '2026-03-07T14:30'],
  ['today 16:00', '2026-03-04T16:00'],
  ['today 24:00', '2026-03-05T00:00'],
  ['tomorrow 7:00', '2026-03-05T07:00'],
  ['Tomorrow at 7am', '2026-03-05T07:00'],
  ['7:00 tomorrow', '2026-03-05T07:00'],
  ['wed 18:00', '2026-03-04T18:00'],
  ['wed 10:00', '2026-03-11T10:00'],
  ['fri 16:00', '2026-03-06T16:00'],
  ['fri, 16.30', '2026-03-06T16:30'],
  ['4pm on Friday', '2026-03-06T16:00'],
  ['next fri 16:00', '2026-03-13T16:00'],
  ['2026-03-06 16:00', '2026-03-06T16:00'],
  ['2026-03-06T16:00', '2026-03-06T16:00'],
  ['2026-03-06T16:00Z', '2026-03-06T17:00'],
  ['2026-03-06T16:00-05:00', '2026-03-06T22:00'],
  ['6 Mar 16:00', '2026-03-06T16:00'],
  ['Fri 6 Mar 16:00', '2026-03-06T16:00'],
  ['6.3. 16:00', '2026-03-06T16:00'],
  ['6.3. 16 Uhr', '2026-03-06T16:00'],
  ['6.3 16:00', '2026-03-06T16:00'],
  ['6. März 16:00', '2026-03-06T16:00'],
  ['6 Maerz 16:00', '2026-03-06T16:00'],
  ['2. Mai 8h', '2026-05-02T08:00'],
  ['thurs 16h', '2026-03-05T16:00'],
  ['wed 1600', '2026-03-04T16:00'],
  ['wed at 0930', '2026-03-11T09:30'],
  ['tomorrow 16h', '2026-03-05T16:00'],
  ['2 Mar 16:00', '2027-03-02T16:00'],
  ['tomorrow 8', '2026-03-05T08:00'],
  ['tomorrow at 7', '2026-03-05T07:00'],
  ['fri 7', '2026-03-06T07:00'],
  ['mon 16', '2026-03-09T16:00'],
  ['jetzt', '2026-03-04T14:30'],
  ['heute 16 Uhr', '2026-03-04T16:00'],
  ['morgen 8 Uhr', '2026-03-05T08:00'],
  ['Morgen um 8', '2026-03-05T08:00'],
  ['übermorgen 8:30', '2026-03-06T08:30'],
  ['Do. 16.00 Uhr', '2026-03-05T16:00'],
  ['Mi 18 Uhr', '2026-03-04T18:00'],
  ['bis Sonntag 18:00', '2026-03-08T18:00'],
])('%s', (text, expected) => expect(read(text)).toBe(expected));

test.each([
  ['mon 16:00', '2026-03-16T16:00'],
  ['fri 16:00', '2026-03-13T16:00'],
  ['fri 13:00', '2026-03-20T13:00'],
  ['wed 18:00', '2026-03-18T18:00'],
  ['15:00', '2026-03-13T15:00'],
  ['13:00', '2026-03-14T13:00'],
  ['6 Mar 16:00', '2026-03-06T16:00'],
  ['2026-03-06 16:00', '2026-03-06T16:00'],
  ['tomorrow 16:00', '2026-03-05T16:00'],
])('%s after Friday 13 March 14:00', (text, expected) => {
  const moment = comingMoment(text, NOW, BERLIN, Date.parse('2026-03-13T14:00+01:00'));
  expect(DateTime.fromMillis(Number(moment), { zone: BERLIN }).toFormat("yyyy-LL-dd'T'HH:mm")).toBe(expected);
});

test('the minute that runs is now', () => expect(comingMoment('14:30', NOW, BERLIN)).toBe(NOW));

test.each([
  ['fri', 'which-time', 'fri 16:00'],
  ['6 Mar', 'which-time', '6 Mar 16:00'],
  ['6.3.', 'which-time', '6.3. 16:00'],
  ['2026-03-06', 'which-time', '2026-03-06 16:00'],
  ['6 Mar 7', 'which-time', '6 Mar 7:00'],
  ['tonight 8', 'which-time', 'tonight 20:00'],
  // It is the sixth.
  ['fri 6', 'which-time', 'fri 6:00'],
  ['tomorow 8', 'bad-time', 'tomorrow 8:00'],
  ['firday 16h', 'bad-time', 'friday 16:00'],
  ['7', 'which-time', '7:00'],
  ['16h', 'which-time', 'in 16h'],
  ['today 10:00', 'in-past', 'tomorrow 10:00'],
  ['4 Mar 10:00', 'in-past', 'tomorrow 10:00'],
  ['yesterday 10:00', 'in-past', 'tomorrow 10:00'],
  ['2026-03-04 14:29', 'in-past', 'tomorrow 14:29'],
  ['10m ago', 'in-past', undefined],
  ['2027-03-06 16:00', 'too-far', undefined],
  ['in 400 days', 'too-far', undefined],
  ['3/4 16:00', 'two-readings', '4 Mar 16:00'],
  ['3/4 10:00', 'two-readings', '3 Apr 10:00'],
  ['3/6 3pm', 'two-readings', '6 Mar 15:00'],
  ['1600', 'bad-time', undefined],
  ['6 Mar 2026', 'which-time', '6 Mar 2026 16:00'],
  ['30 Feb 16:00', 'no-such-day', 'tomorrow 16:00'],
  ['Thu 6 Mar 16:00', 'other-weekday', '6 Mar 16:00'],
  ['firday 16:00', 'bad-time', 'friday 16:00'],
  ['tomorow 7:15', 'bad-time', 'tomorrow 7:15'],
  ['25:00', 'bad-time', undefined],
  ['14:60', 'bad-time', undefined],
  ['in 5', 'bad-time', undefined],
  ['soon', 'bad-time', undefined],
  ['', 'bad-time', undefined],
])('%s is refused, and what is offered is read', (text, code, example) => {
  const refused = comingMoment(text, NOW, BERLIN);
  expect(isRefusal(refused) && refused.code).toBe(code);
  const offered = isRefusal(refused) ? refused.example : undefined;
  if (example !== undefined) expect(offered).toBe(example);
  expect(comingMoment(offered ?? '', NOW, BERLIN), offered).toEqual(expect.any(Number));
});

test('late in the evening, an hour of today that is over is not offered', () => {
  const refused = comingMoment('today', Date.parse('2026-03-04T22:00+01:00'), BERLIN);
  expect(isRefusal(refused) && refused.example).toBe('tomorrow 7:00');
});

// The time zone database: in Berlin 02:00-03:00 is left out on 2026-03-29 and comes twice on 2026-10-25.
describe('nights on which clocks change', () => {
  const at = (text: string) => Date.parse(text);
  test('a time that is left out is an hour later', () =>
    expect(comingMoment('2:30', at('2026-03-29T00:30+01:00'), BERLIN)).toBe(at('2026-03-29T03:30+02:00')));
  test('of two, the first that is still to come', () => {
    expect(comingMoment('2:30', at('2026-10-25T01:00+02:00'), BERLIN)).toBe(at('2026-10-25T02:30+02:00'));
    expect(comingMoment('2:30', at('2026-10-25T02:40+02:00'), BERLIN)).toBe(at('2026-10-25T02:30+01:00'));
    expect(comingMoment('2026-10-25 2:30', at('2026-10-25T02:40+02:00'), BERLIN)).toBe(at('2026-10-25T02:30+01:00'));
    expect(comingMoment('2026-10-25 2:30', at('2026-10-25T02:31+01:00'), BERLIN)).toMatchObject({ code: 'in-past' });
  });
});

// luxon writes a moment in one of the forms; it is read as that moment, or as its twin where clocks are set back.
const zones = fc.constantFrom(BERLIN, 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'Pacific/Chatham', 'Etc/UTC');
const twins = (at: number, zone: string) =>
  DateTime.fromMillis(at, { zone })
    .getPossibleOffsets()
    .map((each) => each.toMillis());

test('a moment that is written out is read as itself', () =>
  fc.assert(
    fc.property(
      zones,
      fc.integer({ min: Date.parse('2026-01-01T00:00Z'), max: Date.parse('2027-12-31T00:00Z') }),
      fc.integer({ min: 1, max: 364 * 24 * 60 }),
      fc.constantFrom("yyyy-LL-dd'T'HH:mm", 'yyyy-LL-dd H:mm', 'd LLL yyyy H:mm', 'ccc d LLL yyyy HH.mm', 'd.L.yyyy h:mm a'),
      (zone, now, minutes, form) => {
        const at = Math.floor(now / MINUTE + minutes) * MINUTE;
        const text = DateTime.fromMillis(at, { zone, locale: 'en' }).toFormat(form);
        const coming = twins(at, zone).filter((each) => each >= now);
        expect(comingMoment(text, now, zone), text).toBe(Math.min(...coming));
      },
    ),
    { numRuns: 500 },
  ));

test('a clock alone, or with a weekday, is the next moment at which it shows that', () =>
  fc.assert(
    fc.property(
      zones,
      fc.integer({ min: Date.parse('2026-01-01T00:00Z'), max: Date.parse('2027-12-31T00:00Z') }),
      fc.integer({ min: 1, max: 7 * 24 * 60 - 90 }),
      (zone, now, minutes) => {
        const at = Math.floor(now / MINUTE + minutes) * MINUTE;
        const shown = DateTime.fromMillis(at, { zone, locale: 'en' });
        const withDay = comingMoment(shown.toFormat('ccc HH:mm'), now, zone);
        expect(twins(at, zone)).toContain(withDay);
        const alone = Number(comingMoment(shown.toFormat('HH:mm'), now, zone));
        expect(alone).toBeGreaterThanOrEqual(now);
        expect(alone - now).toBeLessThanOrEqual(DAY + HOUR);
        if (at - now < DAY - HOUR) expect(twins(at, zone)).toContain(alone);
      },
    ),
    { numRuns: 500 },
  ));
