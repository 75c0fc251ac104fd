import { MINUTE } from './calendar.ts';
import type { CureLaw } from './material.ts';

/** What was read off the bench's thermometer, in order of time. Each reading holds until the next one. */
export type TemperatureRecord = readonly TemperatureReading[];

export interface TemperatureReading {
  readonly at: number;
  readonly celsius: number;
  /** What the hygrometer showed along with it; left out or null where nobody said. */
  readonly humidityPercent?: number | null;
}

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

/**
 * The instant at which a wait that began at `begun` has gone through `minutes` of its data sheet's time: the upper limit
 * of ∫ rate(T(t)) dt. Before the first reading, and for a material without a law, the clock runs at the data sheet's speed.
 */
export function waitOver(record: TemperatureRecord, speed: Speed | null, begun: number, minutes: number): number {
  let left = minutes * MINUTE;
  let at = begun;
  if (speed === null) return at + left;
  const later = record.filter((reading) => reading.at > begun);
  let celsius = record.findLast((reading) => reading.at <= begun)?.celsius ?? speed.referenceCelsius;
  for (const reading of later) {
    const pace = rate(speed, celsius);
    if ((reading.at - at) * pace >= left) break;
    left -= (reading.at - at) * pace;
    at = reading.at;
    celsius = reading.celsius;
  }
  return Math.round(at + left / rate(speed, celsius));
}

export const celsiusAt = (record: TemperatureRecord, at: number): number | null =>
  record.findLast((reading) => reading.at <= at)?.celsius ?? null;
