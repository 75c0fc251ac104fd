import { type Hours, hoursText, type Shifts, shiftsBetween } from '../trade/time/calendar.ts';
import type { Pace } from '../trade/time/pace.ts';
import type { OwnRecipes } from './studio-recipes.ts';

/** One studio: its time zone, shifts, units, scale and people. */
export interface Studio {
  readonly name: string;
  /** IANA zone, such as Europe/Berlin. */
  readonly zone: string;
  readonly units: 'metric' | 'customary';
  /** The scale: its smallest step and what it can carry. */
  readonly scale: { readonly stepGrams: number; readonly mostGrams: number | null };
  /** The smallest step of the measuring cups, for mixing by volume. */
  readonly measureStepMillilitres: number;
  /** How long a ping may stay unanswered before everybody on duty gets it. */
  readonly graceMinutes: number;
  readonly snoozeMinutes: number;
  /** What stays in the cup and on the brush, in percent of what ends up on the model. */
  readonly wastePercent: number;
  /** With the holidays on which none begins. */
  readonly shifts: Shifts;
  /** How many pairs of hands a shift has, where it is not as many as are on duty: in all, and by shift (key as in `duty`). */
  readonly hands: { readonly all: number | null; readonly byShift: Readonly<Record<string, number>> };
  /** Staffed time beside the shifts, in milliseconds since the epoch, in order of its start. */
  readonly extras: readonly HandsBetween[];
  /** When there are so many hands fewer in the shifts than usual, as somebody is ill; in order of its start. */
  readonly missing: readonly HandsBetween[];
  /** On duty whatever the hours, and by shift (key: the shift's hours, as `06:00-14:00`). */
  readonly duty: { readonly always: readonly string[]; readonly byShift: Readonly<Record<string, readonly string[]>> };
  /** Wall-clock hours in which digests are held back; null for none. */
  readonly quiet: Hours | null;
  /** The studio's own materials, in the form of materials.yaml; null where it works with the program's. */
  readonly materialsText: string | null;
  /** The recipes that were changed or made from chat, by id. */
  readonly recipes: OwnRecipes;
  /** Since when these shifts are kept, in milliseconds since the epoch: nothing is told of a shift that began before. */
  readonly shiftsSince: number;
  /** When who is there, and when, was last told anew, in milliseconds since the epoch. */
  readonly staffingToldAt: number;
  /** When what was learned of a material's pace was done away with, in milliseconds since the epoch. */
  readonly paceResets: ReadonlyMap<string, number>;
  /** What was learned of the pace of each material since, from tack checks on all benches. */
  readonly paces: ReadonlyMap<string, Pace>;
}

/** Who is there, and when. */
export type Staffing = Pick<Studio, (typeof STAFFING)[number]>;
const STAFFING = ['zone', 'shifts', 'hands', 'extras', 'missing', 'duty'] as const;

/** Whether nothing was told of it in between: each change makes it anew. */
export const sameStaffing = (one: Staffing, other: Staffing): boolean => STAFFING.every((field) => one[field] === other[field]);

/** Nothing but who is there, and when. */
export const staffingOf = (studio: Studio) => STAFFING.map((field) => studio[field]);

/** More than that work in no small studio: it is a slip. */
export const MOST_HANDS = 20;

/** Pairs of hands; `from` and `until` in milliseconds since the epoch. */
export interface HandsBetween {
  readonly from: number;
  readonly until: number;
  readonly hands: number;
}

/** Who is on duty at `at`: the people of the shifts that run then, and those on duty whatever the hours. */
export function onDuty(studio: Studio, at: number): string[] {
  const running = shiftsBetween(studio.shifts, studio.zone, at, at).filter((shift) => shift.from <= at && at < shift.until);
  const ofShift = running.flatMap((shift) => studio.duty.byShift[hoursText(shift.hours)] ?? []);
  return [...new Set([...ofShift, ...studio.duty.always])];
}
