import type { HandsBetween, Studio } from '../bench/studio.ts';
import { extraTyped, momentTyped } from '../cards/as-typed.ts';
import { text, typed } from '../chat/options.ts';
import { temperaturesText } from '../trade/measures/format.ts';
import { DAY, HOUR, MINUTE, onDate } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { comingMoment } from '../trade/time/coming.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { parseDates } from '../trade/time/days.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, plain, say } from '../words/text.ts';
import { celsiusOf, type Degrees, roomDegrees } from './degrees.ts';
import type { Desk } from './desk.ts';
import { again, inLine, line, type Typed } from './examples.ts';

/** When it is to be done, and what is counted on for it. */
export interface PlanInput {
  readonly start?: string | undefined;
  readonly 'ready-by'?: string | undefined;
  readonly extra?: string | undefined;
  readonly room?: Degrees | undefined;
}

/** The same, read; instants in milliseconds since the epoch. */
export interface PlanAsk {
  /** Null: as soon as may be. */
  readonly start: number | null;
  readonly readyBy: number | null;
  /** More hands than the shifts have. */
  readonly extras: readonly HandsBetween[];
  /** The room is kept at this temperature, day and night. */
  readonly roomCelsius: number | null;
}

/** What room is no place to work in. */
const ROOM = { fromCelsius: 5, untilCelsius: 45 };
const USUAL_ROOM = '21 C';

/** The options of `PlanInput` for the command of that path; `others`: what its examples need beside them. */
export const planOptions = (command: string, others: Typed) => ({
  start: text({ about: 'When the first step begins: now, tomorrow 7:00, mon 8:00', free: true }).optional(),
  'ready-by': text({ about: 'When the last wait is over: fri 16:00', free: true }).optional(),
  extra: text({ about: 'One more person, beside the shifts: today 17:00-19:00', free: true }).optional(),
  room: typed(
    inLine(roomDegrees, (room) => line(command, { ...others, room: room || USUAL_ROOM })),
    { about: 'The room is kept at this, day and night: 21 C', withRest: true },
  ).optional(),
});

export const planTyped = (input: PlanInput): Typed => ({
  start: input.start,
  'ready-by': input['ready-by'],
  extra: input.extra,
  room: input.room?.typed,
});

/** Pressed within this time, a button that starts what was to begin meanwhile still does. */
export const STILL_STARTS = HOUR;

/** What was asked, and the start as it was meant by whoever typed it, which may have passed since. */
export interface Read extends PlanAsk {
  readonly typedStart: number | null;
}

/**
 * Refusals: those of `comingMoment` and of `celsiusOf`, `no-room`, `not-extra`, `ready-before-start`. `asked`: the command, and all of
 * its options as they would be typed. `grace`: a start that is over for no longer is meant for now, in milliseconds.
 */
export function planAsked(
  desk: Desk,
  input: PlanInput,
  asked: { readonly command: string; readonly options: Typed },
  grace = 0,
): Read | Refusal {
  const { now, studio } = desk;
  const lineWith = (more: Typed) => line(asked.command, { ...asked.options, ...more });
  const moment = (name: 'start' | 'ready-by', after: number, since = now): number | null | Refusal => {
    const typedText = input[name];
    if (typedText === undefined) return null;
    const at = comingMoment(typedText, since, studio.zone, after);
    return isRefusal(at) ? again(at, { example: lineWith({ [name]: at.example ?? 'tomorrow 7:00' }) }) : at;
  };
  const coming = moment('start', now);
  const passed = grace > 0 && isRefusal(coming) && coming.code === 'in-past' ? moment('start', now - grace, now - grace) : coming;
  const typedStart = isRefusal(passed) ? coming : passed;
  if (isRefusal(typedStart)) return typedStart;
  const start = typedStart === null ? null : Math.max(typedStart, now);
  const readyBy = moment('ready-by', start ?? now);
  if (isRefusal(readyBy)) return readyBy;
  if (input.extra !== undefined && studio.shifts.hours.length === 0)
    return new Refusal('no-shifts', say`No shift hours are set, so any time counts as staffed, and nobody is extra.`, {
      example: '/shift set hours:06:00-14:00 days:mon-fri',
    });
  const extras = input.extra === undefined ? [] : extrasOf(input.extra, desk, lineWith);
  if (isRefusal(extras)) return extras;
  if (start !== null && readyBy !== null && readyBy <= start)
    return new Refusal(
      'ready-before-start',
      say`Expected it to be ready after it has begun, got a start at ${clock(start)} and ready by ${clock(readyBy)}.`,
      { example: lineWith({ 'ready-by': undefined }) },
    );
  const room = roomOf(desk, input.room, asked);
  if (isRefusal(room)) return room;
  return { start: wholeMinute(start), typedStart: wholeMinute(typedStart), readyBy, extras, roomCelsius: room };
}

