import { type Hours, hoursText, shiftsBetween } from '../trade/time/calendar.ts';
import type { HandsBetween, Studio } from './studio.ts';

/** A time in which hands are there: instants in milliseconds since the epoch. */
export interface Staffed {
  readonly from: number;
  readonly until: number;
  readonly hands: number;
  /** The hours of its shift; null for extra hours. */
  readonly hours: Hours | null;
}

/**
 * What of the time from `from` until `until` is staffed, in order of its start: the shifts that happen there, in pieces where
 * somebody is missing for a part of one, and the extra hours. Where two overlap, their hands add up. Null: shifts are not kept,
 * so any time will do, for one pair of hands.
 */
export function staffedTime(studio: Studio, from: number, until: number): Staffed[] | null {
  const { shifts, zone, extras } = studio;
  if (shifts.hours.length === 0) return null;
  const all: Staffed[] = [
    ...shiftsBetween(shifts, zone, from, until).flatMap((shift) =>
      withoutMissing({ ...shift, hands: handsOf(studio, shift.hours) }, studio.missing),
    ),
    ...extras.map((extra) => ({ ...extra, hours: null })),
  ];
  return all
    .map((each) => ({ ...each, from: Math.max(each.from, from), until: Math.min(each.until, until) }))
    .filter((each) => each.from < each.until)
    .sort((a, b) => a.from - b.from || a.until - b.until);
}

/** What is left of a shift, piece by piece; nothing where all its hands are missing. */
function withoutMissing(shift: Staffed, missing: readonly HandsBetween[]): Staffed[] {
  const away = missing.filter(({ from, until }) => from < shift.until && until > shift.from);
  if (away.length === 0) return [shift];
  const inside = away.flatMap(({ from, until }) => [from, until]).filter((at) => at > shift.from && at < shift.until);
  const cuts = [...new Set([shift.from, ...inside, shift.until])].sort((a, b) => a - b);
  return cuts.slice(1).flatMap((until, index) => {
    const from = cuts[index] ?? shift.from;
    const gone = away.filter((each) => each.from < until && each.until > from).reduce((sum, { hands }) => sum + hands, 0);
    return shift.hands > gone ? [{ ...shift, from, until, hands: shift.hands - gone }] : [];
  });
}

/** Pairs of hands in the shift of `hours`: as was said of it, or of all shifts, or as many as are on duty, but never none. */
export function handsOf({ hands, duty }: Studio, hours: Hours): number {
  const shift = hoursText(hours);
  const people = new Set([...(duty.byShift[shift] ?? []), ...duty.always]);
  return hands.byShift[shift] ?? hands.all ?? Math.max(1, people.size);
}
