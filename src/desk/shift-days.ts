import type { StudioEvent } from '../bench/studio-events.ts';
import { dayText } from '../cards/day-text.ts';
import { hoursTyped } from '../cards/plan-trouble.ts';
import { handsText } from '../cards/shift-card.ts';
import {
  DAY,
  dateAt,
  HOUR,
  type Hours,
  hoursText,
  isoDate,
  nextWallClock,
  onDate,
  shiftsBetween,
} from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { datesText, parseDates } from '../trade/time/days.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, line } from './examples.ts';

type At = Pick<Desk, 'studio' | 'now' | 'who'>;
type Events = StudioEvent[] | Refusal;

const stampOf = ({ now, who }: At) => ({ version: 1 as const, at: now, by: who });
const today = ({ studio, now }: At) => isoDate(dateAt(now, studio.zone));

/** ISO dates; `lineOf`: the line that an example would be. */
export function datesIn({ studio, now }: At, typed: string, lineOf: (example: string) => string): string[] | Refusal {
  const dates = parseDates(typed, now, studio.zone);
  return isRefusal(dates) ? again(dates, { example: lineOf(dates.example ?? 'tomorrow') }) : dates;
}

type HolidaysSet = Extract<StudioEvent, { type: 'HolidaysSet' }>;

export const closedOn = (at: At, dates: readonly string[]): HolidaysSet => ({
  ...stampOf(at),
  type: 'HolidaysSet',
  add: [...dates],
  drop: [],
});

/** Takes back those of the days that are holidays. Refusal: `no-holiday` if none is. */
export function openOn(at: At, dates: readonly string[]): HolidaysSet | Refusal {
  const closed = at.studio.shifts.closed ?? [];
  const drop = dates.filter((date) => closed.includes(date));
  if (drop.length > 0) return { ...stampOf(at), type: 'HolidaysSet', add: [], drop };
  const coming = closed.find((date) => date >= today(at));
  const known = coming === undefined ? 'none is set' : `the next is ${dayText(coming, today(at))}`;
  return new Refusal('no-holiday', say`None of these days is a holiday; ${plain(known)}.`, {
    example: coming === undefined ? '/shift show' : line('shift workday', { days: coming }),
  });
}

/** As typed: on which days, which hours or until when. */
export interface Extra {
  readonly on: string | undefined;
  readonly hours: string | undefined;
  readonly until: string | undefined;
  readonly hands: number | undefined;
}

const USUAL_EXTRA = '17:00-19:00';
/** Nobody stays for longer; it is a slip. */
const LONGEST_EXTRA = 16 * HOUR;

const extraLine = ({ on, hours, until, hands }: Extra): string =>
  line('shift extra', { on, hours, until, hands: hands === undefined ? undefined : String(hands) });

/** "17:00-19:00 off", "off 17-19": one of the extra hours of a day; "off" alone: all of them. */
const offIn = (hours = ''): { hours: string } | null => {
  const found = /^(?<before>.*?)\s*\b(?:off|none|no)\b\s*(?<behind>.*)$/i.exec(hours.trim())?.groups;
  return found ? { hours: `${found['before']}${found['behind']}` } : null;
};

/** Extra hours on each of the days; or `hours:off` for none on them any more, and `hours:17:00-19:00 off` for those alone. */
export function extraOn(at: At, extra: Extra): Events {
  if (at.studio.shifts.hours.length === 0)
    return new Refusal('no-shifts', say`No shift hours are set, so any time counts as staffed. Set the shifts first.`, {
      example: line('shift set', { hours: '06:00-14:00', days: 'mon-fri' }),
    });
  const usual = { ...extra, hours: USUAL_EXTRA, until: undefined };
  const dates = datesIn(at, extra.on ?? 'today', (on) => extraLine({ ...usual, on: / to |,/.test(on) ? 'tomorrow' : on }));
  if (isRefusal(dates)) return dates;
  const off = offIn(extra.hours);
  if (off) return off.hours === '' ? dropped(at, wholeDays(at, dates)) : droppedHours(at, dates, off.hours);
  const exact = exactStretch(extra.hours ?? '');
  const days = exact ? [isoDate(dateAt(exact.from, at.studio.zone))] : dates;
  if (extra.hands === 0)
    return new Refusal('no-hands', say`Extra hours need a pair of hands. To take them back, say off.`, {
      example: takeBackLine(at, dates) ?? extraLine({ ...extra, hands: 1 }),
    });
  const events: StudioEvent[] = [];
  for (const date of days) {
    const ends = endsOf(at, date, extra, extraLine({ ...usual, on: date === today(at) ? 'tomorrow' : date }));
    if (isRefusal(ends)) return ends;
    events.push({ ...stampOf(at), type: 'ExtraHoursSet', ...ends, hands: extra.hands ?? 1 });
  }
  return events;
}

