import type { PlanWait } from '../trade/plan/wait-map.ts';
import { begunMinute, fullMinute, MINUTE } from '../trade/time/calendar.ts';
import { type Conditions, stretches } from '../trade/time/conditions.ts';
import { type Speed, waitOver } from '../trade/time/cure.ts';
import type { PlannedStep } from './events.ts';

/**
 * From when to when the wait after a step lasts, in milliseconds since the epoch: in whole minutes inside of what was reckoned,
 * since those are what cards say, plans know and people go by.
 */
export interface WaitEnds {
  readonly opensAt: number;
  readonly closesAt: number | null;
  /**
   * The first temperature on the way that was read and that the material is not made for. Where there is one, nothing is
   * predicted: the two instants are only when it is worth a touch.
   */
  readonly outside: Outside | null;
}

export interface Outside {
  readonly at: number;
  readonly celsius: number;
}

/** The wait after `plan`, which was finished at `begun`: the data sheet's times, at this bench's temperatures and pace. */
export function waitEnds(plan: PlannedStep, conditions: Conditions, begun: number): WaitEnds {
  const wait = pacedWait(plan, conditions);
  if (wait === null) return { opensAt: begun, closesAt: null, outside: null };
  const over = (minutes: number) => waitOver(conditions, wait.speed, begun, minutes);
  const exact = { opensAt: over(wait.fromMinutes), closesAt: wait.untilMinutes === null ? null : over(wait.untilMinutes) };
  const { opensAt, closesAt } = inWholeMinutes(exact, begun);
  const ended = exact.closesAt ?? exact.opensAt;
  const outside = plan.wait?.kind === 'fixed' ? null : outsideBetween(plan.usable, conditions, begun, ended);
  return { opensAt, closesAt, outside };
}

/** A window that lies within one minute, or opens at once, is not shut by rounding. */
function inWholeMinutes({ opensAt, closesAt }: Pick<WaitEnds, 'opensAt' | 'closesAt'>, begun: number) {
  const first = opensAt === begun ? begun : fullMinute(opensAt);
  if (closesAt === null) return { opensAt: first, closesAt };
  const last = begunMinute(closesAt);
  return first <= last ? { opensAt: first, closesAt: last } : { opensAt, closesAt };
}

/** The wait after a step with what this studio has learned of its material's pace; null where there is none. */
export function pacedWait(
  { wait, material }: PlannedStep,
  { paces }: Conditions,
): (Pick<PlanWait, 'fromMinutes' | 'untilMinutes'> & { readonly speed: Speed | null }) | null {
  if (wait === null) return null;
  const learned = (material && paces.get(material.id)) ?? 1;
  // What a coat's tack has taught makes no mould come out before its sheet's time.
  const pace = wait.kind === 'fixed' ? 1 : wait.kind === 'cure' ? Math.max(1, learned) : learned;
  return {
    fromMinutes: wait.fromMinutes * pace,
    untilMinutes: wait.untilMinutes === null ? null : wait.untilMinutes * pace,
    speed: wait.speed,
  };
}

/** A door that stood open for less than this leaves no mark on what cures. */
export const A_WHILE = 30 * MINUTE;

/**
 * The first temperature read between two instants that is not `usable` and that lasted, as far as was read since; what is
 * only expected does not count.
 */
export function outsideBetween(
  usable: PlannedStep['usable'],
  conditions: Conditions,
  from: number,
  until: number,
): Outside | null {
  if (usable === null) return null;
  let at = from;
  let since: Outside | null = null;
  for (const stretch of stretches(conditions, from)) {
    const { celsius, read } = stretch;
    const out = read && celsius !== null && (celsius < usable.fromCelsius || celsius > usable.untilCelsius);
    since = out ? (since ?? { at, celsius }) : null;
    at = stretch.until;
    if (since !== null && at - since.at >= A_WHILE) return since;
    if (at >= until) return null;
  }
  return null;
}
