import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { staffedTime } from '../../src/bench/staffing.ts';
import { onDuty, type Studio } from '../../src/bench/studio.ts';
import { type StudioEvent, studioAfter } from '../../src/bench/studio-events.ts';
import { DAY, HOUR, type Hours, hoursText, MINUTE } from '../../src/trade/time/calendar.ts';
import { hours, studio } from '../support/studio.ts';

const BERLIN = 'Europe/Berlin';
const at = (text: string, zone = BERLIN) => DateTime.fromISO(text, { zone }).toMillis();
const works = (more: Partial<Studio> = {}) =>
  studio({
    zone: BERLIN,
    shifts: { hours: [hours('06:00-14:00'), hours('14:00-22:00')], days: [1, 2, 3, 4, 5] },
    duty: { always: [], byShift: {} },
    ...more,
  });
const handsIn = (more: Partial<Studio>) =>
  staffedTime(works(more), at('2026-03-02T00:00'), at('2026-03-03T00:00'))?.map((each) => each.hands);

describe('hands of a shift', () => {
  test.each<[string, Partial<Studio>, number[]]>([
    ['never none', {}, [1, 1]],
    [
      'as many as are on duty, a role counts as one',
      { duty: { always: ['ann'], byShift: { '06:00-14:00': ['bob', '&7'] } } },
      [3, 1],
    ],
    ['each person once', { duty: { always: ['ann'], byShift: { '06:00-14:00': ['bob', 'ann'] } } }, [2, 1]],
    ['as was said of all', { hands: { all: 3, byShift: {} }, duty: { always: ['ann'], byShift: {} } }, [3, 3]],
    ['as was said of that one', { hands: { all: 3, byShift: { '14:00-22:00': 2 } } }, [3, 2]],
  ])('%s', (_, more, expected) => expect(handsIn(more)).toEqual(expected));
});

test('the ends of the time that was asked for cut a shift short', () =>
  expect(staffedTime(works(), at('2026-03-02T10:00'), at('2026-03-02T15:00'))).toEqual([
    { from: at('2026-03-02T10:00'), until: at('2026-03-02T14:00'), hands: 1, hours: hours('06:00-14:00') },
    { from: at('2026-03-02T14:00'), until: at('2026-03-02T15:00'), hands: 1, hours: hours('14:00-22:00') },
  ]));

test('extra hours stand beside the shifts, in order', () => {
  const extras = [{ from: at('2026-03-02T13:00'), until: at('2026-03-02T23:00'), hands: 2 }];
  expect(
    staffedTime(works({ extras }), at('2026-03-02T00:00'), at('2026-03-02T22:30'))?.map((each) => [each.hours, each.hands]),
  ).toEqual([
    [hours('06:00-14:00'), 1],
    [null, 2],
    [hours('14:00-22:00'), 1],
  ]);
});

test('somebody missing takes hands out of a shift, piece by piece, and none out of extra hours', () => {
  const missing = [{ from: at('2026-03-02T10:00'), until: at('2026-03-02T12:00'), hands: 2 }];
  const extras = [{ from: at('2026-03-02T11:00'), until: at('2026-03-02T13:00'), hands: 1 }];
  const shown = (all: number) =>
    staffedTime(works({ missing, extras, hands: { all, byShift: {} } }), at('2026-03-02T00:00'), at('2026-03-02T14:00'))?.map(
      ({ from, until, hands }) => [DateTime.fromMillis(from, { zone: BERLIN }).hour, (until - from) / HOUR, hands],
    );
  expect(shown(2)).toEqual([
    [6, 4, 2],
    [11, 2, 1],
    [12, 2, 2],
  ]);
  expect(shown(3)).toEqual([
    [6, 4, 3],
    [10, 2, 1],
    [11, 2, 1],
    [12, 2, 3],
  ]);
});

test('where shifts are not kept, all time will do, and extra hours say nothing', () =>
  expect(staffedTime(studio({ extras: [{ from: 0, until: HOUR, hands: 1 }] }), 0, DAY)).toBeNull());

