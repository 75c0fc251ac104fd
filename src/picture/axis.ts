import { DateTime } from 'luxon';
import type { TimeSpan } from './models.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** A stretch of time on a stretch of pixels. */
interface Part extends TimeSpan {
  readonly left: number;
  readonly right: number;
}

/** Time from left to right, in one scale or in two: what comes soon, and what comes later, closer together. */
export interface Axis {
  readonly parts: readonly Part[];
  readonly from: number;
  readonly until: number;
}

/** Between the scales. */
const GAP = 18;
/** In one scale, no more than this is drawn where what comes soon is to be seen. */
const LONGEST_NEAR = 14 * HOUR;
const NEAR = 7 * HOUR;
const NEAR_SHARE = 0.6;

/** Whether something begins or goes on in what is drawn larger; `bars` are those of work. */
export const isNear = (bars: readonly TimeSpan[], now: number): boolean =>
  bars.some(({ from, until }) => until > now && from < now + NEAR);

export function axisOf({ from, until }: TimeSpan, now: number, left: number, right: number, nearFirst: boolean): Axis {
  const near = Math.max(now, from) + NEAR;
  if (!nearFirst || until - from <= LONGEST_NEAR) return { parts: [{ from, until, left, right }], from, until };
  const turn = left + Math.round((right - left) * NEAR_SHARE);
  return {
    parts: [
      { from, until: near, left, right: turn - GAP / 2 },
      { from: near, until, left: turn + GAP / 2, right },
    ],
    from,
    until,
  };
}

/** Where an instant lies, in pixels; what lies beyond the ends lies at them. */
export function xOf({ parts }: Axis, at: number): number {
  const part = parts.find(({ until }) => at <= until) ?? (parts.at(-1) as Part);
  const share = (Math.min(part.until, Math.max(part.from, at)) - part.from) / (part.until - part.from);
  return part.left + share * (part.right - part.left);
}

export interface Tick {
  readonly at: number;
  readonly label: string;
  /** A day begins here. */
  readonly day: boolean;
}

/** Minutes between ticks. */
const STEPS = [5, 10, 15, 30, 60, 120, 180, 240, 360, 720];
const DAY_STEPS = [1, 2, 3, 7, 14, 28];

/** "Mon 2". */
export const dayOf = (at: number, zone: string): string => DateTime.fromMillis(at, { zone, locale: 'en' }).toFormat('ccc d');

/**
 * Ticks at whole hours or days of the zone's clock, at least `apart` pixels from each other. On the days on which the clock
 * jumps, hours are where it shows them.
 */
export function ticksOf({ from, until, left, right }: Part, zone: string, apart: number): Tick[] {
  const perPixel = (until - from) / Math.max(1, right - left);
  const minutes = STEPS.find((step) => step * MINUTE >= apart * perPixel);
  const days = DAY_STEPS.find((step) => step * DAY >= apart * perPixel) ?? 56;
  const ticks: Tick[] = [];
  const first = DateTime.fromMillis(from, { zone, locale: 'en' }).startOf('day');
  for (let day = first, count = 0; day.toMillis() <= until; day = day.plus({ days: 1 }), count += 1) {
    const whole = day.startOf('day');
    if (minutes === undefined) {
      if (count % days === 0) ticks.push({ at: whole.toMillis(), label: dayOf(whole.toMillis(), zone), day: true });
      continue;
    }
    ticks.push({ at: whole.toMillis(), label: dayOf(whole.toMillis(), zone), day: true });
    for (let minute = minutes; minute < 24 * 60; minute += minutes) {
      const at = whole.set({ hour: Math.floor(minute / 60), minute: minute % 60 });
      // An hour that the clock leaves out is none.
      if (at.hour * 60 + at.minute === minute) ticks.push({ at: at.toMillis(), label: at.toFormat('HH:mm'), day: false });
    }
  }
  return ticks.filter(({ at }) => at >= from && at <= until);
}