/** Nobody works by seconds. */
const wholeMinute = (at: number | null): number | null => (at === null ? null : Math.ceil(at / MINUTE) * MINUTE);

/** A bare number is in the studio's unit. */
function roomOf(desk: Desk, room: Degrees | undefined, asked: { command: string; options: Typed }): number | null | Refusal {
  const read = celsiusOf(desk, { room }, asked);
  if (isRefusal(read) || read.room === null) return isRefusal(read) ? read : null;
  if (read.room >= ROOM.fromCelsius && read.room <= ROOM.untilCelsius) return read.room;
  const { units } = desk.studio;
  const between = temperaturesText(ROOM.fromCelsius, ROOM.untilCelsius, units);
  return new Refusal('no-room', say`Expected a room that people work in, ${plain(between)}, got “${room?.typed ?? ''}”.`, {
    example: line(asked.command, { ...asked.options, room: units === 'customary' ? '70 F' : USUAL_ROOM }),
  });
}

/** The options of a plan so that they mean the same whenever they are read: what a button carries. */
export function timeless(typed: Typed, { start, readyBy, extras }: PlanAsk, { zone, units }: Studio): Typed {
  const at = (instant: number | null) => (instant === null ? undefined : momentTyped(instant, zone));
  const room = typed['room']?.trim();
  const bare = room !== undefined && /\d$/.test(room);
  return {
    ...typed,
    ...(typed['start'] === undefined ? {} : { start: at(start) }),
    ...(typed['ready-by'] === undefined ? {} : { 'ready-by': at(readyBy) }),
    ...(extras.length === 0 ? {} : { extra: extras.map((extra) => extraTyped(extra, zone)).join('; ') }),
    ...(bare ? { room: `${room} ${units === 'customary' ? 'F' : 'C'}` } : {}),
  };
}

/** Hours by the wall clock are no longer. */
const LONGEST_STRETCH = DAY;

/** "today 17:00-19:00; 2026-03-03 5-6": a day and hours by the wall clock, or two instants; one person each. */
function extrasOf(typedText: string, { now, studio }: Desk, lineWith: (more: Typed) => string): HandsBetween[] | Refusal {
  const extras: HandsBetween[] = [];
  const no = (piece: string) =>
    new Refusal('not-extra', say`Expected a day and hours, such as today 17:00-19:00, got “${piece}”.`, {
      example: lineWith({ extra: 'today 17:00-19:00' }),
    });
  for (const piece of typedText.split(/\s*;\s*/).filter((each) => each !== '')) {
    const exact = exactStretch(piece);
    if (exact && exact.until - exact.from > LONGEST_STRETCH) return no(piece);
    if (exact) {
      extras.push({ ...exact, hands: 1 });
      continue;
    }
    const found =
      /^(?:(.+?),?\s+)??((?:(?:from|von)\s+)?\d\S*(?:\s*(?:[ap]m|uhr))?\s*(?:-|–|—|to|until|bis)\s*\d\S*(?:\s*(?:[ap]m|uhr))?)$/i.exec(
        piece.trim(),
      );
    if (!found) return no(piece);
    const hours = parseHours(found[2] ?? '');
    const dates = parseDates(found[1] ?? 'today', now, studio.zone);
    if (isRefusal(hours) || isRefusal(dates)) return no(piece);
    for (const date of dates) {
      const day = Date.parse(`${date}T00:00:00Z`) / DAY;
      const until = onDate(studio.zone, hours.untilMinute <= hours.fromMinute ? day + 1 : day, hours.untilMinute);
      extras.push({ from: onDate(studio.zone, day, hours.fromMinute), until, hands: 1 });
    }
  }
  return extras.length === 0 ? no(typedText) : extras;
}