/** The wall clock of a minute, and how far it is from UTC; luxon takes its time, and runs ask for the same ones. */
const walls = new Map<string, { date: string; shown: string; offset: number }>();
function wallOf(minute: number, zone: string) {
  const key = `${minute}/${zone}`;
  const known = walls.get(key);
  if (known) return known;
  const wall = DateTime.fromMillis(minute, { zone });
  const shown = wall.toFormat('yyyy-LL-dd HH:mm');
  const found = { date: shown.slice(0, 10), shown, offset: wall.offset };
  walls.set(key, found);
  return found;
}

/**
 * Hands minute by minute: the wall clock of every minute is read, and a shift goes from the first minute of its date that
 * shows its start to the first that shows its end. A time that is left out counts as so much later as the clocks jump.
 */
function handsByMinute(of: Studio, from: number, minutes: number): number[] {
  const first = from - 3 * DAY;
  const shown = new Map<string, number>();
  const jumps = new Map<string, number>();
  let before = wallOf(first - MINUTE, of.zone);
  for (let minute = first; minute < from + minutes * MINUTE + 3 * DAY; minute += MINUTE) {
    const wall = wallOf(minute, of.zone);
    if (!shown.has(wall.shown)) shown.set(wall.shown, minute);
    if (wall.offset > before.offset) jumps.set(wall.date, wall.offset - before.offset);
    before = wall;
  }
  const instant = (date: DateTime, minute: number): number => {
    const wall = (later: number) => {
      const time = minute + later;
      const two = (value: number) => String(value).padStart(2, '0');
      return shown.get(`${date.toISODate()} ${two(Math.floor(time / 60))}:${two(time % 60)}`);
    };
    return wall(0) ?? wall(jumps.get(date.toISODate() ?? '') ?? 0) ?? Number.NaN;
  };
  const counts = new Array<number>(minutes).fill(0);
  const add = (begin: number, end: number, handsAt: (now: number) => number) => {
    for (let minute = 0; minute < minutes; minute += 1) {
      const now = from + minute * MINUTE;
      if (now >= begin && now < end) counts[minute] = (counts[minute] ?? 0) + handsAt(now);
    }
  };
  const gone = (now: number) =>
    of.missing.reduce((sum, each) => sum + (each.from <= now && now < each.until ? each.hands : 0), 0);
  const start = DateTime.fromMillis(from, { zone: 'utc' }).startOf('day');
  for (let days = -2; days <= minutes / 1440 + 2; days += 1) {
    const date = start.plus({ days });
    if (!of.shifts.days.includes(date.weekday) || of.shifts.closed?.includes(date.toISODate() ?? '')) continue;
    for (const each of of.shifts.hours) {
      const end = each.untilMinute > each.fromMinute ? date : date.plus({ days: 1 });
      const hands = of.hands.byShift[hoursText(each)] ?? of.hands.all ?? 1;
      add(instant(date, each.fromMinute), instant(end, each.untilMinute), (now) => Math.max(0, hands - gone(now)));
    }
  }
  for (const { from: begin, until: end, hands } of of.extras) add(begin, end, () => hands);
  return counts;
}

// The time zone database: each of these days has a change of the clocks near it; Lord Howe's is half an hour.
const changes = fc.constantFrom(
  [BERLIN, '2026-03-28'],
  [BERLIN, '2026-10-24'],
  ['America/New_York', '2026-03-07'],
  ['America/New_York', '2026-10-31'],
  ['Australia/Lord_Howe', '2026-04-04'],
  ['Australia/Lord_Howe', '2026-10-03'],
) as fc.Arbitrary<[string, string]>;
const minuteOfDay = fc.oneof(
  fc.integer({ min: 0, max: 95 }).map((quarter) => quarter * 15),
  fc.integer({ min: 0, max: 1439 }),
);

