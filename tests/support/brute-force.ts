import type { Span } from '../../src/trade/plan/spans.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import { type GridAsk, type GridStep, isFree, windowAfter } from './grid.ts';

export interface GridPlan {
  readonly earliest: number[];
  /** Null where there is no `readyBy`. */
  readonly latest: number[] | null;
  /** By step of the earliest plan: until when every start that can be reached, after the earliest one of the step before, leads to the end. */
  readonly latestAfterEarliest: (number | null)[];
  readonly readyAt: number;
}
/** No chain of starts reaches `step`; or all steps are reached and `readyBy` alone is not kept: `late`, and the last step. */
export interface GridMisfit {
  readonly step: number;
  readonly why: 'no-start' | 'late';
  /** By runs of minutes: which starts of the step before were reached, and into which minutes their windows fall. */
  readonly before: Span[];
  readonly window: Span[];
  /** The soonest that the last wait can be over; null where `why` is something else. */
  readonly readyAt: number | null;
  readonly lastMinute: number;
}
/** The answer lies past the last minute that was looked at. */
export const PAST_THE_GRID = 'past the grid';

/** By minute of the grid. The window after a start: first and last whole minute, and the instant at which it opens. */
interface Reached {
  readonly starts: Uint8Array;
  readonly first: Float64Array;
  readonly last: Float64Array;
  readonly opens: Float64Array;
}
interface Grid {
  readonly ask: GridAsk;
  readonly base: number;
  readonly size: number;
  /** Whether a step can be done past the grid, where nothing but an end to staffed time would stop it. */
  readonly endless: (step: GridStep) => boolean;
  /** Whether past the grid each window holds a whole minute: one of a few minutes may hold none there, or one now and then. */
  readonly open: boolean;
}

/**
 * Every plan there is, minute by minute: which starts of each step some chain of starts reaches, and from which of them the
 * rest can still be done. Nothing is inverted and nothing is taken to be monotone. Minutes are looked at from `begin.from` to
 * `lastMinute`, or to the end of the staffed time or `readyBy` where that is later. `open`: whether past that windows are taken
 * to hold whole minutes, or not to.
 */
export function bruteForce(ask: GridAsk, lastMinute = 0, open = true): GridPlan | GridMisfit | typeof PAST_THE_GRID {
  const base = ask.begin.from;
  const size = Math.max(lastMinute, base, ask.readyBy ?? 0, ...(ask.staffed ?? ask.busy).map(({ until }) => until)) - base + 1;
  const grid: Grid = { ask, base, size, open, endless: ({ handsMinutes }) => ask.staffed === null || handsMinutes === 0 };
  const reached = forwards(grid);
  if (!Array.isArray(reached)) return reached;
  const done = backwards(grid, reached);
  return done.some((starts) => !starts.includes(1)) ? unkept(grid, reached, done) : best(grid, reached, done);
}

function possibleStarts({ ask, base, size }: Grid): Uint8Array[] {
  const longest = Math.max(...ask.steps.map(({ handsMinutes }) => handsMinutes));
  const free = Uint8Array.from({ length: size + longest }, (_, at) => (isFree(ask, base + at) ? 1 : 0));
  return ask.steps.map(({ handsMinutes }) =>
    Uint8Array.from({ length: size }, (_, at) => {
      let hands = 0;
      while (hands < handsMinutes && free[at + hands] === 1) hands += 1;
      return hands === handsMinutes ? 1 : 0;
    }),
  );
}

function forwards(grid: Grid): Reached[] | GridMisfit | typeof PAST_THE_GRID {
  const { ask, base, size, endless } = grid;
  const possible = possibleStarts(grid);
  const reached: Reached[] = [];
  let inside = Uint8Array.from({ length: size }, (_, at) => (base + at <= ask.begin.until ? 1 : 0));
  let goesOn = ask.begin.until > base + size - 1;
  for (const [index, step] of ask.steps.entries()) {
    const starts = inside.map((is, at) => is & (possible[index]?.[at] as number));
    if (!starts.includes(1)) {
      if (goesOn && endless(step)) return PAST_THE_GRID;
      const before = runsOf(grid, reached.at(-1)?.starts ?? new Uint8Array(size));
      return { step: index, why: 'no-start', before, window: runsOf(grid, inside), readyAt: null, lastMinute: base + size - 1 };
    }
    goesOn &&= endless(step);
    const here = { starts, first: new Float64Array(size), last: new Float64Array(size), opens: new Float64Array(size) };
    reached.push(here);
    const changes = new Int32Array(size + 1);
    const change = (at: number, by: number) => {
      changes[Math.min(at, size)] = (changes[Math.min(at, size)] as number) + by;
    };
    for (let at = 0; at < size; at += 1) {
      if (starts[at] === 0) continue;
      const { opens, closes } = windowAfter(step, base + at, ask.conditions);
      const [from, until] = [Math.ceil(opens / MINUTE) - base, Math.floor(closes / MINUTE) - base];
      [here.first[at], here.last[at], here.opens[at]] = [from, until, opens];
      if (from > until) continue;
      if (until >= size) goesOn = true;
      change(from, 1);
      change(until + 1, -1);
    }
    let open = 0;
    inside = inside.map((_, at) => {
      open += changes[at] as number;
      return open > 0 ? 1 : 0;
    });
  }
  return reached;
}

