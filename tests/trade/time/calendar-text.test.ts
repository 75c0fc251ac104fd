import { describe, expect, test } from 'vitest';
import { parseDays, parseHours, parseHoursList, parsePeople, parseZone } from '../../../src/trade/time/calendar-text.ts';
import { isRefusal, Refusal } from '../../../src/words/refusal.ts';

const refused = (value: unknown) => {
  expect(value).toBeInstanceOf(Refusal);
  return value as Refusal;
};

describe('hours', () => {
  test.each([
    ['06:00-14:00', 360, 840],
    ['6-14', 360, 840],
    ['8-12 Uhr', 480, 720],
    ['von 8 Uhr bis 12 Uhr', 480, 720],
    ['6:00 to 14:00', 360, 840],
    ['06.30 – 14h', 390, 840],
    ['6am-2pm', 360, 840],
    ['12am-12pm', 0, 720],
    ['22:00-06:00', 1320, 360],
    ['16:00-24:00', 960, 0],
  ])('%s', (text, fromMinute, untilMinute) => expect(parseHours(text)).toEqual({ fromMinute, untilMinute }));

  test.each(['', '6', '6-', '25:00-26:00', '6:60-7', '13pm-2pm', '24:30-6', '-6-14', 'early-late', '6-14-22'])(
    '%j is refused',
    (text) => expect(refused(parseHours(text)).example).toBe('06:00-14:00'),
  );

  test('a list is sorted, and holds each shift once', () =>
    expect(parseHoursList('14-22, 06:00-14:00; 6-14')).toEqual([
      { fromMinute: 360, untilMinute: 840 },
      { fromMinute: 840, untilMinute: 1320 },
    ]));

  test.each(['', ' , ', '6-14, noon', '6-6', '6-14, 13-22', '22-6, 5-13', '6-22, 8-10'])(
    'the list %j is refused',
    (text) => void refused(parseHoursList(text)),
  );
});

describe('days', () => {
  test.each([
    ['mon-fri', [1, 2, 3, 4, 5]],
    ['mon,wed', [1, 3]],
    ['Mo-Do', [1, 2, 3, 4]],
    ['di, mi, sonntag', [2, 3, 7]],
    ['Sonnabend', [6]],
    ['Monday to Wednesday and Sundays', [1, 2, 3, 7]],
    ['fri - mon', [1, 5, 6, 7]],
    ['daily', [1, 2, 3, 4, 5, 6, 7]],
    ['every day', [1, 2, 3, 4, 5, 6, 7]],
    ['weekdays', [1, 2, 3, 4, 5]],
    ['weekends', [6, 7]],
    ['thu thu', [4]],
  ])('%s', (text, days) => expect(parseDays(text)).toEqual(days));

  test.each(['', 'someday', 'm', 'mon-fri-sun', 'constructor', '1'])('%j is refused', (text) => void refused(parseDays(text)));
  test('a slip is understood as one', () => expect(refused(parseDays('wendesday')).example).toBe('wednesday'));
});

describe('zone', () => {
  test.each([
    ['Europe/Berlin', 'Europe/Berlin'],
    ['america/new york', 'America/New_York'],
    ['Etc/UTC', 'Etc/UTC'],
    ['utc', 'UTC'],
  ])('%s', (text, zone) => expect(parseZone(text)).toBe(zone));

  test.each([
    ['Europe/Berln', 'Europe/Berlin'],
    ['berlin', 'Europe/Berlin'],
    ['Tokio', 'Asia/Tokyo'],
  ])('%s is offered %s', (text, zone) => expect(refused(parseZone(text)).example).toBe(zone));
  test.each(['', '+02:00', 'nowhere at all'])('%j is refused', (text) => void refused(parseZone(text)));
});

describe('people', () => {
  test.each([
    ['dana, kim', ['dana', 'kim']],
    ['@dana @kim and lee', ['dana', 'kim', 'lee']],
    ['<@42> & <@!7>', ['42', '7']],
    ['Zoë, Zoë', ['Zoë']],
    ['<@&42> & <@!7>,&43', ['&42', '7', '&43']],
    ['dana&kim', ['dana', 'kim']],
  ])('%s', (text, ids) => expect(parsePeople(text)).toEqual(ids));
  test.each(['', 'and', '@', 'a*b', '<@dana'])('%j is refused', (text) => expect(isRefusal(parsePeople(text))).toBe(true));
});
