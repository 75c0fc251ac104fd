import type { Span } from '../../src/trade/plan/spans.ts';
import { MINUTE } from '../../src/trade/time/calendar.ts';
import type { Conditions } from '../../src/trade/time/conditions.ts';
import { type Speed, waitOver } from '../../src/trade/time/cure.ts';

/** A chain as a planner is asked for it, but with nothing worked out: plain waits, plain lists of minutes. */
export interface GridAsk {
  readonly steps: readonly GridStep[];
  readonly begin: Span;
  /** Shifts in any order, touching and overlapping as they like; null: somebody is always there. */
  readonly staffed: readonly Span[] | null;
  /** What other jobs take out of them. */
  readonly busy: readonly Span[];
  readonly readyBy: number | null;
  readonly conditions: Conditions;
}
export interface GridStep {
  readonly handsMinutes: number;
  readonly wait: GridWait | null;
}
export interface GridWait {
  readonly fromMinutes: number;
  readonly untilMinutes: number | null;
  readonly speed: Speed | null;
  /** After work that ended in these minutes nothing may follow. */
  readonly blind?: readonly Span[];
  /** By so many minutes the window closes earlier. */
  readonly marginMinutes?: number;
}

/** When the wait after a step that starts at `start` opens and closes, in milliseconds. */
export function windowAfter(
  { handsMinutes, wait }: GridStep,
  start: number,
  conditions: Conditions,
): { opens: number; closes: number } {
  const end = (start + handsMinutes) * MINUTE;
  if (wait === null) return { opens: end, closes: Number.POSITIVE_INFINITY };
  if (has(wait.blind ?? [], start + handsMinutes)) return { opens: Number.POSITIVE_INFINITY, closes: Number.NEGATIVE_INFINITY };
  const opens = waitOver(conditions, wait.speed, end, wait.fromMinutes);
  if (wait.untilMinutes === null) return { opens, closes: Number.POSITIVE_INFINITY };
  return { opens, closes: waitOver(conditions, wait.speed, end, wait.untilMinutes) - (wait.marginMinutes ?? 0) * MINUTE };
}

/** What is wrong with these starts, by the definition of a plan alone; null if nothing is. */
export function wrongWith(ask: GridAsk, starts: readonly number[]): string | null {
  for (const [index, step] of ask.steps.entries()) {
    const start = starts[index];
    if (start === undefined || !Number.isInteger(start)) return `step ${index} starts at ${start}`;
    for (let minute = start; minute < start + step.handsMinutes; minute += 1)
      if (!isFree(ask, minute)) return `step ${index} has no hands at ${minute}`;
    const before = ask.steps[index - 1];
    if (before === undefined) {
      if (start < ask.begin.from || start > ask.begin.until) return `begins at ${start}`;
      continue;
    }
    const { opens, closes } = windowAfter(before, starts[index - 1] as number, ask.conditions);
    if (start * MINUTE < opens || start * MINUTE > closes) return `step ${index} at ${start} misses ${opens} to ${closes}`;
  }
  const last = ask.steps.length - 1;
  const over = windowAfter(ask.steps[last] as GridStep, starts[last] as number, ask.conditions).opens;
  return ask.readyBy !== null && over > ask.readyBy * MINUTE ? `ready at ${over}` : null;
}

const has = (list: readonly Span[], minute: number) => list.some(({ from, until }) => from <= minute && minute <= until);
export const isFree = ({ staffed, busy }: GridAsk, minute: number) =>
  (staffed === null || has(staffed, minute)) && !has(busy, minute);
