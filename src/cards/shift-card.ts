import { handsOf } from '../bench/staffing.ts';
import { type HandsBetween, MOST_HANDS, onDuty, type Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { writeLine } from '../chat/line.ts';
import { minutesText } from '../trade/measures/format.ts';
import { DAY, dateAt, hoursText, isoDate, type Shift, shiftAt } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, code, joined, people, plain, say, type Text } from '../words/text.ts';
import { dayOffOptions } from './as-typed.ts';
import { daysText } from './day-text.ts';
import { isoIn } from './iso.ts';

const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const MOST_SHOWN = 3;
const MOST_TOLD = 5;

/** "1 pair of hands" */
export const handsText = (count: number): string => `${count} ${count === 1 ? 'pair' : 'pairs'} of hands`;

/** More than anybody has counts as all that there are. */
export const missingText = (count: number): string => (count >= MOST_HANDS ? 'all hands' : handsText(count));

interface More {
  readonly aside?: boolean;
  /** Without shifts, people, pings and zone, which a change of staffed time leaves as they are. */
  readonly short?: boolean;
  /** What was changed, in a line of its own. */
  readonly told?: readonly Text[];
  readonly buttons?: readonly Way[];
}

/** When the studio works, who is on duty, and with how many hands. */
export function shiftCard(title: Text, studio: Studio, now: number, more: More = {}): Card {
  const { aside = false, short = false, told = [], buttons = [] } = more;
  const duty = onDuty(studio, now);
  const running = shiftAt(studio.shifts, studio.zone, now);
  const hours = studio.shifts.hours.map(hoursText);
  const hands = studio.shifts.hours.map((each) => ({ hours: hoursText(each), hands: handsOf(studio, each) }));
  const today = isoDate(dateAt(now, studio.zone));
  const holidays = (studio.shifts.closed ?? []).filter((date) => date >= today);
  const extras = studio.extras.filter(({ until }) => until > now);
  const missing = studio.missing.filter(({ until }) => until > now);
  return card(
    title,
    [
      ...told,
      ...(short ? [] : shiftLines(studio, running)),
      ...(holidays.length === 0 ? [] : [say`Closed: ${plain(daysText(holidays, today, MOST_SHOWN))}.`]),
      ...toldLines('Extra hours', extras, handsText),
      ...(short ? [] : takeBackLine('shift extra', extras, studio.zone, now)),
      ...toldLines('Missing', missing, missingText),
      ...(short ? [] : takeBackLine('shift missing', missing, studio.zone, now)),
      ...handsLines(hands),
      ...(short ? [] : peopleAndPings(studio, duty)),
    ],
    {
      aside,
      buttons,
      data: {
        shift: {
          zone: studio.zone,
          hours,
          days: studio.shifts.days,
          onDuty: duty,
          duty: studio.duty,
          hands,
          holidays,
          extraHours: extras.map(inIso(studio.zone)),
          missing: missing.map(inIso(studio.zone)),
          graceMinutes: studio.graceMinutes,
          quiet: studio.quiet === null ? null : hoursText(studio.quiet),
        },
      },
    },
  );
}

const shiftLines = ({ shifts }: Studio, running: Shift | null): Text[] => [
  shifts.hours.length === 0
    ? say`No shift hours are set.`
    : say`Shifts ${plain(shifts.hours.map(hoursText).join(', '))} on ${plain(shifts.days.map((day) => DAY_NAMES[day - 1]).join(', '))}.`,
  running ? say`Now running: ${plain(hoursText(running.hours))}, until ${clock(running.until)}.` : say`No shift is running now.`,
];

const peopleAndPings = (studio: Studio, duty: readonly string[]): Text[] => [
  duty.length === 0 ? say`Nobody is on duty: /shift duty who:kim` : say`On duty now: ${people(duty)}.`,
  ...Object.entries(studio.duty.byShift)
    .filter(([, who]) => who.length > 0)
    .map(([key, who]) => say`In the shift ${plain(key)}: ${people(who)}.`),
  say`Zone ${plain(studio.zone)}. A ping that stays unanswered for ${plain(minutesText(studio.graceMinutes))} goes to everybody on duty.`,
  studio.quiet === null
    ? say`No quiet hours.`
    : say`Quiet hours ${plain(hoursText(studio.quiet))}: digests wait; a pot life or a window never does.`,
];

function handsLines(shifts: readonly { hours: string; hands: number }[]): Text[] {
  const [first] = shifts;
  if (first === undefined) return [say`Planned at any time, with ${plain(handsText(1))}.`];
  if (shifts.every(({ hands }) => hands === first.hands))
    return [say`Planned with ${plain(handsText(first.hands))}${plain(shifts.length === 1 ? '' : ' in each shift')}.`];
  return [say`Planned with hands: ${plain(shifts.map(({ hours, hands }) => `${hands} for ${hours}`).join(', '))}.`];
}

const inIso =
  (zone: string) =>
  ({ from, until, hands }: HandsBetween) => ({ from: isoIn(zone)(from), until: isoIn(zone)(until), hands });

function toldLines(what: string, hours: readonly HandsBetween[], amount: (hands: number) => string): Text[] {
  if (hours.length === 0) return [];
  const shown = hours
    .slice(0, MOST_TOLD)
    .map(({ from, until, hands }) => say`${clock(from)} to ${clock(until)} (${plain(amount(hands))})`);
  const left = hours.length - shown.length;
  return [say`${plain(what)}: ${joined(shown, ', ')}${plain(left === 0 ? '' : ` and ${left} more`)}.`];
}

/** Of the hours to come, who is missing: whoever comes next must know. */
export const missingLines = ({ missing }: Studio, now: number): Text[] =>
  toldLines(
    'Missing',
    missing.filter(({ from, until }) => until > now && from < now + DAY),
    missingText,
  );

/** With the day as a date, whichever day it is read. */
const takeBackLine = (command: string, [next]: readonly HandsBetween[], zone: string, now: number): Text[] =>
  next === undefined ? [] : [say`To take some back: ${code(writeLine(command, { ...dayOffOptions(next, zone, now) }))}`];
