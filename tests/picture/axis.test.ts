import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisOf, isNear, ticksOf, xOf } from '../../src/picture/axis.ts';

const HOUR = 3_600_000;

/** What the platform's own calendar (ECMA-402) shows, beside luxon, by which the axis is made. */
const shown = (at: number, zone: string, options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat('en-GB', { timeZone: zone, hourCycle: 'h23', ...options }).format(at);

describe('ticks', () => {
  // Central European clocks go forward on 29 March 2026 at 02:00 and back on 25 October 2026 at 03:00 (Directive 2000/84/EC).
  it.each(['2026-03-28T20:00Z', '2026-10-24T20:00Z'])(
    'stand where the clock shows their hour, on the night that it jumps: %s',
    (iso) => {
      const from = Date.parse(iso);
      const ticks = ticksOf({ from, until: from + 10 * HOUR, left: 0, right: 900 }, 'Europe/Berlin', 80);
      expect(ticks.length).toBeGreaterThanOrEqual(8);
      for (const { at, label, day } of ticks)
        expect(day ? '00:00' : label).toBe(shown(at, 'Europe/Berlin', { hour: '2-digit', minute: '2-digit' }));
      expect(ticks.map(({ label }) => label)).not.toHaveLength(0);
      expect([...ticks].sort((a, b) => a.at - b.at)).toEqual(ticks);
    },
  );

  it('leave out the hour that the clock leaves out', () => {
    const from = Date.parse('2026-03-28T22:00Z');
    const labels = ticksOf({ from, until: from + 6 * HOUR, left: 0, right: 900 }, 'Europe/Berlin', 80).map(({ label }) => label);
    expect(labels).toEqual(expect.arrayContaining(['01:00', '03:00']));
    expect(labels).not.toContain('02:00');
  });

  it('name as many days as stand clear of each other', () => {
    const from = Date.parse('2026-03-02T00:00Z');
    const days = (count: number) =>
      ticksOf({ from, until: from + count * 24 * HOUR, left: 0, right: 840 }, 'Etc/UTC', 100).map(
        ({ at }) => (at - from) / (24 * HOUR),
      );
    expect(days(8)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(days(16)).toEqual([0, 2, 4, 6, 8, 10, 12, 14, 16]);
    expect(days(21)).toEqual([0, 3, 6, 9, 12, 15, 18, 21]);
    expect(days(30)).toEqual([0, 7, 14, 21, 28]);
  });

  it('are whole days, at midnight of the zone, and never closer than asked, over any stretch of time', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('Europe/Berlin', 'America/St_Johns', 'Australia/Lord_Howe', 'Asia/Kathmandu'),
        fc.integer({ min: 0, max: 365 * 24 }),
        fc.integer({ min: 1, max: 24 * 60 }),
        (zone, start, hours) => {
          const from = Date.parse('2026-01-01T00:00Z') + start * HOUR;
          const part = { from, until: from + hours * HOUR, left: 0, right: 800 };
          const ticks = ticksOf(part, zone, 90);
          for (const [index, tick] of ticks.entries()) {
            if (tick.day) expect(shown(tick.at, zone, { hour: '2-digit', minute: '2-digit' })).toBe('00:00');
            if (tick.day) expect(tick.label).toBe(shown(tick.at, zone, { weekday: 'short', day: 'numeric' }));
            const next = ticks[index + 1];
            // The hour that a clock takes away, or repeats, is missing between two ticks, or twice there.
            if (next) expect(next.at - tick.at).toBeGreaterThanOrEqual((90 * hours * HOUR) / 800 - HOUR - 1);
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('what comes soon', () => {
  it('is work that goes on, or begins within seven hours', () => {
    const now = Date.parse('2026-03-02T10:00Z');
    const near = (from: number, until: number) => isNear([{ from: now + from * HOUR, until: now + until * HOUR }], now);
    expect([near(-2, -1), near(-2, 1), near(6, 8), near(8, 9)]).toEqual([false, true, true, false]);
    expect(isNear([], now)).toBe(false);
  });
});

describe('an axis', () => {
  it('keeps the order of time, in one scale and in two', () => {
    const now = Date.parse('2026-03-02T10:00Z');
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 700 }),
        fc.boolean(),
        fc.array(fc.integer({ min: -10_000, max: 50_000 }), { minLength: 2 }),
        (hours, nearFirst, minutes) => {
          const axis = axisOf({ from: now - 2 * HOUR, until: now + hours * HOUR }, now, 28, 872, nearFirst);
          const places = [...minutes].sort((a, b) => a - b).map((minute) => xOf(axis, now + minute * 60_000));
          expect([...places].sort((a, b) => a - b)).toEqual(places);
          expect(Math.min(...places)).toBeGreaterThanOrEqual(28);
          expect(Math.max(...places)).toBeLessThanOrEqual(872);
        },
      ),
    );
  });
});
