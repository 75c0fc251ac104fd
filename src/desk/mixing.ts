import { DateTime } from 'luxon';
import { celsiusOn, temperaturesOf } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import type { PotLifeView } from '../cards/pot-life.ts';
import { isOutside } from '../cards/usable.ts';
import { cupsFor } from '../cards/words.ts';
import type { JobState } from '../job/state.ts';
import { nextStep } from '../job/state.ts';
import { potLifeOf } from '../trade/cups/pot-life.ts';
import type { Hazard, Material } from '../trade/material.ts';
import type { Amount } from '../trade/measures/amount.ts';
import type { Scale } from '../trade/mixing/mix.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { waitOver } from '../trade/time/cure.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { mixLine } from './examples.ts';

export const speedOf = (material: Material) =>
  material.cure ? { law: material.cure, referenceCelsius: material.reference.celsius } : null;

/** The pot life of a cup of `grams` (null: nobody said) that is mixed at `now`, in minutes, at the bench's temperature. */
export const potLifeNow = (state: BenchState, material: Material, now: number, grams: number | null = null): number =>
  (waitOver(temperaturesOf(state), speedOf(material), now, potLifeOf(material, grams).minutes) - now) / MINUTE;

/** The same as a card shows it: where the bench is too cold or too warm for the material, nobody can tell. */
export const potLifeOn = (
  state: BenchState,
  material: Material,
  now: number,
  grams: number,
): Pick<PotLifeView, 'potLifeMinutes' | 'celsius'> => ({
  potLifeMinutes: isOutside(state, material, now) ? null : potLifeNow(state, material, now, grams),
  celsius: celsiusOn(state, now),
});

/** What the studio weighs and measures with; `stepGrams`: of another scale than its own. */
export const scaleOf = ({ scale, measureStepMillilitres }: Studio, stepGrams = scale.stepGrams): Scale => ({
  stepGrams,
  mostGrams: scale.mostGrams,
  measureStepMillilitres,
});

export interface ForNext {
  readonly materialId: string;
  /** Of one cup, where the step takes several. */
  readonly amount: Amount;
  readonly cups: number;
  /** What the step needs, in grams. */
  readonly neededGrams: number;
}

/** What a job's next step takes, as an amount to mix that can be weighed true. */
export function amountForNext(job: JobState, desk: Desk): ForNext | Refusal {
  const plan = nextStep(job)?.plan;
  if (!plan) return new Refusal('nothing-left', say`Every step of ${job.name} is done.`, { example: `/job show job:${job.id}` });
  if (!plan.material)
    return new Refusal('nothing-to-mix', say`${plan.title} needs no mix.`, {
      example: mixLine(desk),
    });
  const cups = cupsFor(plan, desk.studio);
  if (plan.grams === null || cups === null)
    return new Refusal('amount-missing', say`${job.name} was started without an area, so ${plan.title} needs an amount.`, {
      example: `/mix job:${job.id} amount:300 g`,
    });
  return {
    materialId: plan.material.id,
    amount: { quantity: { kind: 'mass', grams: cups.askGrams }, of: null },
    cups: cups.count,
    neededGrams: plan.grams,
  };
}

/**
 * Keeps that a mix was weighed out for a job (an answer to its pings), and which of the hazards are shown to this person
 * on this bench for the first time today, and thus in full: a restart does not start the day anew.
 */
export async function mixWeighed(desk: Desk, material: Material, grams: number, job: string | null): Promise<readonly Hazard[]> {
  const today = DateTime.fromMillis(desk.now, { zone: desk.studio.zone }).startOf('day').toMillis();
  let fresh: readonly Hazard[] = [];
  const decided = await desk.bench.decide((_, log) => {
    const shown = log.flatMap((event) =>
      event.type === 'MixWeighed' && event.by === desk.who && event.at >= today ? event.cautions : [],
    );
    fresh = material.hazards.filter((hazard) => !shown.includes(hazard));
    const stamp = { version: 1 as const, at: desk.now, enteredAt: desk.now, by: desk.who };
    if (fresh.length === 0 && job === null) return [];
    return [{ ...stamp, type: 'MixWeighed', material: material.id, grams, job, cautions: [...fresh] }];
  });
  return isRefusal(decided) ? material.hazards : fresh;
}
