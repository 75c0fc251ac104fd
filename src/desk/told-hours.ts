import type { HandsBetween, Studio } from '../bench/studio.ts';
import type { StudioEvent } from '../bench/studio-events.ts';
import type { ToldHours } from '../bench/studio-staffing.ts';
import { dayOffOptions, offOptions, type Stretch } from '../cards/as-typed.ts';
import { handsText, missingText } from '../cards/shift-card.ts';
import { DAY, dateAt, HOUR, type Hours, isoDate, onDate } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { datesText } from '../trade/time/days.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { clock, joined, plain, say, type Text } from '../words/text.ts';
import { again, line } from './examples.ts';
import { type At, stampOf, today } from './shift-days.ts';

/** Staffed time that is told by the hour, and taken back by the day or by the very same hours. */
export interface HoursKind {
  readonly which: ToldHours;
  readonly command: 'shift extra' | 'shift missing';
  readonly told: 'ExtraHoursSet' | 'HandsMissing';
  readonly dropped: 'ExtraHoursDropped' | 'HandsBack';
  /** "Extra hours" Sat 08:00 to Sat 12:00: "1 pair of hands". */
  readonly title: string;
  readonly amount: (hands: number) => string;
  readonly takenBack: string;
  readonly none: { readonly code: string; readonly message: Text };
}

export const EXTRA: HoursKind = {
  which: 'extras',
  command: 'shift extra',
  told: 'ExtraHoursSet',
  dropped: 'ExtraHoursDropped',
  title: 'Extra hours',
  amount: handsText,
  takenBack: 'Extra hours taken back',
  none: { code: 'no-extra-hours', message: say`There are no such extra hours on these days.` },
};

export const MISSING: HoursKind = {
  which: 'missing',
  command: 'shift missing',
  told: 'HandsMissing',
  dropped: 'HandsBack',
  title: 'Short of hands',
  amount: (hands) => `${missingText(hands)} missing`,
  takenBack: 'Missing hands taken back',
  none: { code: 'none-missing', message: say`Nobody is said to be missing in such hours on these days.` },
};

export type Events = StudioEvent[] | Refusal;

/** Nobody works for longer; it is a slip. */
const LONGEST = 16 * HOUR;

/** Why hours cannot be told as they are; null where they can. */
export function wrongLength({ from, until }: Stretch, example: string): Refusal | null {
  if (until <= from)
    return new Refusal(
      'no-such-hours',
      say`In that night the clocks are set forward: these hours are left out, or nearly, before ${clock(from)}.`,
      {
        example,
      },
    );
  if (until - from <= LONGEST) return null;
  return new Refusal('bad-length', say`Expected hours that last up to 16 h, got ${clock(from)} to ${clock(until)}.`, { example });
}

/** Without shifts any time counts as staffed, and there is nothing that hours could be told beside. */
export const noShifts = ({ studio }: At): Refusal | null =>
  studio.shifts.hours.length > 0
    ? null
    : new Refusal('no-shifts', say`No shift hours are set, so any time counts as staffed. Set the shifts first.`, {
        example: line('shift set', { hours: '06:00-14:00', days: 'mon-fri' }),
      });

/** "17:00-19:00 off", "off 17-19": one of the hours told of a day; "off" alone: all of them. */
const offIn = (hours = ''): { hours: string } | null => {
  const found = /^(?<before>.*?)\s*\b(?:off|none|no)\b\s*(?<behind>.*)$/i.exec(hours.trim())?.groups;
  return found ? { hours: `${found['before']}${found['behind']}` } : null;
};

/** What was told of a night shift is taken back after midnight, too. */
export const daysBackFor = (hours: string | undefined): number => (offIn(hours) ? 1 : 0);

/** `told`: the line with another day. Whoever takes something back gets no example that tells it. */
export const exampleFor = (
  at: At,
  kind: HoursKind,
  hours: string | undefined,
  told: (on: string) => string,
): ((on: string) => string) => (offIn(hours) ? () => takeBackLine(at, kind, []) : told);

/** "fri off", "off": said where the day is said. */
export function offSaid<T extends { readonly on: string | undefined; readonly hours: string | undefined }>(asked: T): T {
  const off = asked.hours === undefined ? offIn(asked.on) : null;
  return off ? { ...asked, on: off.hours.trim() || undefined, hours: 'off' } : asked;
}

