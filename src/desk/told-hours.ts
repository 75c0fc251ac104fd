import type { HandsBetween, Studio } from '../bench/studio.ts';
import type { StudioEvent } from '../bench/studio-events.ts';
import type { ToldHours } from '../bench/studio-staffing.ts';
import { hoursTyped } from '../cards/plan-trouble.ts';
import { handsText } from '../cards/shift-card.ts';
import { DAY, dateAt, type Hours, isoDate, onDate } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { datesText } from '../trade/time/days.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import { again, line } from './examples.ts';
import { type At, stampOf, today } from './shift-days.ts';

/** Staffed time that is told by the hour, and taken back by the day or by the very same hours. */
export interface Kind {
  readonly which: ToldHours;
  readonly command: 'shift extra' | 'shift missing';
  readonly told: 'ExtraHoursSet' | 'HandsMissing';
  readonly dropped: 'ExtraHoursDropped' | 'HandsBack';
  readonly refusal: { readonly code: string; readonly message: Text };
}

export const EXTRA: Kind = {
  which: 'extras',
  command: 'shift extra',
  told: 'ExtraHoursSet',
  dropped: 'ExtraHoursDropped',
  refusal: { code: 'no-extra-hours', message: say`There are no such extra hours on these days.` },
};

export const MISSING: Kind = {
  which: 'missing',
  command: 'shift missing',
  told: 'HandsMissing',
  dropped: 'HandsBack',
  refusal: { code: 'none-missing', message: say`Nobody is said to be missing in such hours on these days.` },
};

export type Events = StudioEvent[] | Refusal;

export interface Ends {
  readonly from: number;
  readonly until: number;
}

/** "17:00-19:00 off", "off 17-19": one of the hours told of a day; "off" alone: all of them. */
const offIn = (hours = ''): { hours: string } | null => {
  const found = /^(?<before>.*?)\s*\b(?:off|none|no)\b\s*(?<behind>.*)$/i.exec(hours.trim())?.groups;
  return found ? { hours: `${found['before']}${found['behind']}` } : null;
};

/** What takes hours back, where that is what `hours` says; null where it says something else. */
export function takenBack(at: At, kind: Kind, dates: readonly string[], hours: string | undefined): Events | null {
  const off = offIn(hours);
  if (off === null) return null;
  return off.hours === '' ? droppedDays(at, kind, dates) : droppedHours(at, kind, dates, off.hours);
}

const wholeDay = ({ studio: { zone } }: At, iso: string): Ends => {
  const date = Date.parse(iso) / DAY;
  return { from: onDate(zone, date, 0), until: onDate(zone, date + 1, 0) };
};

const hasSome = ({ studio }: At, { which }: Kind, day: Ends): boolean =>
  studio[which].some(({ from }) => from >= day.from && from < day.until);

function droppedDays(at: At, kind: Kind, dates: readonly string[]): Events {
  const events = dates
    .map((iso) => wholeDay(at, iso))
    .filter((day) => hasSome(at, kind, day))
    .map((day) => ({ ...stampOf(at), type: kind.dropped, ...day }));
  return events.length > 0 ? events : noneThere(at, kind);
}

function droppedHours(at: At, kind: Kind, dates: readonly string[], hours: string): Events {
  const exact = exactStretch(hours);
  const read = parseHours(hours);
  if (!exact && isRefusal(read)) return again(read, { example: takeBackLine(at, kind, dates) ?? '/shift show' });
  const meant = exact || isRefusal(read) ? [exact] : dates.map((iso) => hoursOn(at, iso, read));
  const events = meant
    .filter((each) => each !== null)
    .filter((meant) => at.studio[kind.which].some(({ from, until }) => from === meant.from && until === meant.until))
    .map((meant) => ({ ...stampOf(at), type: kind.dropped, ...meant, exactly: true }));
  return events.length > 0 ? events : noneThere(at, kind, dates);
}

const noneThere = (at: At, kind: Kind, dates: readonly string[] = []): Refusal =>
  new Refusal(kind.refusal.code, kind.refusal.message, { example: takeBackLine(at, kind, dates) ?? '/shift show' });

/** The line that takes back all such hours of one of these days, or else of the next day that has some. */
export function takeBackLine(at: At, kind: Kind, dates: readonly string[]): string | undefined {
  const { studio, now } = at;
  const here = dates.find((iso) => hasSome(at, kind, wholeDay(at, iso)));
  const next = studio[kind.which].find(({ until }) => until > now);
  const on = here ?? (next && isoDate(dateAt(next.from, studio.zone)));
  return on !== undefined && on >= today(at) ? line(kind.command, { on, hours: 'off' }) : undefined;
}

/** Hours that end before they begin go over midnight. */
export const hoursOn = ({ studio: { zone } }: At, iso: string, { fromMinute, untilMinute }: Hours): Ends => {
  const date = Date.parse(iso) / DAY;
  return { from: onDate(zone, date, fromMinute), until: onDate(zone, untilMinute <= fromMinute ? date + 1 : date, untilMinute) };
};

/** What of the events tells of such hours. */
export const toldIn = (events: readonly StudioEvent[], { told }: Kind): HandsBetween[] =>
  events.flatMap((event) => (event.type === told ? [event] : []));

/** "Extra hours Sat 08:00 to 12:00: 1 pair of hands", or that what was told is taken back. */
export function hoursTitle(events: readonly StudioEvent[], kind: Kind): Text {
  const told = toldIn(events, kind);
  const [first] = told;
  const what = kind.which === 'extras' ? 'Extra hours' : 'Short of hands';
  if (first === undefined) return kind.which === 'extras' ? say`Extra hours taken back` : say`Nobody is missing there any more`;
  const others = told.length === 1 ? say`` : say` and on ${told.length - 1} more`;
  const fewer = kind.which === 'extras' ? '' : ' missing';
  return say`${plain(what)} ${clock(first.from)} to ${clock(first.until)}${others}: ${plain(handsText(first.hands))}${plain(fewer)}`;
}

/** To take them back, and no others of those days. */
export function hoursWays({ zone }: Studio, events: readonly StudioEvent[], kind: Kind): Way[] {
  const told = toldIn(events, kind);
  const [first] = told;
  if (first === undefined) return [];
  const days = told.map(({ from }) => isoDate(dateAt(from, zone)));
  const hours = `${hoursTyped(first, zone)} off`;
  return [{ label: 'Take back', command: kind.command, options: { on: datesText(days), hours } }];
}
