import { DateTime } from 'luxon';
import type { Cause } from '../bench/planning/cause.ts';
import type { Change } from '../bench/planning/changes.ts';
import type { Studio } from '../bench/studio.ts';
import { minutesText, temperatureText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, joined, plain, say, type Text } from '../words/text.ts';
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
      const ends = cause.goneAt === null ? say`` : say`, and the shift ends at ${clock(cause.goneAt)}`;
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
      const word = change.now === change.celsius ? 'Keep' : cooler ? 'Cool' : 'Warm';
      return `${word} the room ${word === 'Keep' ? 'at' : 'to'} ${temperatureText(change.celsius, studio.units)}`;
    }
    case 'ready-by':
      return `Ready by ${at(change.at)}`;
  }
}

/** "Tue 14:00-14:40". */
const hoursOf = ({ from, until }: Stretch, { zone }: Studio, now: number): string =>
  [wallText(from, zone, now), wallText(until, zone, until)].join('-');

const comesTwice = (time: DateTime): boolean => time.getPossibleOffsets().length > 1;

/** The hours of a change as `extra` options are typed: "2026-03-02 17:00-19:00". */
export function extraTyped(hours: Stretch, zone: string): string {
  const typed = hoursTyped(hours, zone);
  return typed.includes('/') ? typed : `${dayTyped(hours.from, zone)} ${typed}`;
}

interface Stretch {
  readonly from: number;
  readonly until: number;
}

export const dayTyped = (at: number, zone: string): string => DateTime.fromMillis(at, { zone }).toFormat('yyyy-MM-dd');

/** "17:00-19:00"; as two instants with their offsets where the wall clock shows an end twice. */
export function hoursTyped({ from, until }: Stretch, zone: string): string {
  const ends = [from, until].map((at) => DateTime.fromMillis(at, { zone }));
  return ends.some(comesTwice)
    ? ends.map((end) => end.toFormat("yyyy-MM-dd'T'HH:mmZZ")).join('/')
    : ends.map((end) => end.toFormat('HH:mm')).join('-');
}

/** An instant as options are typed; with its offset where the wall clock shows that time twice. */
export function momentTyped(at: number, zone: string): string {
  const time = DateTime.fromMillis(at, { zone });
  return time.toFormat(comesTwice(time) ? "yyyy-MM-dd'T'HH:mmZZ" : 'yyyy-MM-dd HH:mm');
}

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
