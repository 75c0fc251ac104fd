import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOUR, MINUTE } from '../../../src/trade/time/calendar.ts';
import { celsiusAt, type Expectation, stretchAt } from '../../../src/trade/time/conditions.ts';
import { goneThrough, type Speed, waitOver } from '../../../src/trade/time/cure.ts';
import { under } from '../../support/conditions.ts';

const at = (clock: string, day = 2) => Date.parse(`2026-03-${String(day).padStart(2, '0')}T${clock}Z`);
const DAY = { fromMinute: 7 * 60, untilMinute: 19 * 60 };
const expected = (clock: string, more: Partial<Expectation> = {}): Expectation => ({
  at: at(clock),
  dayCelsius: 21,
  nightCelsius: 14,
  day: DAY,
  zone: 'Etc/UTC',
  ...more,
});
const Q10: Speed = { law: { law: 'q10', q10: 2 }, referenceCelsius: 23 };

describe('what was said last counts', () => {
  const afternoon = under([{ at: at('16:00'), celsius: 23 }], { expectations: [expected('15:00')] });
  test.each([
    ['18:59', 2, 23, true],
    ['19:00', 2, 14, false],
    ['06:59', 3, 14, false],
    ['07:00', 3, 21, false],
    ['19:00', 3, 14, false],
  ])('a reading holds until day or night begins: %s on the %d', (clock, day, celsius, read) =>
    expect(stretchAt(afternoon, at(clock, day))).toMatchObject({ celsius, read }),
  );
  test('an expectation told after the reading holds at once', () => {
    const evening = under([{ at: at('19:30'), celsius: 18 }], { expectations: [expected('20:00')] });
    expect([celsiusAt(evening, at('19:59')), celsiusAt(evening, at('20:00'))]).toEqual([18, 14]);
  });
  test.each([
    [1, 2, 21],
    [2, 1, 23],
  ])('at one moment, the number of the event decides: reading %d, expectation %d', (reading, expectation, celsius) => {
    const both = under([{ at: at('16:00'), celsius: 23, seq: reading }], {
      expectations: [expected('16:00', { seq: expectation })],
    });
    expect(celsiusAt(both, at('16:01'))).toBe(celsius);
  });
  test('a reading in the night holds until the morning, and the next night is as expected', () => {
    const night = under([{ at: at('22:00'), celsius: 16 }], { expectations: [expected('15:00')] });
    expect([celsiusAt(night, at('03:00', 3)), celsiusAt(night, at('08:00', 3)), celsiusAt(night, at('20:00', 3))]).toEqual([
      16, 21, 14,
    ]);
  });
  test('the night before a morning reading stays as it was expected', () => {
    const morning = under(
      [
        { at: at('16:00'), celsius: 23 },
        { at: at('08:00', 3), celsius: 17 },
      ],
      { expectations: [expected('15:00')] },
    );
    expect([celsiusAt(morning, at('02:00', 3)), celsiusAt(morning, at('09:00', 3))]).toEqual([14, 17]);
  });
  test('only the night was told: by day it is as it was read last', () => {
    const nightOnly = under([{ at: at('16:00'), celsius: 23 }], { expectations: [expected('16:05', { dayCelsius: null })] });
    expect([at('17:00'), at('20:00'), at('08:00', 3)].map((each) => celsiusAt(nightOnly, each))).toEqual([23, 14, 23]);
  });
  test('nobody has said anything', () => expect(stretchAt(under(), at('08:00'))).toMatchObject({ celsius: null, read: false }));
  test('called off, the reading holds again', () => {
    const off = under([{ at: at('16:00'), celsius: 23 }], {
      expectations: [expected('15:00'), expected('18:00', { dayCelsius: null, nightCelsius: null })],
    });
    expect(celsiusAt(off, at('02:00', 3))).toBe(23);
  });
});

// Hand arithmetic. Twenty hours at 23 °C begun at 16:00: three at full pace until 19:00, twelve at 14 °C (2^-0.9 of it), the rest by day.
test('a cold night holds a cure back', () => {
  const pace = 2 ** -0.9;
  const conditions = under([{ at: at('16:00'), celsius: 23 }], { expectations: [expected('15:00', { dayCelsius: 23 })] });
  const left = 20 - 3 - 12 * pace;
  expect(waitOver(conditions, Q10, at('16:00'), 20 * 60)).toBeCloseTo(at('07:00', 3) + left * HOUR, -1);
});

