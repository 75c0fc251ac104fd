import type { JobState } from '../job/state.ts';
import type { Material } from '../trade/material.ts';
import { scaleText } from '../trade/measures/format.ts';
import type { Way } from '../words/refusal.ts';
import { givenOf, type Typed } from './examples.ts';

/** What comes after a weigh-out, the likeliest first. */

/** Starts the clock of the cup that was weighed out, of so many grams; pressed twice, it is still one cup. */
export const cupPoured = ({ id }: Material, grams: number, stepGrams: number, more: Typed = {}): Way => ({
  label: 'Cup poured',
  command: 'cup start',
  options: { material: id, amount: scaleText(grams, stepGrams), nth: '1', ...givenOf(more) },
});

/** For which step of which job the cup is, where it is for one. */
export const ofStep = (job: JobState | null, step: string | null): Typed => (job && step ? { job: job.id, step } : {});

/** Puts right, or discards, a cup that does not hold what it should. */
export const pouredWrong = ({ id }: Material, more: Typed = {}): Way => ({
  label: 'Poured wrong',
  command: 'fix',
  options: { material: id, ...givenOf(more) },
  asks: true,
});
