import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { datesText, isoDates, parseDates } from '../../../src/trade/time/days.ts';
import { isRefusal } from '../../../src/words/refusal.ts';

const BERLIN = 'Europe/Berlin';
/** A Wednesday. */
const NOW = Date.parse('2026-03-04T14:30+01:00');
const read = (text: string, now = NOW, zone = BERLIN) => {
  const dates = parseDates(text, now, zone);
  return isRefusal(dates) ? dates.code : dates.join(' ');
};

describe('one day', () => {
  test.each([
    ['2026-12-24', '2026-12-24'],
    ['2026/12/24', '2026-12-24'],
    ['24 Dec', '2026-12-24'],
    ['24Dec', '2026-12-24'],
    ['24. december', '2026-12-24'],
    ['Dec 24', '2026-12-24'],
    ['Dec 24, 2026', '2026-12-24'],
    ['24th of December 2027', '2027-12-24'],
    ['1st Sept', '2026-09-01'],
    ['24.12.', '2026-12-24'],
    ['24.12', '2026-12-24'],
    ['24.12.26', '2026-12-24'],
    ['24/12', '2026-12-24'],
    ['12/24', '2026-12-24'],
    ['3/3', '2027-03-03'],
    ['4 Mar', '2026-03-04'],
    ['3 Mar', '2027-03-03'],
    ['29 Feb', '2028-02-29'],
    ['today', '2026-03-04'],
    ['Tomorrow', '2026-03-05'],
    ['the day after tomorrow', '2026-03-06'],
    ['wed', '2026-03-04'],
    ['fri', '2026-03-06'],
    ['on Friday', '2026-03-06'],
    ['next fri', '2026-03-13'],
    ['next mon', '2026-03-09'],
    ['Thu 24 Dec', '2026-12-24'],
  ])('%s', (text, expected) => expect(read(text)).toBe(expected));
  test('today is today’s date in the zone', () => {
    const at = Date.parse('2026-03-04T23:30Z');
    expect(read('today', at, BERLIN)).toBe('2026-03-05');
    expect(read('today', at, 'America/New_York')).toBe('2026-03-04');
  });
});

describe('several days', () => {
  test.each([
    ['2026-12-24, 26 Dec', '2026-12-24 2026-12-26'],
    ['26 Dec; tomorrow, 26.12.', '2026-03-05 2026-12-26'],
    ['24, 25 and 26 Dec', '2026-12-24 2026-12-25 2026-12-26'],
    ['Dec 24, 25', '2026-12-24 2026-12-25'],
    ...['24-26 Dec', '24 Dec - 26 Dec', 'Dec 24-26', '24.-26.12.', '24.12.–26.12.', '2026-12-24..2026-12-26'].map((text) => [
      text,
      '2026-12-24 2026-12-25 2026-12-26',
    ]),
    ['2026-12-24 to 2026-12-25', '2026-12-24 2026-12-25'],
    ['31 Dec until 1 Jan', '2026-12-31 2027-01-01'],
    ['fri to mon', '2026-03-06 2026-03-07 2026-03-08 2026-03-09'],
    ['today to fri', '2026-03-04 2026-03-05 2026-03-06'],
  ])('%s', (text, expected) => expect(read(text)).toBe(expected));
  test('holidays that have begun go on from today', () => {
    expect(read('2 Mar to 5 Mar')).toBe('2026-03-04 2026-03-05');
    expect(read('28 Dec to 3 Jan', Date.parse('2027-01-02T10:00Z'))).toBe('2027-01-02 2027-01-03');
  });
});

test.each([
  ['3/4', 'two-readings', '4 Mar'],
  ['4/3', 'two-readings', '4 Mar'],
  ['3/2', 'two-readings', '3 Feb'],
  ['3/4/2026', 'two-readings', '4 Mar 2026'],
  ['24 Dec, 3/4 to 5/4', 'two-readings', '4 Mar'],
  ['30 Feb', 'no-such-day', undefined],
  ['31.2.', 'no-such-day', undefined],
  ['24 and 31 Feb', 'no-such-day', undefined],
  ['2026-13-01', 'no-such-day', undefined],
  ['Fri 24 Dec', 'other-weekday', '24 Dec'],
  ['24 Dcc', 'not-a-day', '24 Dec'],
  ['firday', 'not-a-day', 'friday'],
  ['tomorow', 'not-a-day', 'tomorrow'],
  ['christmas', 'not-a-day', undefined],
  ['24', 'not-a-day', undefined],
  ['3-4', 'not-a-day', undefined],
  ['', 'not-a-day', undefined],
  [',', 'not-a-day', undefined],
  ['xx to yy', 'not-a-day', undefined],
  ['26 Dec to 24 Dec', 'bad-range', undefined],
  ['2026-12-26..2026-12-24', 'bad-range', undefined],
  ['1 Apr to 1 Dec', 'bad-range', undefined],
  ['yesterday', 'past-day', undefined],
  ['2026-03-03', 'past-day', undefined],
  ['24 Dec 2062', 'too-far', undefined],
])('%s is refused, and what is offered is read', (text, code, example) => {
  const refused = parseDates(text, NOW, BERLIN);
  expect(isRefusal(refused) && refused.code).toBe(code);
  const offered = isRefusal(refused) ? refused.example : undefined;
  if (example !== undefined) expect(offered).toBe(example);
  expect(parseDates(offered ?? '', NOW, BERLIN)).toBeInstanceOf(Array);
});

// luxon writes the dates; whoever reads them must come to the same ones.
test('dates in all ways of writing are the same dates', () =>
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 364 }),
      fc.constantFrom('yyyy-LL-dd', 'd LLL', 'd. LLLL', 'LLL d', 'd.L.', 'dd.LL.yyyy', 'ccc d LLL yyyy', 'd LLL yyyy'),
      (days, form) => {
        const date = DateTime.fromMillis(NOW, { zone: BERLIN, locale: 'en' }).plus({ days });
        expect(read(date.toFormat(form))).toBe(date.toISODate());
      },
    ),
  ));

test('dates as text are read as the same dates', () =>
  fc.assert(
    fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: 1, maxLength: 30 }), (list) => {
      const day = DateTime.fromISO('2026-03-04', { zone: 'utc' });
      const dates = list.sort((a, b) => a - b).map((days) => day.plus({ days }).toISODate() ?? '');
      expect(read(datesText(dates))).toBe(dates.join(' '));
    }),
  ));

test('ISO dates of a file, whenever they are', () => {
  expect(isoDates('2020-02-28..2020-03-01')).toEqual(['2020-02-28', '2020-02-29', '2020-03-01']);
  expect(isoDates('2020-02-28')).toEqual(['2020-02-28']);
  for (const text of ['24 Dec', '2020-02-28..', '2020-02-28..2020-02-27', '2020-01-01..2021-01-01', '', 'today'])
    expect(isRefusal(isoDates(text)), text).toBe(true);
});