test('the night on which the clocks go forward is an hour shorter', () => {
  const zone = 'Europe/Berlin';
  const told = Date.parse('2026-03-28T19:00+01:00');
  const conditions = under([], { expectations: [expected('15:00', { at: told, zone, dayCelsius: 23, nightCelsius: 13 })] });
  // From 19:00 to 07:00 pass eleven hours: half of them is gone through, and of seven hours an hour and a half is left.
  expect(waitOver(conditions, Q10, told, 7 * 60)).toBe(Date.parse('2026-03-29T08:30+02:00'));
});

const reading = fc.record({ at: fc.integer({ min: -1000, max: 2000 }), celsius: fc.integer({ min: 5, max: 35 }) });
const forecast = fc.record({
  at: fc.integer({ min: -1000, max: 2000 }),
  dayCelsius: fc.option(fc.integer({ min: 10, max: 30 })),
  nightCelsius: fc.option(fc.integer({ min: 5, max: 20 })),
  from: fc.integer({ min: 0, max: 1439 }),
  until: fc.integer({ min: 0, max: 1439 }),
});
const conditionsArb = fc
  .record({ readings: fc.array(reading, { maxLength: 6 }), forecasts: fc.array(forecast, { maxLength: 3 }) })
  .map(({ readings, forecasts }) =>
    under(
      readings.map((each, seq) => ({ ...each, at: at('08:00') + each.at * MINUTE, seq })).sort((a, b) => a.at - b.at),
      {
        expectations: forecasts
          .filter(({ from, until }) => from !== until)
          .map(({ from, until, ...each }, seq) => ({
            ...each,
            at: at('08:00') + each.at * MINUTE,
            day: { fromMinute: from, untilMinute: until },
            zone: 'Etc/UTC',
            seq: 100 + seq,
          }))
          .sort((a, b) => a.at - b.at),
      },
    ),
  );

/** Minute after minute, each asked for by itself. */
function minuteByMinute(conditions: ReturnType<typeof under>, begun: number, until: number): number {
  let gone = 0;
  for (let minute = begun; minute < until; minute += MINUTE) {
    const celsius = celsiusAt(conditions, minute);
    gone += celsius === null ? 1 : 2 ** ((celsius - 23) / 10);
  }
  return gone;
}

test('the time gone through is the sum of its minutes, and a wait of that long ends just then', () =>
  fc.assert(
    fc.property(
      conditionsArb,
      fc.integer({ min: 0, max: 600 }),
      fc.integer({ min: 1, max: 2000 }),
      (conditions, begun, lasts) => {
        const from = at('08:00') + begun * MINUTE;
        const until = from + lasts * MINUTE;
        const gone = goneThrough(conditions, Q10, from, until);
        expect(gone).toBeCloseTo(minuteByMinute(conditions, from, until), 6);
        expect(Math.abs(waitOver(conditions, Q10, from, gone) - until)).toBeLessThanOrEqual(1);
      },
    ),
    { numRuns: 40 },
  ));

test('who begins later is never ready earlier, whatever is expected', () =>
  fc.assert(
    fc.property(conditionsArb, fc.nat(2000), fc.nat(2000), fc.integer({ min: 0, max: 900 }), (conditions, a, b, minutes) => {
      const [sooner = 0, later = 0] = [Math.min(a, b), Math.max(a, b)].map((minute) =>
        waitOver(conditions, Q10, at('08:00') + minute * MINUTE, minutes),
      );
      expect(later).toBeGreaterThanOrEqual(sooner);
    }),
  ));

test('a wait of years ends, too', () => {
  const cold = under([], { expectations: [expected('08:00', { dayCelsius: 10, nightCelsius: -20 })] });
  expect(waitOver(cold, Q10, at('09:00'), 5 * 365 * 24 * 60)).toBeGreaterThan(at('09:00') + 5 * 365 * 24 * HOUR);
});
