import type { Cause } from '../bench/planning/cause.ts';
import type { Change } from '../bench/planning/changes.ts';
import type { Studio } from '../bench/studio.ts';
import { minutesText, temperatureText } from '../trade/measures/format.ts';
import { MINUTE, shiftsBetween } from '../trade/time/calendar.ts';
import { clock, joined, plain, say, type Text } from '../words/text.ts';
import type { Stretch } from './as-typed.ts';
import { wallText } from './wall-text.ts';

/** The proof that a step cannot be done, in one sentence. */
export function causeText(title: string, cause: Cause, studio: Studio): Text {
  switch (cause.kind) {
    case 'nobody': {
      const { goneAt, backAt } = cause;
      const from = goneAt === null ? say`` : say` from ${clock(goneAt)}`;
      const until = backAt === null ? say`` : say` until ${clock(backAt)}`;
      return say`${title} can only begin ${between(cause.window)}, and nobody is on shift${from}${until}.`;
    }
    case 'too-long': {
      const ends = cause.goneAt === null ? say`` : say`, and ${endText(cause.goneAt, studio)}`;
      return say`${title} takes ${plain(minutesText(cause.handsMinutes))} and can only begin ${between(cause.window)}${ends}.`;
    }
    case 'busy': {
      const by = joined(
        cause.by.slice(0, 3).map((taken) => say`${taken.title} of ${taken.name} (${clock(taken.from)})`),
        ', ',
        ' and ',
      );
      return say`${title} can only begin ${between(cause.window)}, and all hands are at work then${cause.by.length === 0 ? say`` : say`: ${by}`}.`;
    }
    case 'outside': {
      const usable = cause.after?.usable;
      const made = usable
        ? say`, and ${cause.after?.material?.name ?? ''} is made for ${plain(temperatureText(usable.fromCelsius, studio.units))} to ${plain(temperatureText(usable.untilCelsius, studio.units))}`
        : say``;
      const bench =
        cause.celsius === null
          ? say`The bench is too cold or too warm`
          : say`The bench is at ${plain(temperatureText(cause.celsius, studio.units))}`;
      const what = cause.after?.title === title ? say`it is ready` : say`${title} may begin`;
      return say`${bench}${made}: no clock can tell when ${what}.`;
    }
    case 'late': {
      const late = minutesText(Math.ceil((cause.readyAt - cause.readyBy) / MINUTE));
      return say`It can be ready no earlier than ${clock(cause.readyAt)}, ${plain(late)} after ${clock(cause.readyBy)}.`;
    }
  }
}

/** Why there are no more hands from `goneAt` on: extra hours may be over, or somebody missing, where no shift ends. */
export const endText = (goneAt: number, { shifts, zone }: Studio): Text =>
  shiftsBetween(shifts, zone, goneAt - 1, goneAt).some(({ until }) => until === goneAt)
    ? say`the shift ends at ${clock(goneAt)}`
    : say`nobody is there from ${clock(goneAt)} on`;

const between = ({ from, until }: { readonly from: number; readonly until: number | null }): Text =>
  until === null
    ? say`from ${clock(from)} on`
    : from === until
      ? say`at ${clock(from)}`
      : say`between ${clock(from)} and ${clock(until)}`;

/** What a change is, as a button says it. */
export function changeLabel(change: Change, studio: Studio, now: number): string {
  const at = (instant: number) => wallText(instant, studio.zone, now);
  switch (change.kind) {
    case 'start': {
      const far = minutesText(Math.abs(change.laterMinutes));
      return `Start ${far} ${change.laterMinutes < 0 ? 'earlier' : 'later'}: ${at(change.at)}`;
    }
    case 'hands':
      if (change.next === 'after') return `One person until ${at(change.until)}`;
      if (change.next === 'before') return `One person from ${at(change.from)}`;
      return `One more person ${hoursOf(change, studio, now)}`;
    case 'room': {
      const cooler = change.now !== null && change.celsius < change.now;
      const word = change.now === null || change.now === change.celsius ? 'Keep' : cooler ? 'Cool' : 'Warm';
      return `${word} the room ${word === 'Keep' ? 'at' : 'to'} ${temperatureText(change.celsius, studio.units)}`;
    }
    case 'ready-by':
      return `Ready by ${at(change.at)}`;
  }
}

/** "Tue 14:00-14:40". */
const hoursOf = ({ from, until }: Stretch, { zone }: Studio, now: number): string =>
  [wallText(from, zone, now), wallText(until, zone, until)].join('-');

/** Causes and changes for scripts. */
export function causeData(cause: Cause, iso: (at: number) => string) {
  const when = (at: number | null) => (at === null ? null : iso(at));
  const window = 'window' in cause ? { window: { from: iso(cause.window.from), until: when(cause.window.until) } } : {};
  switch (cause.kind) {
    case 'nobody':
      return { kind: cause.kind, ...window, goneAt: when(cause.goneAt), backAt: when(cause.backAt) };
    case 'too-long':
      return { kind: cause.kind, ...window, handsMinutes: cause.handsMinutes, goneAt: when(cause.goneAt) };
    case 'busy':
      return { kind: cause.kind, ...window, jobs: [...new Set(cause.by.map(({ job }) => job))] };
    case 'outside':
      return { kind: cause.kind, celsius: cause.celsius };
    case 'late':
      return { kind: cause.kind, readyAt: iso(cause.readyAt), readyBy: iso(cause.readyBy) };
  }
}

export function changeData(change: Change, iso: (at: number) => string) {
  switch (change.kind) {
    case 'start':
      return { kind: change.kind, at: iso(change.at), laterMinutes: change.laterMinutes };
    case 'hands':
      return { kind: change.kind, from: iso(change.from), until: iso(change.until) };
    case 'room':
      return { kind: change.kind, celsius: change.celsius };
    case 'ready-by':
      return { kind: change.kind, at: iso(change.at) };
  }
}