interface Ends {
  readonly from: number;
  readonly until: number;
}

const wholeDays = ({ studio: { zone } }: At, dates: readonly string[]): Ends[] =>
  dates.map((iso) => Date.parse(iso) / DAY).map((date) => ({ from: onDate(zone, date, 0), until: onDate(zone, date + 1, 0) }));

const beganIn = ({ studio }: At, day: Ends) => studio.extras.filter(({ from }) => from >= day.from && from < day.until);

function dropped(at: At, days: readonly Ends[]): Events {
  const events = days
    .filter((day) => beganIn(at, day).length > 0)
    .map((day) => ({ ...stampOf(at), type: 'ExtraHoursDropped' as const, ...day }));
  return events.length > 0 ? events : noneThere(at);
}

function droppedHours(at: At, dates: readonly string[], hours: string): Events {
  const exact = exactStretch(hours);
  const read = parseHours(hours);
  if (!exact && isRefusal(read)) return again(read, { example: takeBackLine(at, dates) ?? '/shift show' });
  const meant = exact || isRefusal(read) ? [exact] : dates.map((iso) => hoursOn(at, Date.parse(iso) / DAY, read));
  const events = meant
    .filter((each) => each !== null)
    .filter((meant) => at.studio.extras.some(({ from, until }) => from === meant.from && until === meant.until))
    .map((meant) => ({ ...stampOf(at), type: 'ExtraHoursDropped' as const, ...meant, exactly: true }));
  return events.length > 0 ? events : noneThere(at, dates);
}

const noneThere = (at: At, dates: readonly string[] = []): Refusal =>
  new Refusal('no-extra-hours', say`There are no such extra hours on these days.`, {
    example: takeBackLine(at, dates) ?? '/shift show',
  });

/** The line that takes back all extra hours of one of these days, or else of the next day that has some. */
function takeBackLine(at: At, dates: readonly string[]): string | undefined {
  const { studio, now } = at;
  const here = dates.find((iso) => wholeDays(at, [iso]).some((day) => beganIn(at, day).length > 0));
  const next = studio.extras.find(({ until }) => until > now);
  const on = here ?? (next && isoDate(dateAt(next.from, studio.zone)));
  return on !== undefined && on >= today(at) ? line('shift extra', { on, hours: 'off' }) : undefined;
}

/** Hours that end before they begin go over midnight. */
const hoursOn = ({ studio: { zone } }: At, date: number, { fromMinute, untilMinute }: Hours): Ends => ({
  from: onDate(zone, date, fromMinute),
  until: onDate(zone, untilMinute <= fromMinute ? date + 1 : date, untilMinute),
});

/** From when to when; `example`: a line that would do. */
function endsOf(at: At, iso: string, extra: Extra, example: string): Ends | Refusal {
  const ends = withinHours(at, iso, extra, example);
  if (isRefusal(ends)) return ends;
  const long = ends.until - ends.from;
  if (!(long > 0 && long <= LONGEST_EXTRA))
    return new Refusal('bad-length', say`Extra hours last up to 16 h, got ${clock(ends.from)} to ${clock(ends.until)}.`, {
      example,
    });
  if (ends.until <= at.now)
    return new Refusal('past-day', say`Expected extra hours still to come, got ${clock(ends.from)} to ${clock(ends.until)}.`, {
      example,
    });
  return ends;
}

