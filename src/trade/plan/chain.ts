import { intersect, type Span, type Spans, shifted, spansOf, startsWithin, without } from './spans.ts';
import { NO_WAIT, type WaitMap } from './wait-map.ts';

/** One piece of work: so many minutes of hands, then a wait; null where the next may follow at once, and at any time later. */
export interface ChainStep {
  readonly handsMinutes: number;
  readonly wait: WaitMap | null;
}

/** What is to be planned; all times in whole minutes since the epoch. */
export interface Ask {
  /** At least one. */
  readonly steps: readonly ChainStep[];
  /** The first step starts within; it may have no end. */
  readonly begin: Span;
  /** The minutes in which a pair of hands is free. */
  readonly free: Spans;
  /** By when the wait after the last step is over; null where it does not matter. */
  readonly readyBy: number | null;
}

export interface ChainPlan {
  readonly starts: readonly number[];
  /** Begun at any time until then at which there are hands, with all before it as planned, the rest still fits; null: whenever. */
  readonly latest: readonly (number | null)[];
  /** When the wait after the last step is over. */
  readonly readyAt: number;
}

/** Why there is no plan: all steps before `step` can be done, this one cannot. */
export interface Misfit {
  readonly step: number;
  /** `late`: all can be done, and the wait after the last step is over no earlier than `readyAt`, which is too late. */
  readonly why: 'no-start' | 'late';
  /** When it could begin, would somebody be there; empty where no window can be told. */
  readonly window: Spans;
  /** The starts of the step before that lead there; empty for the first one. */
  readonly before: Spans;
  readonly readyAt: number | null;
}

export const isMisfit = (planned: ChainPlan | Misfit): planned is Misfit => 'why' in planned;

/** The plan whose every step is as early as it can be in any plan at all. */
export const earliestPlan = (ask: Ask): ChainPlan | Misfit => planned(ask, (spans) => spans[0]?.from);

/** The plan whose every step is as late as it can be in any plan at all; it needs a time to be ready by. */
export const latestPlan = (ask: Ask): ChainPlan | Misfit => planned(ask, (spans) => spans.at(-1)?.until);

/**
 * The starts that can be reached are pushed forward through the windows, step by step; those of them from which the end can be
 * reached are kept on the way back. What is left is whole: from each start of a step there is one of the next in its window.
 * Windows never close earlier for work that ends later, so taking the first (or the last) of each step gives a plan that no
 * other is ahead of (or behind) in any step.
 */
function planned(ask: Ask, choose: (spans: Spans) => number | undefined): ChainPlan | Misfit {
  const found = searched(ask);
  if ('why' in found) return found;
  const { kept } = found;
  const starts: number[] = [];
  let window: Span = ask.begin;
  ask.steps.forEach((step, index) => {
    const start = choose(intersect(kept[index] ?? [], spansOf([window]))) ?? Number.NaN;
    starts.push(start);
    window = windowAfter(step, start);
  });
  return { starts, latest: latestOf(ask, found, starts), readyAt: window.from };
}

/**
 * How late each step of a plan may begin, with all before it as in `starts`, so that the rest still fits what is asked, which
 * may be another end than the plan was made for. Null as a whole where it fits no more.
 */
export function latestStarts(ask: Ask, starts: readonly number[]): (number | null)[] | null {
  const found = searched(ask);
  return 'why' in found ? null : latestOf(ask, found, starts);
}

/** The last minute at which the first step can begin so that all can be done; null where there is none. */
export function lastBegin(ask: Ask): number | null {
  const found = searched(ask);
  return 'why' in found ? null : (found.kept[0]?.at(-1)?.until ?? null);
}

/** The starts of each step from which the end can be reached, over all plans; null where there is none. */
export function feasibleStarts(ask: Ask): readonly Spans[] | null {
  const found = searched(ask);
  return 'why' in found ? null : found.kept;
}

/** A limit further off than this presses nobody: a week. */
const FAR_MINUTES = 7 * 24 * 60;

function latestOf({ begin, steps, readyBy }: Ask, { reached, kept }: Searched, starts: readonly number[]): (number | null)[] {
  let window: Span = begin;
  return steps.map((step, index) => {
    const start = starts[index] ?? Number.NaN;
    const open = spansOf([{ from: start, until: window.until }]);
    const closes = window.until < Number.POSITIVE_INFINITY || readyBy !== null;
    window = windowAfter(step, start);
    const good = intersect(kept[index] ?? [], open);
    const [wrong] = without(intersect(reached[index] ?? [], open), good);
    const last = (wrong ? good.findLast((span) => span.until < wrong.from) : good.at(-1))?.until;
    // Where nothing closes, the end of what is looked at is no limit.
    return last === undefined || (!closes && last - start > FAR_MINUTES) ? null : last;
  });
}

/** When the next step may begin. */
export function windowAfter(step: ChainStep, start: number): Span {
  const wait = waitOf(step);
  return { from: wait.opens(start + step.handsMinutes), until: wait.closes(start + step.handsMinutes) };
}

interface Searched {
  /** The starts of each step that can be reached. */
  readonly reached: readonly Spans[];
  /** Those of them from which the end can be. */
  readonly kept: readonly Spans[];
}

function searched(ask: Ask): Searched | Misfit {
  const reached = forward(ask);
  if (!Array.isArray(reached)) return reached;
  const kept = backward(ask, reached);
  return Array.isArray(kept) ? { reached, kept } : kept;
}

/** The starts of each step that can be reached. */
function forward({ steps, begin, free }: Ask): Spans[] | Misfit {
  const reached: Spans[] = [];
  const roomFor = new Map<number, Spans>();
  let window = spansOf([begin]);
  for (const [index, step] of steps.entries()) {
    const room = roomFor.get(step.handsMinutes) ?? startsWithin(free, step.handsMinutes);
    roomFor.set(step.handsMinutes, room);
    const starts = intersect(window, room);
    if (starts.length === 0) return { step: index, why: 'no-start', window, before: reached.at(-1) ?? [], readyAt: null };
    reached.push(starts);
    window = waitOf(step).image(shifted(starts, step.handsMinutes));
  }
  return reached;
}

/** Those of them from which all the rest can be done in time. */
function backward({ steps, readyBy }: Ask, reached: readonly Spans[]): Spans[] | Misfit {
  const kept: Spans[] = [];
  const last = steps.length - 1;
  for (let index = last; index >= 0; index -= 1) {
    const step = steps[index] as ChainStep;
    const ends = shifted(reached[index] ?? [], step.handsMinutes);
    const wait = waitOf(step);
    const following = kept[0];
    const good = following ? wait.preimage(following, ends) : readyBy === null ? ends : intersect(ends, wait.overBy(readyBy));
    if (good.length === 0) {
      const readyAt = wait.opens(ends[0]?.from ?? Number.NaN);
      return { step: index, why: 'late', window: reached[index] ?? [], before: reached[index - 1] ?? [], readyAt };
    }
    kept.unshift(shifted(good, -step.handsMinutes));
  }
  return kept;
}

const waitOf = (step: ChainStep): WaitMap => step.wait ?? NO_WAIT;
