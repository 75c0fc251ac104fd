import { staffedTime } from '../bench/staffing.ts';
import { type HandsBetween, MOST_HANDS, type Studio } from '../bench/studio.ts';
import type { StudioEvent } from '../bench/studio-events.ts';
import { hoursOptions, type Stretch } from '../cards/as-typed.ts';
import { daysText, dayText } from '../cards/day-text.ts';
import { handsText } from '../cards/shift-card.ts';
import { MOST_BUTTONS } from '../chat/card.ts';
import { comingShifts, DAY, dateAt, hoursText, isoDate, type Shift, shiftsBetween } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, code, joined, plain, say, type Text } from '../words/text.ts';
import { again, inLine, line } from './examples.ts';
import { type At, datesIn, stampOf, today } from './shift-days.ts';
import {
  daysBackFor,
  type Events,
  exampleFor,
  hoursOn,
  MISSING,
  noShifts,
  offSaid,
  takenBack,
  toldIn,
  wrongLength,
} from './told-hours.ts';

/** As typed: on which days, in which hours, and how many pairs of hands. */
export interface MissingAsked {
  readonly on: string | undefined;
  readonly hours: string | undefined;
  readonly hands: number | undefined;
}

const ALL = 'all';

/** So many pairs of hands, or all that there are. */
export const missingHands = inLine(
  (typed: string): number | Refusal => {
    const words = typed.trim().toLowerCase();
    if (/^(?:all|both|every(?:body|one)|alle)$/.test(words)) return MOST_HANDS;
    const count = Number(/^(\d{1,4})(?:\s*(?:hands?|pairs?|people|persons?))?$/.exec(words)?.[1]);
    if (count >= 1 && count <= MOST_HANDS) return count;
    return new Refusal('bad-hands', say`Expected 1 to ${MOST_HANDS} pairs of hands, or all, got “${typed}”.`);
  },
  () => line('shift missing', { hands: '1' }),
);

const missingLine = ({ on, hours, hands }: MissingAsked): string =>
  line('shift missing', { on, hours, hands: hands === undefined ? undefined : handsTyped(hands) });
const handsTyped = (hands: number): string => (hands >= MOST_HANDS ? ALL : String(hands));

/**
 * Fewer hands in the shifts of these days; or `hours:off` for nobody missing on them any more, and `hours:14:00-22:00 off` for
 * those hours alone. Where no hours are said it is the shift of the day, if there is one only; where no day is said either, the
 * shift that runs or comes next. Days without a shift are passed over, unless all are.
 */
export function missingOn(at: At, typed: MissingAsked): Events {
  const { studio, now } = at;
  const none = noShifts(at);
  if (none) return none;
  const asked = offSaid(typed);
  const [next] = comingShifts(studio.shifts, studio.zone, now);
  const usual = next ? { ...asked, on: undefined, hours: undefined, ...ofDay(at, next) } : asked;
  // With all else as it was typed, where that does.
  const onAnother = (on: string): string => missingLine(isRefusal(missingOn(at, { ...asked, on })) ? usual : { ...asked, on });
  const dates = datesIn(at, asked.on ?? 'today', exampleFor(at, MISSING, asked.hours, onAnother), daysBackFor(asked.hours));
  if (isRefusal(dates)) return dates;
  const off = takenBack(at, MISSING, dates, asked.hours);
  if (off) return off;
  const isNext = next !== undefined && asked.on === undefined && asked.hours === undefined;
  const found = isNext ? [next] : spansOn(at, asked, dates, missingLine(usual));
  if (isRefusal(found)) return found;
  const hands = asked.hands ?? 1;
  return found.map(({ from, until }) => ({ ...stampOf(at), type: 'HandsMissing', from, until, hands }));
}

/** The shift that began yesterday and runs needs neither day nor hours: it is the one that is meant anyway. */
const ofDay = (at: At, shift: Shift) => {
  const on = isoDate(dateAt(shift.from, at.studio.zone));
  return on < today(at) ? {} : { on, hours: hoursText(shift.hours) };
};

function spansOn(at: At, asked: MissingAsked, dates: readonly string[], example: string): Stretch[] | Refusal {
  const { studio, now } = at;
  const exact = exactStretch(asked.hours ?? '');
  const hours = asked.hours === undefined || exact ? null : parseHours(asked.hours);
  if (isRefusal(hours)) return again(hours, { example });
  const isCounted = (span: Stretch) => span.until > now && isInShift(studio, span);
  const found: Stretch[] = [];
  for (const iso of exact ? dates.slice(0, 1) : dates) {
    const shifts = shiftsOn(at, iso).filter(isCounted);
    if (asked.hours === undefined && shifts.length > 1) return whichShift(asked, iso, shifts);
    const meant = exact ? [exact] : hours ? [hoursOn(at, iso, hours)] : shifts;
    const wrong = meant.map((span) => (asked.hours === undefined ? null : wrongLength(span, example))).find(isRefusal);
    if (wrong) return wrong;
    found.push(...meant.filter(isCounted).map(({ from, until }) => ({ from, until })));
  }
  if (found.length > 0) return found;
  return new Refusal('no-shift', say`No shift is still to come in these hours: ${plain(daysText(dates, today(at)))}.`, {
    example,
  });
}

