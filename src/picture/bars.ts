import { type Axis, xOf } from './axis.ts';
import type { PictureBar } from './models.ts';

/** The narrowest that a bar of work is drawn, so that a quarter of an hour in three weeks is still seen. */
const LEAST_WORK = 8;
/** What is narrower than this is not drawn. */
const LEAST_SEEN = 2;

export interface BarOnAxis {
  readonly bar: PictureBar;
  readonly left: number;
  readonly right: number;
}

/**
 * Where bars lie, from left to right, none over another: work is at least so wide, and waits have what is left between. What is
 * over before the axis begins, or begins after its end, is left out.
 */
export function barsOn(axis: Axis, bars: readonly PictureBar[]): BarOnAxis[] {
  const shown = bars.filter((bar) => bar.until > axis.from && bar.from < axis.until);
  const end = xOf(axis, axis.until);
  const work = new Map<PictureBar, BarOnAxis>();
  let free = xOf(axis, axis.from);
  for (const bar of shown.filter(({ what }) => what !== 'wait')) {
    const left = Math.max(free, Math.min(xOf(axis, bar.from), end - LEAST_WORK));
    const right = Math.min(end, Math.max(xOf(axis, bar.until), left + LEAST_WORK));
    work.set(bar, { bar, left, right });
    free = right;
  }
  let before = xOf(axis, axis.from);
  const placed = shown.map((bar, index): BarOnAxis => {
    const here = work.get(bar);
    const after = shown.slice(index + 1).find((each) => work.has(each));
    const next = (after && work.get(after)?.left) ?? end;
    const on = here ?? { bar, left: Math.max(before, xOf(axis, bar.from)), right: Math.min(next, xOf(axis, bar.until)) };
    before = Math.max(before, on.right);
    return on;
  });
  return placed.filter(({ left, right }) => right - left >= LEAST_SEEN);
}
