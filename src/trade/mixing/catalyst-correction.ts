import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Catalyst, Material } from '../material.ts';
import { scaleText } from '../measures/format.ts';
import { catalystFits, printedCatalystPercent } from './catalyst.ts';
import type { Correction } from './correction.ts';
import { above, neat, onStep } from './ratio.ts';

/** So many times the most is beyond putting right: it heats faster than anybody thins it. Common practice, no source. */
const HOPELESS_TIMES = 2;

/** How many times the most of its catalyst a cup holds, where that is too much to be thinned down; else null. */
export const hopelessTimes = ({ catalyst }: Material, percent: number | null): number | null =>
  catalyst !== null && percent !== null && percent > catalyst.mostPercent * HOPELESS_TIMES * (1 + 1e-9)
    ? percent / catalyst.mostPercent
    : null;

/** How far a share lies outside of a catalyst's range, in percent of the edge that is nearer; 0 within. */
const catalystError = ({ leastPercent, mostPercent }: Catalyst, percent: number): number =>
  neat(Math.max(0, percent / mostPercent - 1, 1 - percent / leastPercent) * 100);

/**
 * What to add to a cup of two parts whose catalyst may vary: the range is the limit, and no tolerance lies on top of it. Above
 * the most the resin is brought up until the share is the most; below the least the catalyst is brought to what is printed,
 * in the steps of the scale that stay within the range. Errors are measured from the edge that is nearer; a missing part
 * makes it 100. Where somebody said which share was meant (`meant`, which the material has then as printed), the cup is
 * brought to that, to within the tolerance, and still within the range. Null for a material that is no such one. Refusal: `scale-too-coarse`.
 */
export function correctCatalyst(
  material: Material,
  grams: readonly number[],
  limits: { readonly stepGrams: number; readonly roomGrams: number | null },
  meant = false,
): Correction | Refusal | null {
  const { catalyst, parts, tolerancePercent } = material;
  const at = parts.findIndex(({ name }) => name === catalyst?.part);
  const [part, carrier] = [parts[at], parts[1 - at]];
  const printed = printedCatalystPercent(material);
  if (catalyst === null || parts.length !== 2 || !part || !carrier || printed === null) return null;
  const [peroxide, resin] = [grams[at] ?? 0, grams[1 - at] ?? 0];
  if (!(peroxide + resin > 0)) return null;
  const whole = (before: number, after: number, add: Correction['add'], totalGrams: number): Correction => {
    const over = limits.roomGrams !== null && above(totalGrams, limits.roomGrams);
    const verdict = over ? 'too-much' : add === null ? 'good' : 'add';
    return {
      add,
      adds: add === null ? [] : [add],
      totalGrams: neat(totalGrams),
      errorPercentBefore: before,
      errorPercentAfter: after,
      verdict,
    };
  };
  const missing = peroxide === 0 || resin === 0;
  const percent = missing ? null : (100 * peroxide) / resin;
  const errorOf = (of: number) => (meant ? neat(Math.abs(of / printed - 1) * 100) : catalystError(catalyst, of));
  const fits = (of: number) => catalystFits(material, of) && (!meant || errorOf(of) <= tolerancePercent * (1 + 1e-9));
  const before = percent === null ? 100 : errorOf(percent);
  if (percent !== null && fits(percent)) return whole(before, before, null, peroxide + resin);
  const most = meant ? printed : catalyst.mostPercent;
  const thinning = resin === 0 || (percent !== null && percent > most);
  const share = (added: number) => (thinning ? (100 * peroxide) / (resin + added) : (100 * (peroxide + added)) / resin);
  const aim = resin === 0 ? printed : most;
  const lacks = thinning ? (100 * peroxide) / aim - resin : (resin * printed) / 100 - peroxide;
  const steps = lacks / limits.stepGrams;
  const tried = [Math.round(steps), Math.ceil(steps - 1e-9), Math.floor(steps + 1e-9)];
  const added = tried.map((count) => onStep(count, limits.stepGrams)).find((one) => one > 0 && fits(share(one)));
  if (added === undefined) {
    const shown = plain(scaleText(limits.stepGrams, limits.stepGrams));
    const message = say`No whole steps of the scale, ${shown} each, bring the ${catalyst.part} into its range; I expected a finer scale.`;
    const finer = scaleText(limits.stepGrams / 10, limits.stepGrams / 10);
    return new Refusal('scale-too-coarse', message, { example: finer });
  }
  const add = { part: thinning ? carrier.name : part.name, grams: neat(added) };
  return whole(before, errorOf(share(added)), add, peroxide + resin + added);
}
