import { staffedTime } from '../bench/staffing.ts';
import type { HandsBetween, Studio } from '../bench/studio.ts';
import type { StudioEvent } from '../bench/studio-events.ts';
import { daysText, dayText } from '../cards/day-text.ts';
import { handsText } from '../cards/shift-card.ts';
import { MOST_BUTTONS } from '../chat/card.ts';
import { comingShifts, DAY, dateAt, hoursText, isoDate, type Shift, shiftAt, shiftsBetween } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import { again, line } from './examples.ts';
import { type At, datesIn, stampOf, today } from './shift-days.ts';
import { type Ends, type Events, hoursOn, MISSING, takeBackLine, takenBack, toldIn } from './told-hours.ts';

/** As typed: on which days, in which hours (left out: all shifts of the day), and how many pairs of hands. */
export interface Missing {
  readonly on: string | undefined;
  readonly hours: string | undefined;
  readonly hands: number | undefined;
}

const missingLine = ({ on, hours, hands }: Missing): string =>
  line('shift missing', { on, hours, hands: hands === undefined ? undefined : String(hands) });

/**
 * Fewer hands in the shifts of these days; or `hours:off` for nobody missing on them any more, and `hours:14:00-22:00 off` for
 * those hours alone. Where no hours are said it is the shift of the day, if there is one only; where no day is said either, the
 * shift that runs or comes next. Days without a shift are passed over, unless all are.
 */
export function missingOn(at: At, missing: Missing): Events {
  const { studio, now } = at;
  const next = shiftAt(studio.shifts, studio.zone, now) ?? comingShifts(studio.shifts, studio.zone, now)[0];
  if (next === undefined)
    return new Refusal('no-shifts', say`No shift hours are set, so nobody is missed. Set the shifts first.`, {
      example: line('shift set', { hours: '06:00-14:00', days: 'mon-fri' }),
    });
  const nextOn = isoDate(dateAt(next.from, studio.zone));
  const usual = { ...missing, on: nextOn, hours: hoursText(next.hours) };
  const dates = datesIn(at, missing.on ?? 'today', () => missingLine(usual));
  if (isRefusal(dates)) return dates;
  const off = takenBack(at, MISSING, dates, missing.hours);
  if (off) return off;
  if (missing.hands === 0)
    return new Refusal('no-hands', say`At least one pair of hands is missing. To take it back, say off.`, {
      example: takeBackLine(at, MISSING, dates) ?? missingLine({ ...usual, hands: 1 }),
    });
  const isNext = missing.on === undefined && missing.hours === undefined;
  const found = isNext ? [next] : spansOn(at, missing, dates, usual);
  if (isRefusal(found)) return found;
  return found.map(({ from, until }) => ({
    ...stampOf(at),
    type: 'HandsMissing',
    from,
    until,
    hands: missing.hands ?? 1,
  }));
}

function spansOn(at: At, missing: Missing, dates: readonly string[], usual: Missing): Ends[] | Refusal {
  const { studio, now } = at;
  const example = missingLine(usual);
  const exact = exactStretch(missing.hours ?? '');
  const hours = missing.hours === undefined || exact ? null : parseHours(missing.hours);
  if (isRefusal(hours)) return again(hours, { example });
  const isCounted = (ends: Ends) => ends.until > now && isInShift(studio, ends);
  const found: Ends[] = [];
  for (const iso of dates) {
    const shifts = shiftsOn(at, iso).filter(isCounted);
    if (missing.hours === undefined && shifts.length > 1) return whichShift(at, missing, iso, shifts);
    const meant = exact ? [exact] : hours ? [hoursOn(at, iso, hours)] : shifts;
    found.push(...meant.filter(isCounted).map(({ from, until }) => ({ from, until })));
  }
  if (found.length > 0) return exact ? found.slice(0, 1) : found;
  const days = daysText(dates, today(at));
  return new Refusal('no-shift', say`No shift is still to come in these hours: ${plain(days)}.`, { example });
}

/** Somebody who is ill works in one of them. */
const whichShift = ({ studio: { zone } }: At, missing: Missing, iso: string, shifts: readonly Shift[]): Refusal =>
  new Refusal('which-shift', say`Several shifts begin on ${plain(dayText(iso, iso))}: say the hours.`, {
    example: missingLine({ ...missing, hours: hoursText((shifts[0] as Shift).hours) }),
    ways: shifts.slice(0, MOST_BUTTONS).map((shift) => ({
      label: hoursText(shift.hours),
      command: 'shift missing',
      options: {
        on: missing.on ?? isoDate(dateAt(shift.from, zone)),
        hours: hoursText(shift.hours),
        ...(missing.hands === undefined ? {} : { hands: String(missing.hands) }),
      },
    })),
  });

function shiftsOn({ studio: { shifts, zone } }: At, iso: string): Shift[] {
  const around = Date.parse(iso);
  return shiftsBetween(shifts, zone, around - DAY, around + 2 * DAY).filter((shift) => isoDate(dateAt(shift.from, zone)) === iso);
}

const isInShift = ({ shifts, zone }: Studio, { from, until }: Ends): boolean =>
  shiftsBetween(shifts, zone, from, until).some((shift) => shift.from < until);

/** How many are left in the first of those hours, at the least; `studio`: with what was told. */
export function leftThere(studio: Studio, events: readonly StudioEvent[]): Text[] {
  return toldIn(events, MISSING)
    .slice(0, 1)
    .map((hours) => {
      const parts = handsInShifts(studio, hours);
      const least = Math.min(...parts.map(({ hands }) => hands));
      const bare = parts.filter(({ hands }) => hands === 0);
      const [first, last] = [bare[0], bare.at(-1)];
      if (!first || !last) return say`${plain(handsText(least))} ${plain(least === 1 ? 'is' : 'are')} left.`;
      const when = bare.length === parts.length ? say`` : say`, at times between ${clock(first.from)} and ${clock(last.until)}`;
      return say`Nobody is left${when}: nothing is planned there.`;
    });
}

/** The pieces of the shifts in those hours, with the hands that are there, extra hours among them. */
function handsInShifts(studio: Studio, { from, until }: Ends): HandsBetween[] {
  const inside = (ends: Ends): Ends => ({ from: Math.max(ends.from, from), until: Math.min(ends.until, until) });
  const shifts = shiftsBetween(studio.shifts, studio.zone, from, until).map(inside);
  const there = staffedTime(studio, from, until) ?? [];
  const cuts = [...new Set([...shifts, ...there].flatMap((ends) => [ends.from, ends.until]))].sort((a, b) => a - b);
  return cuts.slice(1).flatMap((end, index) => {
    const start = cuts[index] ?? from;
    const runs = ({ from: begins, until: ends }: Ends) => begins <= start && end <= ends;
    if (!shifts.some(runs)) return [];
    return [{ from: start, until: end, hands: there.filter(runs).reduce((sum, { hands }) => sum + hands, 0) }];
  });
}