/** Somebody who is ill works in one of them. */
const whichShift = (asked: MissingAsked, iso: string, shifts: readonly Shift[]): Refusal =>
  new Refusal('which-shift', say`Several shifts begin on ${plain(dayText(iso, iso))}: say the hours.`, {
    example: missingLine({ ...asked, hours: hoursText((shifts[0] as Shift).hours) }),
    ways: shifts.slice(0, MOST_BUTTONS).map((shift) => ({
      label: hoursText(shift.hours),
      command: 'shift missing',
      options: {
        on: iso,
        hours: hoursText(shift.hours),
        ...(asked.hands === undefined ? {} : { hands: handsTyped(asked.hands) }),
      },
    })),
  });

function shiftsOn({ studio: { shifts, zone } }: At, iso: string): Shift[] {
  const around = Date.parse(iso);
  return shiftsBetween(shifts, zone, around - DAY, around + 2 * DAY).filter((shift) => isoDate(dateAt(shift.from, zone)) === iso);
}

const isInShift = ({ shifts, zone }: Studio, { from, until }: Stretch): boolean =>
  shiftsBetween(shifts, zone, from, until).some((shift) => shift.from < until);

/** More times than these say no more. */
const MOST_BARE = 2;

/** How many are left in those hours, at the least; `studio`: with what was told. */
export function leftThere(studio: Studio, events: readonly StudioEvent[]): Text[] {
  const parts = toldIn(events, MISSING).flatMap((hours) => handsInShifts(studio, hours));
  if (parts.length === 0) return [];
  const least = Math.min(...parts.map(({ hands }) => hands));
  const isLeft = say`${plain(handsText(least))} ${plain(least === 1 ? 'is' : 'are')} left`;
  if (least > 0) return [parts.every(({ hands }) => hands === least) ? say`${isLeft}.` : say`${isLeft} at the least.`];
  const bare = oneAfterTheOther(parts.filter(({ hands }) => hands === 0));
  if (parts.every(({ hands }) => hands === 0)) return [say`Nobody is left: nothing is planned there.`];
  const shown = bare.slice(0, MOST_BARE).map(({ from, until }) => say`from ${clock(from)} until ${clock(until)}`);
  const more = bare.length > shown.length ? say` and at ${bare.length - shown.length} more times` : say``;
  return [say`Nobody is left ${joined(shown, ', ')}${more}: nothing is planned there.`];
}

/** The pieces of the shifts in those hours, with the hands that are there, extra hours among them. */
function handsInShifts(studio: Studio, { from, until }: Stretch): HandsBetween[] {
  const inside = (span: Stretch): Stretch => ({ from: Math.max(span.from, from), until: Math.min(span.until, until) });
  const shifts = shiftsBetween(studio.shifts, studio.zone, from, until).map(inside);
  const there = staffedTime(studio, from, until) ?? [];
  const cuts = [...new Set([...shifts, ...there].flatMap((span) => [span.from, span.until]))].sort((a, b) => a - b);
  return cuts.slice(1).flatMap((end, index) => {
    const start = cuts[index] ?? from;
    const runs = (span: Stretch) => span.from <= start && end <= span.until;
    if (!shifts.some(runs)) return [];
    return [{ from: start, until: end, hands: there.filter(runs).reduce((sum, { hands }) => sum + hands, 0) }];
  });
}

function oneAfterTheOther(spans: readonly Stretch[]): Stretch[] {
  const joint: Stretch[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = joint.at(-1);
    if (last && span.from <= last.until) joint[joint.length - 1] = { from: last.from, until: Math.max(last.until, span.until) };
    else joint.push({ from: span.from, until: span.until });
  }
  return joint;
}

/** That the same hours told anew take the place of what was told, and how to say that both are missing; `studio`: as it was. */
export function toldBefore(studio: Studio, now: number, events: readonly StudioEvent[], asked: MissingAsked): Text[] {
  const told = toldIn(events, MISSING);
  const before = told.flatMap((hours) =>
    studio.missing.filter(({ from, until }) => from === hours.from && until === hours.until).slice(0, 1),
  );
  const [first, same] = [told[0], before[0]];
  if (!first || !same) return [];
  const both = same.hands + first.hands;
  const isSecond = asked.hands === undefined && told.length === 1 && both < MOST_HANDS;
  const line = missingLine({ ...asked, ...hoursOptions(first, studio.zone, now), hands: both });
  return [
    say`In place of what was told before for the same hours.${isSecond ? say` If both are missing: ${code(line)}` : say``}`,
  ];
}
