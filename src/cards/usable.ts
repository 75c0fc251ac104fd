import { celsiusOn, temperaturesOf } from '../bench/conditions.ts';
import type { BenchState, CupState } from '../bench/fold.ts';
import { potOverAt } from '../bench/pings.ts';
import type { Studio } from '../bench/studio.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import type { Window } from '../job/window.ts';
import { temperaturesText, temperatureText } from '../trade/measures/format.ts';
import { stretches } from '../trade/time/conditions.ts';
import { clock, plain, say, strong, type Text } from '../words/text.ts';

type Units = Studio['units'];

interface Used {
  readonly name: string;
  readonly usable: { readonly fromCelsius: number; readonly untilCelsius: number } | null;
}

/** The temperatures that a material is made for: "15 to 32 °C"; customary "59 to 90 °F (15 to 32 °C)". */
export const rangeText = ({ fromCelsius, untilCelsius }: NonNullable<Used['usable']>, units: Units): string =>
  temperaturesText(fromCelsius, untilCelsius, units);

/** The first temperature between two moments, read or expected, that a material is not made for; null: none that anybody said. */
function outsideCelsius(state: BenchState, usable: Used['usable'], from: number, until: number): number | null {
  if (usable === null) return null;
  for (const { celsius, until: ends } of stretches(temperaturesOf(state), from)) {
    if (celsius !== null && (celsius < usable.fromCelsius || celsius > usable.untilCelsius)) return celsius;
    if (ends > until) break;
  }
  return null;
}

/** Whether the bench is now too cold or too warm for a material, as far as anybody has said. */
export const isOutside = (state: BenchState, { usable }: Pick<Used, 'usable'>, now: number): boolean =>
  outsideCelsius(state, usable, now, now) !== null;

/**
 * The temperature for which no clock can tell how long a cup is good: the first since it was mixed, while its pot life ran,
 * that its material is not made for. Null where the clock holds.
 */
export const untoldCelsius = (state: BenchState, cup: CupState, now: number): number | null =>
  outsideCelsius(state, cup.usable, cup.startedAt, Math.min(now, potOverAt(state, cup)));

/** Until when a cup is good, in milliseconds since the epoch; null where no clock can tell. */
export const goodUntil = (state: BenchState, cup: CupState, now: number): number | null =>
  untoldCelsius(state, cup, now) === null ? potOverAt(state, cup) : null;

/** "At 8 °C no pot life can be told: brush-on urethane is made for 15 to 32 °C. Watch the cup." */
export function untoldLine({ name, usable }: Used, celsius: number | null, units: Units): Text {
  const made = usable === null ? say`` : say`: ${name} is made for ${plain(rangeText(usable, units))}`;
  const untold = celsius === null ? say`No` : say`At ${plain(temperatureText(celsius, units))} no`;
  return say`${strong(say`${untold} pot life can be told`)}${made}. Watch the cup.`;
}

/** Warns where the bench is too cold or too warm for the material's times to mean anything. */
export function outsideUsable(state: BenchState, { name, usable }: Used, now: number, units: Units): Text | null {
  if (usable === null || !isOutside(state, { usable }, now)) return null;
  const celsius = plain(temperatureText(celsiusOn(state, now) ?? 0, units));
  return say`The bench is at ${celsius}; ${name} is made for ${plain(rangeText(usable, units))}. Trust no clock: check by touch.`;
}

/** The same for a job, in one line at most: for what cures on it now, else for what is mixed next or right after that. */
export function usableLine(job: JobState, state: BenchState, now: number, units: Units): Text[] {
  const next = nextIndex(job);
  const cures = job.steps[next - 1]?.plan;
  const comes = job.steps.slice(next, next + 2).map(({ plan }) => plan);
  for (const plan of cures?.wait?.speed ? [cures, ...comes] : comes) {
    const warning = plan.material ? outsideUsable(state, { name: plan.material.name, usable: plan.usable }, now, units) : null;
    if (warning) return [warning];
  }
  return [];
}

/** Why a window has no times: "It was at 8 °C at 14:00, and X is made for 15 to 32 °C: no clock can tell. Touch it, and log what you find." */
export function outsideLine(job: JobState, { outside }: Pick<Window, 'outside'>, units: Units): Text[] {
  const before = job.steps[nextIndex(job) - 1]?.plan;
  if (outside === null || !before?.usable) return [];
  return [
    say`It was at ${plain(temperatureText(outside.celsius, units))} at ${clock(outside.at)}, and ${before.material?.name ?? ''} is made for ${plain(rangeText(before.usable, units))}: no clock can tell. Touch it, and log what you find.`,
  ];
}
