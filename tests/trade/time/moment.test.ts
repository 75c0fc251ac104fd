import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOUR, MINUTE } from '../../../src/trade/time/calendar.ts';
import { momentOf, spanOf, wallClockOf } from '../../../src/trade/time/moment.ts';
import { isRefusal } from '../../../src/words/refusal.ts';

const BERLIN = 'Europe/Berlin';
const NOW = Date.parse('2026-03-02T14:30+01:00');
const iso = (text: string, now = NOW, zone = BERLIN) => {
  const moment = momentOf(text, now, zone);
  if (isRefusal(moment)) return moment.code;
  return new Date(moment).toISOString().slice(0, 16);
};

test.each([
  ['now', '2026-03-02T13:30'],
  ['10m ago', '2026-03-02T13:20'],
  ['10 minutes ago', '2026-03-02T13:20'],
  ['-10m', '2026-03-02T13:20'],
  ['- 10 min', '2026-03-02T13:20'],
  ['2h30m ago', '2026-03-02T11:00'],
  ['2 h 30 min ago', '2026-03-02T11:00'],
  ['1h30 ago', '2026-03-02T12:00'],
  ['1.5h ago', '2026-03-02T12:00'],
  ['1,5 h ago', '2026-03-02T12:00'],
  ['1 hour and 5 minutes ago', '2026-03-02T12:25'],
  ['1d ago', '2026-03-01T13:30'],
  ['14:05', '2026-03-02T13:05'],
  ['today 14:05', '2026-03-02T13:05'],
  ['2 pm', '2026-03-02T13:00'],
  ['yesterday 22:10', '2026-03-01T21:10'],
  ['Yesterday 22.10', '2026-03-01T21:10'],
  ['2026-03-02T14:05', '2026-03-02T13:05'],
  ['2026-03-02 14:05', '2026-03-02T13:05'],
  ['2026-03-02T14:05+02:00', '2026-03-02T12:05'],
  ['2026-03-02T13:05Z', '2026-03-02T13:05'],
  ['jetzt', '2026-03-02T13:30'],
  ['heute 14.05 Uhr', '2026-03-02T13:05'],
  ['gestern 22 Uhr', '2026-03-01T21:00'],
  ['vor 10 min', '2026-03-02T13:20'],
])('%s', (text, expected) => expect(iso(text)).toBe(expected));

describe('the last time that the clock showed it', () => {
  test('at half past midnight, 23:50 is ten to midnight', () =>
    expect(iso('23:50', Date.parse('2026-03-03T00:30+01:00'))).toBe('2026-03-02T22:50'));
  test('in the afternoon, 23:50 is still to come, not last night’s', () => expect(iso('23:50')).toBe('in-future'));
  test('this minute is now', () => expect(iso('14:30', NOW + 20_000)).toBe('2026-03-02T13:30'));
});

test.each(['14:32', 'today 15:00', '2026-03-02T15:00', '2027-01-01 08:00', '2026-03-02T14:00-01:00'])(
  '%s is still to come',
  (text) => expect(iso(text)).toBe('in-future'),
);

test.each([
  '',
  'soon',
  'ago',
  '10 ago',
  '-10',
  '10 bananas ago',
  '1 month ago',
  '25:00',
  '14:60',
  '2026-13-40 14:05',
  '9',
  'tomorrow 8:00',
  '13pm',
  '10m ago x',
])('%j is refused with an example', (text) => {
  const refusal = momentOf(text, NOW, BERLIN);
  expect(isRefusal(refusal) && [refusal.code, refusal.example]).toEqual(['bad-time', expect.stringContaining('10m ago')]);
});

test.each(['99999d ago', '99999999999999d ago', `${'9'.repeat(400)}d ago`, '1926-03-02 14:05'])('%s is a slip', (text) =>
  expect(iso(text)).toBe('too-long-ago'),
);

test('over the night of the change a wall clock is a wall clock', () => {
  const morning = Date.parse('2026-03-29T08:00+02:00');
  expect(iso('yesterday 23:00', morning)).toBe('2026-03-28T22:00');
  expect(iso('01:30', morning)).toBe('2026-03-29T00:30');
  expect(iso('8h ago', morning)).toBe('2026-03-28T22:00');
});

test('whatever is typed, it is a time that has passed or a refusal', () =>
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.stringMatching(/^(yesterday |-)?\d{1,5}[:.hmd ]?\d{0,3} ?(m|h|pm|ago)?( ago)?$/)),
      (text) => {
        const moment = momentOf(text, NOW, BERLIN);
        if (isRefusal(moment)) return;
        expect(moment).toBeLessThanOrEqual(NOW);
        expect(Number.isNaN(new Date(moment).getTime())).toBe(false);
      },
    ),
    { numRuns: 1000 },
  ));

test('a span of hours and minutes is read however it is written', () =>
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 0, max: 59 }), (h, m) => {
      for (const text of [`${h}h${m}m`, `${h}h${m}`, `${h} h ${m} min`, `${h} hours and ${m} minutes`, `${h * 60 + m}m`])
        expect(spanOf(text)).toBe(h * HOUR + m * MINUTE);
    }),
  ));

test.each([
  ['14:05', 845],
  ['7.30', 450],
  ['14h05', 845],
  ['12 am', 0],
  ['12pm', 720],
  ['00:00', 0],
  ['24:00', null],
  ['0pm', null],
])('the wall clock at %s', (text, minute) => expect(wallClockOf(text)).toBe(minute));
