import type { Conditions } from './conditions.ts';
import { goneThrough, type Speed } from './cure.ts';

/** All that fingers found on one coat, and what its data sheet said of it. */
export interface TouchedCoat {
  readonly material: string;
  /** When the coat was finished. */
  readonly begun: number;
  readonly fromMinutes: number;
  readonly untilMinutes: number | null;
  readonly speed: Speed | null;
  readonly touches: readonly Touch[];
}

export interface Touch {
  readonly at: number;
  /** When it was told. */
  readonly enteredAt: number;
  readonly result: 'not-yet' | 'ready' | 'past';
}

/**
 * How many times as long as its data sheet says one coat took, as far as the touches tell; null where they tell nothing. A
 * finger only finds bounds: "not yet" says longer than so far, "ready" no longer than so far, "past" before the window's end
 * that it closed no later than so far. What lies within the bounds and nearest to the sheet is taken, so that whoever looked
 * early, or came late, to a coat that was on time has seen just that. Between a "not yet" after its time and a "ready" it is
 * their geometric mean: somebody waited for it. Temperatures are reckoned out: times are those at the reference.
 */
export function observedPace(coat: TouchedCoat, conditions: Conditions): number | null {
  const shareOf = (touch: Touch, minutes: number) => goneThrough(conditions, coat.speed, coat.begun, touch.at) / minutes;
  const shares = (result: Touch['result'], minutes: number) =>
    coat.touches.filter((touch) => touch.result === result).map((touch) => shareOf(touch, minutes));
  const slowerThan = Math.max(0, ...shares('not-yet', coat.fromMinutes));
  const ready = shares('ready', coat.fromMinutes).filter((share) => share > slowerThan);
  const past = coat.untilMinutes === null ? [] : shares('past', coat.untilMinutes);
  if (ready.length > 0) {
    const noSlowerThan = Math.min(...ready);
    return slowerThan >= 1 ? Math.sqrt(slowerThan * noSlowerThan) : Math.min(1, noSlowerThan);
  }
  if (past.length > 0 && Math.min(...past) < 1) return Math.max(Math.min(...past), slowerThan);
  return slowerThan > 1 ? slowerThan : null;
}

/** What a studio has learned of one material. */
export interface Pace {
  /** How many times as long as the data sheet says it takes here. */
  readonly factor: number;
  /** How many coats that were touched stand behind it. */
  readonly checks: number;
}

/** As many of the last coats count. */
const MOST_COATS = 20;
/** With as many coats as this, half of what they say is believed. */
const HALF_BELIEVED = 3;
/** A single coat counts as no more than this, either way: beyond it, something else went wrong. */
const MOST_FACTOR = 2;

/**
 * What to expect after these observations, the last one at the end: exp of the median of their logarithms, shrunk towards
 * nothing by n/(n + 3) while there are few. The median is not moved by one wild check among several, and a single one is
 * first cut to twice or half.
 */
export function learnedPace(observed: readonly number[]): Pace {
  const logs = observed
    .slice(-MOST_COATS)
    .map((ratio) => Math.max(-Math.log(MOST_FACTOR), Math.min(Math.log(MOST_FACTOR), Math.log(ratio))))
    .sort((a, b) => a - b);
  const checks = logs.length;
  if (checks === 0) return { factor: 1, checks: 0 };
  const median = ((logs[Math.floor((checks - 1) / 2)] ?? 0) + (logs[Math.floor(checks / 2)] ?? 0)) / 2;
  return { factor: Math.exp((median * checks) / (checks + HALF_BELIEVED)), checks };
}