function withinHours(at: At, iso: string, extra: Extra, example: string): Ends | Refusal {
  const { zone, shifts } = at.studio;
  const date = Date.parse(iso) / DAY;
  if ((extra.hours === undefined) === (extra.until === undefined))
    return new Refusal('which-hours', say`Say either the hours, or until when after the last shift.`, { example });
  if (extra.hours !== undefined) {
    const exact = exactStretch(extra.hours);
    if (exact) return exact;
    const hours = parseHours(extra.hours);
    if (isRefusal(hours)) return again(hours, { example });
    return hoursOn(at, date, hours);
  }
  const end = parseHours(`0:00-${extra.until}`);
  if (isRefusal(end))
    return new Refusal('bad-time', say`Expected a time such as 19:00, got “${extra.until ?? ''}”.`, { example });
  const midnight = onDate(zone, date, 0);
  const last = shiftsBetween(shifts, zone, midnight, onDate(zone, date + 1, 0) - 1).filter(({ from }) => from >= midnight);
  const from = Math.max(...last.map(({ until }) => until));
  if (last.length === 0)
    return new Refusal('no-shift', say`No shift begins on ${plain(dayText(iso, iso))}: say the hours.`, { example });
  const until = nextWallClock(zone, from, end.untilMinute);
  if (until - from <= LONGEST_EXTRA) return { from, until };
  return new Refusal(
    'bad-length',
    say`Expected a time after ${clock(from)}, when the last shift ends, got “${extra.until ?? ''}”.`,
    {
      example,
    },
  );
}

/** The shifts and the other extra hours that these come on top of, which may be a surprise; `studio`: as it was before. */
export function onTopOf({ studio }: At, events: readonly StudioEvent[]): Text[] {
  const extras = events.flatMap((event) => (event.type === 'ExtraHoursSet' ? [event] : []));
  const shifts = extras.flatMap(({ from, until }) =>
    shiftsBetween(studio.shifts, studio.zone, from, until)
      .filter((shift) => shift.from < until)
      .map((shift) => hoursText(shift.hours)),
  );
  const others = studio.extras.filter((each) => extras.some((extra) => each.from < extra.until && each.until > extra.from));
  const beside = others.filter((each) => !extras.some(({ from, until }) => each.from === from && each.until === until));
  const replaced = others.length - beside.length;
  return [
    ...(shifts.length === 0 ? [] : [say`On top of the hands in ${plain([...new Set(shifts)].join(', '))}.`]),
    ...(replaced === 0 ? [] : [say`In place of the same extra hours told before.`]),
    ...beside
      .slice(0, 1)
      .map(
        ({ from, until, hands }) =>
          say`Beside the extra hours ${clock(from)} to ${clock(until)} (${plain(handsText(hands))})${plain(beside.length === 1 ? '' : ` and ${beside.length - 1} more`)}: hands add up.`,
      ),
  ];
}

/** "Extra hours Sat 08:00 to 12:00", or that there are none any more. */
export function extraTitle(events: readonly StudioEvent[]): Text {
  const extras = events.flatMap((event) => (event.type === 'ExtraHoursSet' ? [event] : []));
  const [first] = extras;
  if (first === undefined) return say`Extra hours taken back`;
  const others = extras.length === 1 ? say`` : say` and on ${extras.length - 1} more`;
  return say`Extra hours ${clock(first.from)} to ${clock(first.until)}${others}: ${plain(handsText(first.hands))}`;
}

/** To take them back, and no others of those days. */
export function extraWays({ studio: { zone } }: At, events: readonly StudioEvent[]): Way[] {
  const extras = events.flatMap((event) => (event.type === 'ExtraHoursSet' ? [event] : []));
  const [first] = extras;
  if (first === undefined) return [];
  const days = extras.map(({ from }) => isoDate(dateAt(from, zone)));
  const hours = `${hoursTyped(first, zone)} off`;
  return [{ label: 'Take back', command: 'shift extra', options: { on: datesText(days), hours } }];
}
