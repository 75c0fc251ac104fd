import { DAY, MINUTE } from '../time/calendar.ts';
import type { CureClock } from '../time/cure-clock.ts';
import { intersect, type Span, type Spans, spansOf, without } from './spans.ts';

/** What must pass between the end of a step and the start of the next, in minutes of the data sheet. */
export interface PlanWait {
  readonly fromMinutes: number;
  /** Null: whenever it suits. */
  readonly untilMinutes: number | null;
  /** The ends (whole minutes) after which nobody can tell how long it takes. */
  readonly blind?: Spans;
  /** Whole minutes by which the window is taken to close earlier: a reserve. */
  readonly marginMinutes?: number;
}

/**
 * A wait as a map between whole minutes: from the end of a step to the starts of the next that its window allows. Both ends
 * of the window grow with the moment at which the wait begins, so spans become spans, both ways.
 */
export interface WaitMap {
  /** The first whole minute of the window after work that ended at `end`. */
  opens(end: number): number;
  /** The last one; infinite where it stays open. */
  closes(end: number): number;
  /** All starts that one of the ends allows. */
  image(ends: Spans): Spans;
  /** Those of `within` that allow one of the starts. */
  preimage(starts: Spans, within: Spans): Spans;
  /** The ends after which the wait is over by `minute`. */
  overBy(minute: number): Spans;
}

/** Where windows are narrower than a minute, and go on for ever, no more than this is looked through. */
const MOST_SCANNED = (60 * DAY) / MINUTE;

/** The map of a wait. `clock`: that of its speed, at the temperatures of the bench. */
export function waitMap(wait: PlanWait, clock: CureClock): WaitMap {
  const shortest = wait.fromMinutes * MINUTE;
  const longest = wait.untilMinutes === null ? null : wait.untilMinutes * MINUTE;
  const margin = wait.marginMinutes ?? 0;
  const opens = (end: number) => (Number.isFinite(end) ? Math.ceil(clock.over(end * MINUTE, shortest) / MINUTE) : end);
  const closes = (end: number) =>
    longest === null
      ? Number.POSITIVE_INFINITY
      : Number.isFinite(end)
        ? Math.floor(clock.over(end * MINUTE, longest) / MINUTE) - margin
        : end;
  /** The last end whose window has opened by `minute`. */
  const latestEnd = (minute: number) => {
    if (!Number.isFinite(minute)) return minute;
    let end = Math.floor(clock.begun(minute * MINUTE, shortest) / MINUTE) + 1;
    while (opens(end) > minute) end -= 1;
    return end;
  };
  /** The first end whose window is still open at `minute`. */
  const earliestEnd = (minute: number) => {
    if (longest === null || minute === Number.NEGATIVE_INFINITY) return Number.NEGATIVE_INFINITY;
    let end = Math.ceil(clock.begun((minute + margin) * MINUTE, longest) / MINUTE) - 1;
    while (closes(end) < minute) end += 1;
    return end;
  };
  /** By how many minutes at least a window is longer than the opening moves from one minute to the next. */
  const roomIn = ({ from: first, until }: Span): number => {
    if (longest === null) return Number.POSITIVE_INFINITY;
    const last = Math.min(until, first + MOST_SCANNED) + 1;
    const { least, most } = clock.ratesBetween(first * MINUTE, clock.over(last * MINUTE, longest));
    return (longest - shortest) / MINUTE / most - most / least - margin;
  };
  const blind = wait.blind ?? [];
  const imageOf = (span: Span): Span[] => {
    if (roomIn(span) >= 0) return [{ from: opens(span.from), until: closes(span.until) }];
    return each(span, (end) => [{ from: opens(end), until: closes(end) }]);
  };
  /** The ends, one by one, of which a whole minute of the window is in `start`. */
  const ofNarrow = (start: Span, ends: Spans): Span[] => {
    const fits = (end: number) => Math.max(opens(end), start.from) <= Math.min(closes(end), start.until);
    return ends.flatMap((span) => each(span, (end) => (fits(end) ? [{ from: end, until: end }] : [])));
  };
  return {
    opens,
    closes,
    image: (ends) => spansOf(without(ends, blind).flatMap(imageOf)),
    preimage: (starts, within) => {
      const seeing = without(within, blind);
      const [first, last] = [seeing[0]?.from, seeing.at(-1)?.until];
      if (first === undefined || last === undefined) return [];
      const wide: Span[] = [];
      const narrow: Span[] = [];
      for (const start of longest === null ? starts.slice(-1) : starts) {
        const allow = {
          from: Math.max(first, earliestEnd(start.from)),
          until: Math.min(last, latestEnd(start.until)),
        };
        if (allow.from > allow.until) continue;
        if (roomIn(allow) >= 0) wide.push(allow);
        else narrow.push(...ofNarrow(start, intersect(seeing, [allow])));
      }
      return spansOf([...intersect(seeing, spansOf(wide)), ...narrow]);
    },
    overBy: (minute) => without([{ from: Number.NEGATIVE_INFINITY, until: latestEnd(minute) }], blind),
  };
}

const each = ({ from, until }: Span, of: (minute: number) => Span[]): Span[] => {
  const found: Span[] = [];
  const last = Math.min(until, from + MOST_SCANNED);
  for (let minute = from; minute <= last; minute += 1) found.push(...of(minute));
  return found;
};

/** No wait: the next step may begin at once, and whenever it suits. */
export const NO_WAIT: WaitMap = {
  opens: (end) => end,
  closes: () => Number.POSITIVE_INFINITY,
  image: (ends) => (ends.length === 0 ? [] : [{ from: ends[0]?.from ?? 0, until: Number.POSITIVE_INFINITY }]),
  preimage: (starts, within) =>
    intersect(within, spansOf([{ from: Number.NEGATIVE_INFINITY, until: starts.at(-1)?.until ?? Number.NEGATIVE_INFINITY }])),
  overBy: (minute) => [{ from: Number.NEGATIVE_INFINITY, until: minute }],
};
