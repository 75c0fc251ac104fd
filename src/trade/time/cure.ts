import type { CureLaw } from '../material.ts';
import { MINUTE } from './calendar.ts';
import { type Conditions, stretches } from './conditions.ts';

/** How a material's clock follows temperature: the law, and the temperature at which the data sheet's times hold. */
export interface Speed {
  readonly law: CureLaw;
  readonly referenceCelsius: number;
}

/** Molar gas constant in J/(mol·K), CODATA 2018. */
const GAS_CONSTANT = 8.314462618;
const ZERO_CELSIUS = 273.15;

/**
 * How fast the cure goes at `celsius`, as a multiple of its speed at the reference temperature. Q10: the factor by which
 * speed grows over ten kelvin; Arrhenius: exp(E/R · (1/T_ref − 1/T)), temperatures in kelvin.
 */
export function rate({ law, referenceCelsius }: Speed, celsius: number): number {
  if (law.law === 'q10') return law.q10 ** ((celsius - referenceCelsius) / 10);
  return Math.exp((law.joulesPerMole / GAS_CONSTANT) * (1 / (referenceCelsius + ZERO_CELSIUS) - 1 / (celsius + ZERO_CELSIUS)));
}

/** As `rate`; where no temperature is known the clock runs at the data sheet's speed. */
export const speedAt = (speed: Speed, celsius: number | null): number => (celsius === null ? 1 : rate(speed, celsius));

/**
 * The instant at which a wait that began at `begun` has gone through `minutes` of its data sheet's time: the upper limit
 * of ∫ rate(T(t)) dt. For a material without a law the clock runs at the data sheet's speed.
 */
export function waitOver(conditions: Conditions, speed: Speed | null, begun: number, minutes: number): number {
  let left = minutes * MINUTE;
  let at = begun;
  if (speed === null) return Math.round(at + left);
  for (const { until, celsius } of stretches(conditions, begun)) {
    const gone = (until - at) * speedAt(speed, celsius);
    if (gone >= left) return Math.round(at + left / speedAt(speed, celsius));
    left -= gone;
    at = until;
  }
  throw new Error('time has no end');
}

/** How much of its data sheet's time, in minutes, a wait that began at `begun` has gone through at `at`: ∫ rate(T(t)) dt. */
export function goneThrough(conditions: Conditions, speed: Speed | null, begun: number, at: number): number {
  if (speed === null || at <= begun) return Math.max(0, at - begun) / MINUTE;
  let [gone, from] = [0, begun];
  for (const { until, celsius } of stretches(conditions, begun)) {
    gone += (Math.min(until, at) - from) * speedAt(speed, celsius);
    if (until >= at) break;
    from = until;
  }
  return gone / MINUTE;
}