type ToldTime = readonly [begin: number, long: number, hands: number];
const toldTimes = (maxLength: number): fc.Arbitrary<ToldTime[]> =>
  fc.array(fc.tuple(fc.integer({ min: -600, max: 4000 }), fc.integer({ min: 1, max: 600 }), fc.integer({ min: 1, max: 3 })), {
    maxLength,
  });
const toldFrom = (from: number, [begin, long, hands]: ToldTime) => ({
  from: from + begin * MINUTE,
  until: from + (begin + long) * MINUTE,
  hands,
});

test(
  'hands at every minute are those that the wall clock calls for, also over a change of the clocks',
  () =>
    fc.assert(
      fc.property(
        changes,
        fc.array(fc.record<Hours>({ fromMinute: minuteOfDay, untilMinute: minuteOfDay }), { minLength: 1, maxLength: 3 }),
        fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }),
        fc.uniqueArray(fc.integer({ min: -1, max: 3 }), { maxLength: 2 }),
        toldTimes(2),
        toldTimes(3),
        fc.constantFrom(null, 1, 2),
        fc.integer({ min: 0, max: 1439 }),
        fc.integer({ min: 1, max: 2 * 1440 }),
        ([zone, date], list, days, closedDays, extraTimes, missingTimes, all, late, minutes) => {
          const from = at(date, zone) + late * MINUTE;
          const of = studio({
            zone,
            shifts: {
              hours: list,
              days,
              closed: closedDays.map((day) => DateTime.fromISO(date, { zone: 'utc' }).plus({ days: day }).toISODate() ?? ''),
            },
            duty: { always: [], byShift: {} },
            hands: { all, byShift: { [hoursText(list[0] as Hours)]: 3 } },
            extras: extraTimes.map((told) => toldFrom(from, told)),
            missing: missingTimes.map((told) => toldFrom(from, told)),
          });
          const staffed = staffedTime(of, from, from + minutes * MINUTE) ?? [];
          const counts = new Array<number>(minutes).fill(0);
          for (const each of staffed)
            for (let minute = (each.from - from) / MINUTE; minute < (each.until - from) / MINUTE; minute += 1)
              counts[minute] = (counts[minute] ?? 0) + each.hands;
          expect(counts).toEqual(handsByMinute(of, from, minutes));
          expect(staffed.map((each) => each.from)).toEqual(staffed.map((each) => each.from).sort((a, b) => a - b));
        },
      ),
      { numRuns: 60 },
    ),
  60_000,
);

