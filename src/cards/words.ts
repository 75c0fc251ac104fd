import type { Studio } from '../bench/studio.ts';
import type { PlannedStep } from '../job/events.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import type { TimelineEntry } from '../job/timeline.ts';
import { timesOf, type Window } from '../job/window.ts';
import { massText } from '../trade/measures/format.ts';
import { lengthText } from '../trade/measures/format-sizes.ts';
import { cupsOf, LEFT_BY_ROUNDING } from '../trade/mixing/batches.ts';
import { clock, code, plain, say, strong, type Text } from '../words/text.ts';

/** Turns of phrase that several cards share. */

export const mass = (grams: number, studio: Studio) =>
  plain(massText(roundTo(grams, studio.scale.stepGrams), studio.units, studio.scale.stepGrams));

export const roundTo = (value: number, step: number): number => Number((Math.round(value / step) * step).toPrecision(12));

/** "open until 12:30", "opens at 10:45, closes at 13:00", "touch it: no clock can tell". */
export function windowText(window: Window, now: number): Text {
  const { opensAt, closesAt } = timesOf(window);
  if (opensAt === null) return say`touch it: no clock can tell`;
  if (closesAt !== null && now > closesAt) return say`closed at ${clock(closesAt)}`;
  const until = closesAt === null ? say`` : say`, closes at ${clock(closesAt)}`;
  return now < opensAt ? say`opens at ${clock(opensAt)}${until}` : say`open now${until}`;
}

/** "0.03 in (0.7 mm)" within brackets: "0.03 in, 0.7 mm". */
const inBrackets = (text: string) => text.replace(/ \((.*)\)$/, ', $1');

/** The cups that a step takes, as this studio's scale will show them; null for bare handiwork and where no area is given. */
export const cupsFor = ({ grams, mostGrams, ratio }: PlannedStep, { scale }: Studio) =>
  grams === null ? null : cupsOf(grams, mostGrams, ratio, scale);

/** Cups of a step, as they were logged; one whose weight nobody told counts as one of those planned. */
type Poured = readonly { readonly grams: number | null }[];

/** The grams that a step still needs beside what is poured; nothing where no area is given. */
export function gramsLeft(step: PlannedStep, studio: Studio, poured: Poured): number {
  const cups = cupsFor(step, studio);
  if (cups === null) return 0;
  const whole = cups.count * cups.grams;
  const left = whole - poured.reduce((sum, cup) => sum + (cup.grams ?? cups.grams), 0);
  return left > whole * LEFT_BY_ROUNDING ? left : 0;
}

/**
 * How much a step takes, and of what: "Mix 240 g of brush-on urethane (0.56 mm thick)". Empty for bare handiwork, and where
 * all that it takes is in the cup. `poured`: its cups so far; `begun`: hands are at work with them.
 */
export function amountText(step: PlannedStep, studio: Studio, { poured, begun }: { poured: Poured; begun: boolean }): Text {
  if (step.material === null) return say``;
  const { name } = step.material;
  const thick = step.layerMillimetres === null ? '' : `${inBrackets(lengthText(step.layerMillimetres, studio.units))} thick`;
  const layer = thick === '' ? '' : ` (${thick})`;
  const cups = cupsFor(step, studio);
  const left = gramsLeft(step, studio, poured);
  if (begun && poured.length > 0 && (left === 0 || cups?.count === 1)) return say``;
  if (cups === null || step.grams === null)
    return say`Mix ${name}${plain(layer)}; no area is given, so the amount is yours to judge.`;
  const { count, grams, raised } = cups;
  if (raised)
    return say`Mix ${mass(grams, studio)} of ${name} (${mass(step.grams, studio)} are needed${plain(thick === '' ? '' : `, ${thick}`)}; less cannot be weighed true).`;
  if (count === 1) return say`Mix ${mass(grams, studio)} of ${name}${plain(layer)}.`;
  const most = Math.min(step.mostGrams ?? Number.POSITIVE_INFINITY, studio.scale.mostGrams ?? Number.POSITIVE_INFINITY);
  const more = poured.length > 0 && left > 0;
  return say`Mix ${strong(mass(more ? left : grams * count, studio))}${plain(more ? ' more' : '')} of ${name}${plain(layer)}, at most ${mass(most, studio)} at once: ${code('/cups')} plans the cups.`;
}

export const jobData = (job: JobState) => ({
  id: job.id,
  name: job.name,
  holder: job.holder,
  status: job.status,
  recipe: job.recipe.id,
  recipeVersion: job.recipe.version,
});

/** The recipe that a job follows; with its version, where that was changed from chat. */
export const recipeText = ({ recipe: { name, version } }: JobState): Text =>
  version === null || version === 1 ? say`${name}` : say`${name}, version ${version}`;

/**
 * What must be true before the next step begins, as the recipe says it of the last one; `otherwise` where it says nothing.
 * Nothing where a finger has found it ready.
 */
export function checkFirst(job: JobState, otherwise: readonly Text[] = []): readonly Text[] {
  const last = job.steps[nextIndex(job) - 1];
  if (!last || last.check?.result === 'ready') return [];
  return last.plan.check === null ? otherwise : [say`Check first: ${last.plan.check}`];
}

/** The timeline as scripts read it: instants as ISO text with the studio's offset. */
export const timelineData = (entries: readonly TimelineEntry[], iso: (at: number) => string) =>
  entries.map(({ step, title, state, ...times }) => ({
    step,
    title,
    state,
    ...Object.fromEntries(Object.entries(times).map(([key, at]) => [key, at === null ? null : iso(at as number)])),
  }));
