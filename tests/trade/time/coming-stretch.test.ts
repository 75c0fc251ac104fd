import fc from 'fast-check';
import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { exactStretch } from '../../../src/trade/time/coming-stretch.ts';

test('from one instant until another, whatever a wall clock shows', () =>
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 500_000 }), fc.integer({ min: 1, max: 2000 }), (from, long) => {
      const ends = [from, from + long].map((minute) => Date.UTC(2026, 0, 1) + minute * 60_000);
      const typed = ends.map((end) => DateTime.fromMillis(end, { zone: 'Australia/Lord_Howe' }).toISO()).join('/');
      expect(exactStretch(typed)).toEqual({ from: ends[0], until: ends[1] });
    }),
  ));

test.each([
  '17:00-19:00',
  '2026-10-25 02:30/2026-10-25 02:00',
  '2026-10-25T02:30+02:00',
  '2026-10-25T02:30+01:00/2026-10-25T02:00+01:00',
  '2026-10-25T02:30+01:00/2026-10-25T03:00+01:00/2026-10-25T04:00+01:00',
  '',
])('%j is none', (text) => expect(exactStretch(text)).toBeNull());
