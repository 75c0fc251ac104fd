import type { BenchState } from '../bench/fold.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { celsiusAt } from '../trade/cure.ts';
import { say, type Text } from '../words/text.ts';

interface Used {
  readonly name: string;
  readonly usable: { readonly fromCelsius: number; readonly untilCelsius: number } | null;
}

/** Warns where the bench is too cold or too warm for the material's times to mean anything. */
export function outsideUsable(state: BenchState, { name, usable }: Used, now: number): Text | null {
  const celsius = celsiusAt(state.temperatures, now);
  if (celsius === null || usable === null) return null;
  if (celsius >= usable.fromCelsius && celsius <= usable.untilCelsius) return null;
  return say`The bench is at ${Number(celsius.toFixed(1))} °C; ${name} is made for ${usable.fromCelsius} to ${usable.untilCelsius} °C. Trust no clock: check by touch.`;
}

/** The same for a job, in one line at most: for what cures on it now, else for what is mixed next or right after that. */
export function usableLine(job: JobState, state: BenchState, now: number): Text[] {
  const next = nextIndex(job);
  const cures = job.steps[next - 1]?.plan;
  const comes = job.steps.slice(next, next + 2).map(({ plan }) => plan);
  for (const plan of cures?.wait?.speed ? [cures, ...comes] : comes) {
    const warning = plan.material ? outsideUsable(state, { name: plan.material.name, usable: plan.usable }, now) : null;
    if (warning) return [warning];
  }
  return [];
}
