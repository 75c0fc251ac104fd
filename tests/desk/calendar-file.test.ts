import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type CalendarAsk, type CalendarPlan, calendarOf } from '../../src/desk/calendar-file.ts';

/**
 * The file is read by a parser that shares nothing with what wrote it, and held against RFC 5545: content lines of at most 75 octets
 * that end with CRLF (3.1), text escaped (3.3.11), DTEND later than DTSTART (3.8.2.2), UID and DTSTAMP in every event (3.6.1).
 */
const MINUTE = 60_000;
const at = (iso: string) => Date.parse(iso);

const plan = (more: Partial<CalendarPlan> = {}): CalendarPlan => ({
  job: 'lion-head',
  name: 'Lion head',
  holder: 'dana',
  misfit: null,
  steps: [
    {
      step: 'coat-1',
      title: 'First coat',
      kind: 'coat',
      startsAt: at('2026-03-29T00:15:00Z'),
      endsAt: at('2026-03-29T00:30:00Z'),
      opensAt: at('2026-03-29T00:15:00Z'),
      closesAt: null,
      latestAt: null,
    },
    {
      step: 'coat-2',
      title: 'Second coat',
      kind: 'coat',
      startsAt: at('2026-03-29T01:15:00Z'),
      endsAt: at('2026-03-29T01:30:00Z'),
      opensAt: at('2026-03-29T00:59:00Z'),
      closesAt: at('2026-03-29T03:30:00Z'),
      latestAt: at('2026-03-29T02:00:00Z'),
    },
  ],
  readyAt: at('2026-03-29T15:30:00Z'),
  readyBy: null,
  ...more,
});

const ask = (more: Partial<CalendarAsk> = {}): CalendarAsk => ({
  studioName: 'Harbour studio',
  zone: 'Europe/Berlin',
  channel: 'bench',
  plans: [plan()],
  now: at('2026-03-28T08:00:00Z'),
  ...more,
});

const parsed = (file: string) => new ICAL.Component(ICAL.parse(file) as unknown[]);
const eventsIn = (file: string) => parsed(file).getAllSubcomponents('vevent');
const value = (event: ICAL.Component, name: string) => String(event.getFirstPropertyValue(name));
const instant = (event: ICAL.Component, name: string) => (event.getFirstPropertyValue(name) as ICAL.Time).toJSDate().getTime();

describe('a calendar of one job', () => {
  const file = calendarOf(ask());
  const [first, second, ready] = eventsIn(file) as [ICAL.Component, ICAL.Component, ICAL.Component];

  it('has an entry for each step, and one for when it is ready', () => {
    expect(eventsIn(file).map((event) => value(event, 'summary'))).toEqual([
      'First coat: Lion head',
      'Second coat: Lion head',
      'Ready: Lion head',
    ]);
    expect(instant(second, 'dtstart')).toBe(at('2026-03-29T01:15:00Z'));
    expect(instant(second, 'dtend')).toBe(at('2026-03-29T01:30:00Z'));
    expect(instant(ready, 'dtend') - instant(ready, 'dtstart')).toBe(15 * MINUTE);
  });

  it('says the window by the clock of the studio, also in the night in which the clocks go forward', () => {
    // At 01:00 UTC on 29 March 2026 Berlin goes from 02:00 to 03:00 (Directive 2000/84/EC).
    expect(value(second, 'description')).toContain('Begin it between Sun 29 Mar 01:59 and Sun 29 Mar 05:30.');
    expect(value(second, 'description')).toContain('Begun by Sun 29 Mar 04:00, all that follows still fits.');
    expect(value(first, 'description')).toContain('Begin it from Sun 29 Mar 01:15 on.');
    expect(value(first, 'description')).toContain('Then: Second coat, Sun 29 Mar 03:15.');
    expect(value(second, 'description')).toContain('Then it is ready, Sun 29 Mar 17:30.');
    expect(value(second, 'description')).toContain('With dana.');
  });

  it('rings at the start of what has a last moment, and of nothing else', () => {
    const alarms = (event: ICAL.Component) => event.getAllSubcomponents('valarm');
    expect([first, second, ready].map((event) => alarms(event).length)).toEqual([0, 1, 0]);
    const [alarm] = alarms(second) as [ICAL.Component];
    expect(value(alarm, 'action')).toBe('DISPLAY');
    expect((alarm.getFirstPropertyValue('trigger') as ICAL.Duration).toSeconds()).toBe(0);
    expect([first, second, ready].map((event) => value(event, 'transp'))).toEqual(['OPAQUE', 'OPAQUE', 'TRANSPARENT']);
  });

  it('names itself, and who wrote it', () => {
    expect(value(parsed(file), 'prodid')).toMatch(/^-\/\/Coatbell\/\//);
    expect(value(parsed(file), 'version')).toBe('2.0');
    expect(value(parsed(file), 'x-wr-calname')).toBe('Coatbell: Harbour studio');
  });

  it('does not tell a number as a person', () => {
    for (const holder of ['123456789012345678', '&42', null])
      expect(calendarOf(ask({ plans: [plan({ holder })] }))).not.toContain('With');
  });
});

describe('taken in again', () => {
  const uids = (more: Partial<CalendarAsk>) => eventsIn(calendarOf(ask(more))).map((event) => value(event, 'uid'));

  it('moves its entries: the same UID for the same step, and a greater SEQUENCE', () => {
    const later = plan({
      steps: plan()
        .steps.slice(1)
        .map((step) => ({ ...step, startsAt: step.startsAt + 40 * MINUTE })),
    });
    const [, ...rest] = uids({});
    expect(uids({ plans: [later], now: at('2026-03-29T00:00:00Z') })).toEqual(rest);
    const sequence = (now: number) => Number(value(eventsIn(calendarOf(ask({ now })))[0] as ICAL.Component, 'sequence'));
    expect(sequence(at('2026-03-28T08:01:00Z'))).toBeGreaterThan(sequence(at('2026-03-28T08:00:00Z')));
    // 3.3.8: an integer is at most 2147483647.
    expect(sequence(at('2199-01-01T00:00:00Z'))).toBeLessThan(2 ** 31);
  });

  it('mistakes no other job for it, of another bench, or one that has not begun', () => {
    const all = [
      ...uids({}),
      ...uids({ channel: 'bench-2' }),
      ...uids({ plans: [plan({ job: null })] }),
      ...uids({ plans: [plan({ job: null, name: 'lion-head' })] }),
      ...uids({ plans: [plan({ job: 'owl' })] }),
      ...uids({ plans: [plan({ steps: plan().steps.map((step) => ({ ...step, step: `ready-${step.step}` })), job: 'ready' })] }),
    ];
    expect(new Set(all).size).toBe(all.length);
  });
});

/** Characters of which formats are made, that break lines, that are long, or that are none. */
const hostile = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        ',',
        ';',
        ':',
        '\\',
        '"',
        '\n',
        '\r\n',
        '\r',
        '\\n',
        '\u2028',
        '\u0085',
        '\u0000',
        '\u0007',
        '\t',
        '\u001b[31m',
      ),
      fc.constantFrom('🦁', '👩‍🔧', 'ü', '漢', '\ud800', '\udc00', '\u202e', ' ', 'END:VEVENT', '\nBEGIN:VALARM'),
      fc.string({ unit: 'binary', maxLength: 8 }),
    ),
    { maxLength: 60 },
  )
  .map((pieces) => pieces.join(''));