describe('what chat sets', () => {
  const NOW = at('2026-03-02T09:00');
  const stamp = { version: 1 as const, at: NOW, by: 'ann' };
  const withEvents = (...events: StudioEvent[]) => studioAfter(works(), events);
  const early = hours('06:00-14:00');
  const holidays = (add: string[], drop: string[] = [], when = NOW): StudioEvent => ({
    ...stamp,
    at: when,
    type: 'HolidaysSet',
    add,
    drop,
  });
  const extra = (from: string, until: string, hands = 1, when = NOW): StudioEvent => ({
    ...stamp,
    at: when,
    type: 'ExtraHoursSet',
    from: at(from),
    until: at(until),
    hands,
  });

  test('hands: of one shift, of all, and back to those on duty', () => {
    const one: StudioEvent = { ...stamp, type: 'HandsSet', hours: early, count: 2 };
    expect(withEvents(one).hands).toEqual({ all: null, byShift: { '06:00-14:00': 2 } });
    expect(withEvents(one, { ...one, count: null }).hands).toEqual({ all: null, byShift: {} });
    expect(withEvents(one, { ...one, hours: null, count: 4 }).hands).toEqual({ all: 4, byShift: {} });
  });
  test('holidays: in order, each once, taken back, and the old ones forgotten; new shift hours leave them', () => {
    const set = withEvents(holidays(['2026-12-25', '2026-03-04']), holidays(['2026-12-25', '2026-12-24']));
    expect(set.shifts.closed).toEqual(['2026-03-04', '2026-12-24', '2026-12-25']);
    const hoursSet: StudioEvent = {
      ...stamp,
      type: 'ShiftsSet',
      hours: [early],
      days: null,
      zone: null,
      graceMinutes: null,
      quiet: null,
    };
    const events = [holidays(['2026-12-25', '2026-12-24']), hoursSet, holidays([], ['2026-12-24'])];
    expect(withEvents(...events).shifts).toEqual({ hours: [early], days: [1, 2, 3, 4, 5], closed: ['2026-12-25'] });
    expect(withEvents(holidays(['2026-03-04']), holidays([], [], NOW + 370 * DAY)).shifts.closed).toEqual([]);
  });
  test('a day that runs and is a working day again: of its shift that began nothing is told', () => {
    expect(withEvents(holidays(['2026-03-02']), holidays([], ['2026-03-02'])).shiftsSince).toBe(NOW);
    expect(withEvents(holidays(['2026-03-04']), holidays([], ['2026-03-04'])).shiftsSince).toBe(0);
  });
  test('extra hours: the very same told anew count once, others stand beside each other and their hands add up', () => {
    const day = extra('2026-03-02T10:00', '2026-03-02T16:00', 2);
    const set = withEvents(day, extra('2026-03-02T12:20', '2026-03-02T12:25'), extra('2026-03-02T15:00', '2026-03-02T17:00'));
    const handsAt = (of: Studio, when: string) =>
      (staffedTime({ ...of, shifts: { ...of.shifts, hours: [hours('06:00-07:00')] } }, at(when), at(when) + MINUTE) ?? [])
        .map((each) => each.hands)
        .reduce((sum, count) => sum + count, 0);
    const shown = (of: Studio) => ['10:00', '12:20', '12:25', '15:30', '16:00'].map((time) => handsAt(of, `2026-03-02T${time}`));
    expect(shown(set)).toEqual([2, 3, 2, 3, 1]);
    expect(shown(studioAfter(set, [extra('2026-03-02T10:00', '2026-03-02T16:00', 1)]))).toEqual([1, 2, 1, 2, 1]);
    const exactly = { ...day, type: 'ExtraHoursDropped', exactly: true } as StudioEvent;
    expect(shown(studioAfter(set, [exactly]))).toEqual([0, 1, 0, 1, 1]);
  });
  test('extra hours: in order; taken back by the day; the old ones forgotten', () => {
    const set = withEvents(extra('2026-03-03T22:00', '2026-03-03T23:00'), extra('2026-03-02T22:00', '2026-03-02T23:00'));
    expect(set.extras.map(({ from }) => from)).toEqual([at('2026-03-02T22:00'), at('2026-03-03T22:00')]);
    const drop: StudioEvent = {
      ...stamp,
      type: 'ExtraHoursDropped',
      from: at('2026-03-02T00:00'),
      until: at('2026-03-03T00:00'),
    };
    expect(studioAfter(set, [drop]).extras.map(({ from }) => from)).toEqual([at('2026-03-03T22:00')]);
    const late = extra('2026-03-20T22:00', '2026-03-20T23:00', 1, at('2026-03-20T08:00'));
    expect(studioAfter(set, [late]).extras).toHaveLength(1);
  });
});

test('on a holiday nobody of the shift is on duty', () => {
  const shifts = { hours: [hours('22:00-06:00')], days: [1, 2, 3, 4, 5, 6, 7], closed: ['2026-12-25'] };
  const of = works({ shifts, duty: { always: ['ann'], byShift: { '22:00-06:00': ['bob'] } } });
  expect(onDuty(of, at('2026-12-25T05:00'))).toEqual(['bob', 'ann']);
  expect(onDuty(of, at('2026-12-25T23:00'))).toEqual(['ann']);
  expect(onDuty(of, at('2026-12-26T05:00'))).toEqual(['ann']);
});
