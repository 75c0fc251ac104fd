import type { ChainStep } from '../trade/plan/chain.ts';
import { type Spans, spansOf } from '../trade/plan/spans.ts';
import { waitMap } from '../trade/plan/wait-map.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { type Conditions, stretches } from '../trade/time/conditions.ts';
import type { Speed } from '../trade/time/cure.ts';
import { CureClock } from '../trade/time/cure-clock.ts';
import type { PlannedStep } from './events.ts';
import { A_WHILE, pacedWait } from './wait.ts';

/** The cure clocks of one bench, each wound once. */
export class Clocks {
  readonly conditions: Conditions;
  readonly from: number;
  readonly #known = new Map<string, CureClock>();

  /** `from`: no earlier instant will be asked for. */
  constructor(conditions: Conditions, from: number) {
    this.conditions = conditions;
    this.from = from;
  }

  of(speed: Speed | null): CureClock {
    const key = JSON.stringify(speed);
    const clock = this.#known.get(key) ?? new CureClock(this.conditions, speed, this.from);
    this.#known.set(key, clock);
    return clock;
  }
}

/** Steps as the planner takes them: whole minutes of hands, and waits at this bench's temperatures and pace. */
export const chainOf = (steps: readonly PlannedStep[], clocks: Clocks, reserveMinutes = 0): ChainStep[] =>
  steps.map((step) => linkOf(step, clocks, reserveMinutes));

/** Of a window so much may be kept in reserve, so that also in the warmth something is left of it. */
const MOST_OF_WINDOW = 0.25;

/** One of them. `reserveMinutes`: so much before its end a window counts as closed, or a quarter of it where that is less. */
export function linkOf(step: PlannedStep, clocks: Clocks, reserveMinutes = 0): ChainStep {
  const wait = pacedWait(step, clocks.conditions);
  const handsMinutes = Math.ceil(step.handsMinutes);
  if (wait === null) return { handsMinutes, wait: null };
  const clock = clocks.of(wait.speed);
  const blind = blindEnds(step, clocks, (wait.untilMinutes ?? wait.fromMinutes) * MINUTE);
  const long = (wait.untilMinutes ?? Number.POSITIVE_INFINITY) - wait.fromMinutes;
  const marginMinutes = Math.min(reserveMinutes, Math.floor(long * MOST_OF_WINDOW));
  return { handsMinutes, wait: waitMap({ ...wait, blind, marginMinutes }, clock) };
}

/** The ends, in whole minutes, after which nobody can tell how long it takes: a temperature was read that it is not made for. */
function blindEnds({ usable, wait }: PlannedStep, clocks: Clocks, longest: number): Spans {
  const { conditions } = clocks;
  const last = conditions.readings.at(-1)?.at;
  if (usable === null || wait === null || wait.kind === 'fixed' || last === undefined) return [];
  const clock = clocks.of(wait.speed);
  const blind: { from: number; until: number }[] = [];
  let at = conditions.readings[0]?.at ?? last;
  let since: number | null = null;
  for (const { until, celsius, read } of stretches(conditions, at)) {
    const out = read && celsius !== null && (celsius < usable.fromCelsius || celsius > usable.untilCelsius);
    if (out) since ??= at;
    else since = null;
    if (since !== null && until - since >= A_WHILE)
      blind.push({
        from: Math.floor(clock.begun(since, longest) / MINUTE) + 1,
        until: Math.floor((until - A_WHILE) / MINUTE),
      });
    if (!read && at >= last) break;
    at = until;
  }
  return spansOf(blind);
}