/** Minutes around the four nights in which the clocks change in one of these zones, or anywhere in a century. */
const zones = fc.constantFrom('Europe/Berlin', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Etc/UTC');
const CHANGES = ['2026-03-29T01:00Z', '2026-10-25T01:00Z', '2026-03-08T07:00Z', '2026-11-01T06:00Z'].map((iso) => at(iso));
const starts = fc.oneof(
  fc.tuple(fc.constantFrom(...CHANGES), fc.integer({ min: -200, max: 200 })).map(([change, off]) => change + off * MINUTE),
  fc.integer({ min: at('2000-01-01T00:00Z') / 1000, max: at('2099-12-31T00:00Z') / 1000 }).map((seconds) => seconds * 1000),
);

const plans = fc
  .record({
    name: hostile,
    title: hostile,
    holder: fc.option(hostile),
    job: fc.option(fc.string({ unit: 'grapheme', minLength: 1 })),
    start: starts,
    minutes: fc.array(fc.integer({ min: 0, max: 600 }), { minLength: 1, maxLength: 6 }),
    closes: fc.boolean(),
  })
  .map(({ name, title, holder, job, start, minutes, closes }): CalendarPlan => {
    let now = start;
    const steps = minutes.map((hands, index) => {
      const startsAt = now;
      now += (hands + 30) * MINUTE;
      const endsAt = startsAt + hands * MINUTE;
      const closesAt = closes ? endsAt + 60 * MINUTE : null;
      return {
        step: `s${index}`,
        title,
        kind: 'coat' as const,
        startsAt,
        endsAt,
        opensAt: startsAt,
        closesAt,
        latestAt: closesAt,
      };
    });
    return { job, name, holder, misfit: null, steps, readyAt: now, readyBy: null };
  });

it('holds whatever names and times there are, and each time is read as it was', () => {
  fc.assert(
    fc.property(plans, hostile, zones, starts, (one, studioName, zone, now) => {
      const file = calendarOf(ask({ plans: [one], studioName, zone, now }));
      for (const line of file.split('\r\n')) {
        expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(line).not.toMatch(/\p{Cc}|\p{Cs}/u);
      }
      expect(file.endsWith('END:VCALENDAR\r\n')).toBe(true);
      const events = eventsIn(file);
      expect(events).toHaveLength(one.steps.length + 1);
      expect(parsed(file).getAllSubcomponents()).toHaveLength(events.length);
      one.steps.forEach((step, index) => {
        const event = events[index] as ICAL.Component;
        expect(instant(event, 'dtstart')).toBe(step.startsAt);
        expect(instant(event, 'dtend')).toBe(Math.max(step.endsAt, step.startsAt + MINUTE));
        expect(event.getAllSubcomponents()).toHaveLength(step.closesAt === null ? 0 : 1);
        for (const name of ['uid', 'dtstamp', 'dtstart', 'dtend', 'summary', 'description', 'sequence', 'transp'])
          expect(event.getAllProperties(name)).toHaveLength(1);
        expect(event.getAllProperties()).toHaveLength(8);
      });
      expect(instant(events.at(-1) as ICAL.Component, 'dtstart')).toBe(one.readyAt);
    }),
    { numRuns: 300 },
  );
});

it('gives names back letter by letter, as far as they are letters', () => {
  const told = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 120 })
    .map((text) => text.replace(/[\p{Cc}\u2028-\u202e\u2066-\u2069]/gu, 'x'));
  fc.assert(
    fc.property(told, told, (name, studioName) => {
      const file = calendarOf(ask({ plans: [plan({ name })], studioName }));
      expect(value(eventsIn(file)[0] as ICAL.Component, 'summary')).toBe(`First coat: ${name}`);
      // The parser knows no NAME (RFC 7986, 5.1: text), and gives it as it stands.
      expect(value(parsed(file), 'name').replace(/\\([\\;,])/g, '$1')).toBe(`Coatbell: ${studioName}`);
      expect(value(parsed(file), 'name')).not.toMatch(/(?<!\\)(?:\\\\)*[;,]/);
    }),
  );
});
