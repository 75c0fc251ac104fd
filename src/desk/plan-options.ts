import type { BenchEvent } from '../bench/events.ts';
import type { ExtraHours } from '../bench/studio.ts';
import { text, typed } from '../chat/options.ts';
import type { JobEvent } from '../job/events.ts';
import { parseTemperature } from '../trade/measures/quantity.ts';
import { DAY, HOUR, MINUTE, onDate } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { comingMoment } from '../trade/time/coming.ts';
import { USUAL_DAY } from '../trade/time/conditions.ts';
import { parseDates } from '../trade/time/days.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, inLine, type Kept, kept, line, type Typed } from './examples.ts';

/** When it is to be done, and what is counted on for it. */
export interface PlanInput {
  readonly start?: string | undefined;
  readonly 'ready-by'?: string | undefined;
  readonly extra?: string | undefined;
  readonly room?: Kept<number> | undefined;
}

/** The same, read; instants in milliseconds since the epoch. */
export interface PlanAsk {
  /** Null: as soon as may be. */
  readonly start: number | null;
  readonly readyBy: number | null;
  /** More hands than the shifts have. */
  readonly extras: readonly ExtraHours[];
  /** The room is kept at this temperature, day and night. */
  readonly roomCelsius: number | null;
}

/** What room is no place to work in. */
const ROOM = { fromCelsius: 5, untilCelsius: 45 };

/** The options of `PlanInput` for the command of that path; `others`: what its examples need beside them. */
export const planOptions = (command: string, others: Typed) => ({
  start: text({ about: 'When the first step begins: now, tomorrow 7:00, mon 8:00', free: true }).optional(),
  'ready-by': text({ about: 'When the last wait is over: fri 16:00', free: true }).optional(),
  extra: text({ about: 'One more person, beside the shifts: today 17:00-19:00', free: true }).optional(),
  room: typed(kept(inLine(parseRoom, (room) => line(command, { ...others, room }))), {
    about: 'The room is kept at this, day and night: 21 C',
  }).optional(),
});

function parseRoom(typedText: string): number | Refusal {
  const celsius = parseTemperature(typedText);
  if (isRefusal(celsius)) return again(celsius, { example: '21 C' });
  if (celsius >= ROOM.fromCelsius && celsius <= ROOM.untilCelsius) return celsius;
  return new Refusal('no-room', say`Expected a room that people work in, from 5 to 45 °C, got “${typedText}”.`, {
    example: '21 C',
  });
}

export const planTyped = (input: PlanInput): Typed => ({
  start: input.start,
  'ready-by': input['ready-by'],
  extra: input.extra,
  room: input.room?.typed,
});

/** Pressed within this time, a button that starts what was to begin meanwhile still does. */
export const STILL_STARTS = HOUR;

/**
 * Refusals: those of `comingMoment`, `not-extra`, `ready-before-start`. `lineWith`: the line that an example would be. `grace`: a
 * start that is over for no longer is meant for now, in milliseconds.
 */
export function planAsked(desk: Desk, input: PlanInput, lineWith: (more: Typed) => string, grace = 0): PlanAsk | Refusal {
  const moment = (name: 'start' | 'ready-by', typedText: string | undefined, after: number): number | null | Refusal => {
    if (typedText === undefined) return null;
    const at = comingMoment(typedText, desk.now, desk.studio.zone, after);
    if (!isRefusal(at)) return at;
    const wasIt = name === 'start' && at.code === 'in-past' && grace > 0;
    if (wasIt && !isRefusal(comingMoment(typedText, desk.now - grace, desk.studio.zone))) return desk.now;
    return again(at, { example: lineWith({ [name]: at.example ?? 'tomorrow 7:00' }) });
  };
  const start = moment('start', input.start, desk.now);
  if (isRefusal(start)) return start;
  const readyBy = moment('ready-by', input['ready-by'], start ?? desk.now);
  if (isRefusal(readyBy)) return readyBy;
  if (input.extra !== undefined && desk.studio.shifts.hours.length === 0)
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
  // Nobody works by seconds.
  const whole = start === null ? null : Math.ceil(start / MINUTE) * MINUTE;
  return { start: whole, readyBy, extras, roomCelsius: input.room?.value ?? null };
}

/** "today 17:00-19:00; 2026-03-03 5-6": a day and hours by the wall clock, one person each. */
function extrasOf(typedText: string, { now, studio }: Desk, lineWith: (more: Typed) => string): ExtraHours[] | Refusal {
  const extras: ExtraHours[] = [];
  const no = (piece: string) =>
    new Refusal('not-extra', say`Expected a day and hours, such as today 17:00-19:00, got “${piece}”.`, {
      example: lineWith({ extra: 'today 17:00-19:00' }),
    });
  for (const piece of typedText.split(/\s*;\s*/).filter((each) => each !== '')) {
    const found = /^(?:(.+?)\s+)?(\d\S*\s*(?:-|–|to|until)\s*\d\S*(?:\s*[ap]m)?)$/i.exec(piece.trim());
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

/** What is to be stored along with a job that begins by a plan. */
export interface Starting {
  readonly planned: Extract<JobEvent, { type: 'JobStarted' }>['planned'];
  readonly told: readonly BenchEvent[];
}

/** Tells the studio of the hands, and the bench of the room, that a plan counts on. */
export async function startsAsPlanned(desk: Desk, { start, readyBy, extras, roomCelsius }: PlanAsk): Promise<Starting | Refusal> {
  // One more than there are already in the very same hours.
  const there = ({ from, until }: ExtraHours) =>
    desk.studio.extras.find((each) => each.from === from && each.until === until)?.hands ?? 0;
  const fresh = extras.map((extra) => ({ ...extra, hands: there(extra) + extra.hands }));
  if (fresh.length > 0) {
    const studio = await desk.house.changeStudio(() =>
      fresh.map((extra) => ({ version: 1, type: 'ExtraHoursSet', at: desk.now, by: desk.who, ...extra })),
    );
    if (isRefusal(studio)) return studio;
  }
  const stamp = { version: 1 as const, at: desk.now, enteredAt: desk.now, by: desk.who };
  return {
    planned: start === null && readyBy === null ? null : { beginsAt: start ?? desk.now, readyBy },
    told:
      roomCelsius === null
        ? []
        : [
            {
              ...stamp,
              type: 'TemperatureExpected',
              dayCelsius: roomCelsius,
              nightCelsius: roomCelsius,
              day: (await desk.bench.state()).expectations.at(-1)?.day ?? USUAL_DAY,
              zone: desk.studio.zone,
            },
          ],
  };
}