/** What takes hours back, where that is what `hours` says; null where it says something else. */
export function takenBack(at: At, kind: HoursKind, dates: readonly string[], hours: string | undefined): Events | null {
  const off = offIn(hours);
  if (off === null) return null;
  const told = dates.flatMap((iso) => toldOf(at, kind, iso));
  const meant = off.hours === '' ? told : sameHours(at, kind, told, off.hours);
  if (isRefusal(meant)) return again(meant, { example: takeBackLine(at, kind, dates) });
  if (meant.length === 0)
    return new Refusal(kind.none.code, kind.none.message, { example: takeBackLine(at, kind, off.hours === '' ? [] : dates) });
  return meant.map(({ from, until }) => ({ ...stampOf(at), type: kind.dropped, from, until, exactly: true }));
}

/** The hours told that begin on a day; today also those that began before and are not over, as of a night shift. */
function toldOf(at: At, { which }: HoursKind, iso: string): HandsBetween[] {
  const date = Date.parse(iso) / DAY;
  const { zone } = at.studio;
  const day = { from: onDate(zone, date, 0), until: onDate(zone, date + 1, 0) };
  return at.studio[which].filter(
    ({ from, until }) => from < day.until && (from >= day.from || (iso === today(at) && until > at.now)),
  );
}

function sameHours(at: At, kind: HoursKind, told: readonly HandsBetween[], hours: string): HandsBetween[] | Refusal {
  const exact = exactStretch(hours);
  if (exact) return at.studio[kind.which].filter((each) => each.from === exact.from && each.until === exact.until);
  const read = parseHours(hours);
  if (isRefusal(read)) return read;
  return told.filter((each) => {
    const meant = hoursOn(at, isoDate(dateAt(each.from, at.studio.zone)), read);
    return each.from === meant.from && each.until === meant.until;
  });
}

/** The line that takes back all such hours of one of these days, or else of the next day that has some. */
export function takeBackLine(at: At, kind: HoursKind, dates: readonly string[]): string {
  const { studio, now } = at;
  const here = dates.flatMap((iso) => toldOf(at, kind, iso)).find(({ until }) => until > now);
  const next = here ?? studio[kind.which].find(({ until }) => until > now);
  return next ? line(kind.command, { ...dayOffOptions(next, studio.zone, now) }) : '/shift show';
}

/** Hours that end before they begin go over midnight. */
export const hoursOn = ({ studio: { zone } }: At, iso: string, { fromMinute, untilMinute }: Hours): Stretch => {
  const date = Date.parse(iso) / DAY;
  return { from: onDate(zone, date, fromMinute), until: onDate(zone, untilMinute <= fromMinute ? date + 1 : date, untilMinute) };
};

/** What of the events tells of such hours. */
export const toldIn = (events: readonly StudioEvent[], { told }: HoursKind): HandsBetween[] =>
  events.flatMap((event) => (event.type === told ? [event] : []));

/** "Extra hours Sat 08:00 to Sat 12:00: 1 pair of hands", or that what was told is taken back. */
export function hoursTitle(events: readonly StudioEvent[], kind: HoursKind): Text {
  const told = toldIn(events, kind);
  const [first] = told;
  if (first === undefined) return say`${plain(kind.takenBack)}: ${spansText(gone(events, kind))}`;
  const others = told.length === 1 ? say`` : say` and on ${told.length - 1} more`;
  return say`${plain(kind.title)} ${clock(first.from)} to ${clock(first.until)}${others}: ${plain(kind.amount(first.hands))}`;
}

const gone = (events: readonly StudioEvent[], { dropped }: HoursKind): Stretch[] =>
  events.flatMap((event) => (event.type === dropped ? [event] : []));

/** More than these say no more. */
const MOST_SPANS = 3;

function spansText(spans: readonly Stretch[]): Text {
  const shown = spans.slice(0, MOST_SPANS).map(({ from, until }) => say`${clock(from)} to ${clock(until)}`);
  const more = spans.length > shown.length ? say` and ${spans.length - shown.length} more` : say``;
  return say`${joined(shown, ', ')}${more}`;
}

/** To take them back, and no others of those days; `hours`: as they were typed, which means the same on each of several days. */
export function hoursWays(
  { zone }: Studio,
  now: number,
  {
    events,
    kind,
    hours,
  }: { readonly events: readonly StudioEvent[]; readonly kind: HoursKind; readonly hours: string | undefined },
): Way[] {
  const told = toldIn(events, kind);
  const [first] = told;
  if (first === undefined) return [];
  const days = datesText(told.map(({ from }) => isoDate(dateAt(from, zone))));
  const options =
    told.length === 1
      ? offOptions(first, zone, now)
      : { on: days, hours: hours === undefined ? offOptions(told.at(-1) ?? first, zone, now).hours : `${hours} off` };
  return [{ label: 'Take back', command: kind.command, options }];
}
