import { describe, expect, test } from 'vitest';
import { DAY } from '../../../src/trade/time/calendar.ts';
import { firstOf, lastOf, saidDay } from '../../../src/trade/time/day.ts';
import { isoDates, parseDates } from '../../../src/trade/time/days.ts';
import { isRefusal } from '../../../src/words/refusal.ts';

/** A Wednesday. Dates are counted by hand. */
const NOW = Date.parse('2026-03-04T14:30Z');
const read = (text: string) => {
  const dates = parseDates(text, NOW, 'Etc/UTC');
  return isRefusal(dates) ? dates.code : dates.join(' ');
};
const dayOf = (iso: string) => Date.parse(iso) / DAY;
const isoOf = (date: number) => new Date(date * DAY).toISOString().slice(0, 10);

// The Gregorian calendar: 2100 is no leap year.
test('29 February comes after eight years where a century has none', () => {
  const leapDay = { as: 'yearly', month: 2, day: 29 } as const;
  expect(isoOf(firstOf(leapDay, dayOf('2097-01-01')))).toBe('2104-02-29');
  expect(isoOf(lastOf(leapDay, dayOf('2103-12-31')))).toBe('2096-02-29');
  expect(isoOf(firstOf(leapDay, dayOf('2096-02-29')))).toBe('2096-02-29');
});

describe('day and month that may be swapped', () => {
  test.each([
    // Of 1 May and 5 January the one that is still to come is named first, whichever is sooner.
    ['1/5/2026', '1 May 2026'],
    ['5/1/2026', '1 May 2026'],
    ['1/5/26', '1 May 2026'],
    ['3/4/2025', '4 Mar 2025'],
  ])('%s', (typed, example) => {
    const refused = saidDay(typed, dayOf('2026-03-04'));
    expect(isRefusal(refused) && [refused.code, refused.example]).toEqual(['two-readings', example]);
  });
});

describe('a number that takes its month, and its year, from beside it', () => {
  test.each([
    ['24 and 25 Dec 2027', '2027-12-24 2027-12-25'],
    ['Jan 5, Dec 24, 25', '2026-12-24 2026-12-25 2027-01-05'],
    ['24, 25 Dec, 5 Jan', '2026-12-24 2026-12-25 2027-01-05'],
  ])('%s', (typed, expected) => expect(read(typed)).toBe(expected));
});

test('a weekday after a day is the one that comes after that day', () =>
  expect(read('next mon to wed')).toBe('2026-03-09 2026-03-10 2026-03-11'));

describe('how many, and how far', () => {
  test('a hundred days, and not one more', () => {
    // April has 30 days, May 31, June 30: with nine of July that is 100.
    expect(read('1 Apr to 9 Jul').split(' ')).toHaveLength(100);
    expect(read('1 Apr to 10 Jul')).toBe('bad-range');
    expect(isoDates('2021-04-01..2021-07-09')).toHaveLength(100);
    expect(isRefusal(isoDates('2021-04-01..2021-07-10'))).toBe(true);
  });
  test('two years, of which one is a leap year, and not a day more', () => {
    expect(read('2028-03-04')).toBe('2028-03-04');
    expect(read('2028-03-05')).toBe('too-far');
  });
  test('an ISO range has two ends', () => expect(isRefusal(isoDates('2020-01-01..2020-01-02..2020-01-03'))).toBe(true));
});