/** Of the starts that are reached, those from which the rest can be done. */
function backwards({ ask: { steps, readyBy }, size, endless, open }: Grid, reached: readonly Reached[]): Uint8Array[] {
  const done: Uint8Array[] = [];
  for (let index = steps.length - 1; index >= 0; index -= 1) {
    const { starts, first, last, opens } = reached[index] as Reached;
    const following = done[0];
    // The first good minute from each on; past the grid there is one where all of the rest is endless.
    const rest = steps.slice(index + 1);
    // The last step needs no window after it.
    const goesOn = readyBy === null && rest.every(endless) && (open || rest.length <= 1);
    const next = new Float64Array(size + 1).fill(goesOn ? size : Number.NaN);
    if (following) for (let at = size - 1; at >= 0; at -= 1) next[at] = following[at] === 1 ? at : (next[at + 1] as number);
    const fits = (at: number): boolean => {
      if (!following) return readyBy === null || (opens[at] as number) <= readyBy * MINUTE;
      const [from, until] = [first[at] as number, last[at] as number];
      return from <= until && (next[Math.min(from, size)] as number) <= until;
    };
    done.unshift(starts.map((is, at) => (is === 1 && fits(at) ? 1 : 0)));
  }
  return done;
}

function unkept({ ask, base, size }: Grid, reached: readonly Reached[], done: readonly Uint8Array[]) {
  if (done[0]?.includes(1)) return PAST_THE_GRID;
  const { starts, opens } = reached.at(-1) as Reached;
  const soonest = opens.reduce(
    (least, at, index) => (starts[index] === 1 ? Math.min(least, at) : least),
    Number.POSITIVE_INFINITY,
  );
  const readyAt = Math.ceil(soonest / MINUTE);
  return { step: ask.steps.length - 1, why: 'late' as const, before: [], window: [], readyAt, lastMinute: base + size - 1 };
}

function best({ ask, base, size, endless }: Grid, reached: readonly Reached[], done: readonly Uint8Array[]) {
  const { steps, begin, readyBy } = ask;
  const earliest = done.map((good) => base + good.indexOf(1));
  let past = false;
  const latestAfterEarliest = steps.map((_, index) => {
    const before = reached[index - 1];
    const start = (earliest[index - 1] ?? base) - base;
    const until = before ? (before.last[start] as number) : begin.until - base;
    let last = (earliest[index] ?? base) - base;
    for (let at = last; at <= Math.min(until, size - 1); at += 1) {
      if (reached[index]?.starts[at] !== 1) continue;
      if (done[index]?.[at] !== 1) return base + last;
      last = at;
    }
    // Past the grid there is no start, or none from which the rest can be done.
    const goesOn = until >= size && readyBy === null && steps.slice(index).every(endless);
    if (!goesOn) return base + last;
    if (until === Number.POSITIVE_INFINITY) return null;
    past = true;
    return null;
  });
  if (past) return PAST_THE_GRID;
  const end = (earliest.at(-1) as number) - base;
  return {
    earliest,
    latest: readyBy === null ? null : done.map((good) => base + good.lastIndexOf(1)),
    latestAfterEarliest,
    readyAt: Math.ceil((reached.at(-1)?.opens[end] as number) / MINUTE),
  };
}

function runsOf({ base, size }: Grid, minutes: Uint8Array): Span[] {
  const runs: Span[] = [];
  for (let at = 0, from = 0; at < size; at += 1) {
    if (minutes[at] === 1 && minutes[at - 1] !== 1) from = at;
    if (minutes[at] === 1 && minutes[at + 1] !== 1) runs.push({ from: base + from, until: base + at });
  }
  return runs;
}
