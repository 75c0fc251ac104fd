import type { Studio } from '../bench/studio.ts';
import type { PlannedStep } from '../job/events.ts';
import type { JobState } from '../job/state.ts';
import type { TimelineEntry } from '../job/timeline.ts';
import { batchesOf } from '../trade/batches.ts';
import { massText } from '../trade/format.ts';
import { clock, plain, say, strong, type Text } from '../words/text.ts';

/** Turns of phrase that several cards share. */

export const mass = (grams: number, studio: Studio) =>
  plain(massText(roundTo(grams, studio.scale.stepGrams), studio.units, studio.scale.stepGrams));

export const roundTo = (value: number, step: number): number => Number((Math.round(value / step) * step).toPrecision(12));

export const millimetresText = (millimetres: number): string => `${Number(millimetres.toFixed(2))} mm`;

/** "open until 12:30", "opens at 10:45, closes at 13:00". */
export function windowText(opensAt: number, closesAt: number | null, now: number): Text {
  if (closesAt !== null && now > closesAt) return say`closed at ${clock(closesAt)}`;
  const until = closesAt === null ? say`` : say`, closes at ${clock(closesAt)}`;
  return now < opensAt ? say`opens at ${clock(opensAt)}${until}` : say`open now${until}`;
}

/** How much a step takes, and of what: "Mix 240 g of brush-on urethane, 0.56 mm thick". Empty for bare handiwork. `poured`: its cups so far. */
export function amountText(step: PlannedStep, studio: Studio, poured = 0): Text {
  if (step.material === null) return say``;
  const layer = step.layerMillimetres === null ? '' : ` (${millimetresText(step.layerMillimetres)} thick)`;
  if (step.grams === null)
    return say`Mix ${step.material.name}${plain(layer)}; no area is given, so the amount is yours to judge.`;
  const { count, grams } = batchesOf(step.grams, step.mostGrams);
  const cups =
    count === 1
      ? say``
      : say`, in ${strong(say`${count} cups of ${mass(grams, studio)}`)}, one after the other${poured > 0 ? say`; ${poured} poured so far` : say``}`;
  return say`Mix ${mass(step.grams, studio)} of ${step.material.name}${plain(layer)}${cups}.`;
}

export const jobData = (job: JobState) => ({
  id: job.id,
  name: job.name,
  holder: job.holder,
  status: job.status,
  recipe: job.recipe.id,
});

/** The timeline as scripts read it: instants as ISO text with the studio's offset. */
export const timelineData = (entries: readonly TimelineEntry[], iso: (at: number) => string) =>
  entries.map(({ step, title, state, ...times }) => ({
    step,
    title,
    state,
    ...Object.fromEntries(Object.entries(times).map(([key, at]) => [key, at === null ? null : iso(at as number)])),
  }));
