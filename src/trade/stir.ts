import { named, nearest } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import type { AdditiveAsk } from './additives.ts';
import { grams as gramsText, percentText } from './format.ts';
import type { Additive, Material } from './material.ts';
import { mainPart, partNamed } from './parts.ts';
import { onStep } from './ratio.ts';

/** Something stirred in, as weighed. */
export interface Stirred {
  readonly name: string;
  /** The part that the percentage refers to; null for the whole mix. */
  readonly of: string | null;
  /** As asked for. */
  readonly percent: number;
  readonly basis: 'percent' | 'phr';
  /** On the scale's step. */
  readonly grams: number;
  readonly scaleReading: number;
}

interface Poured {
  readonly part: string;
  readonly grams: number;
}

/**
 * What to weigh of each additive, after the parts. A percentage refers to the part that was named; else, for phr, to the
 * part with the largest share; else to the part that the material declares for that additive; else to the whole mix.
 *
 * Refusals: `unknown-part`; `additive-out-of-range` (a declared additive beyond its limits); `additive-too-small` (the scale
 * cannot show it, or not within the limits); `additive-unclear` (nearly the name of a declared one, and no part is named).
 */
export function stir(
  material: Material,
  asks: readonly AdditiveAsk[],
  parts: readonly Poured[],
  stepGrams: number,
): Stirred[] | Refusal {
  const total = parts.reduce((sum, part) => sum + part.grams, 0);
  const gramsOf = (of: string | null) => (of === null ? total : (parts.find(({ part }) => part === of)?.grams ?? 0));
  const stirred: Stirred[] = [];
  let reading = total;
  for (const ask of asks) {
    const declared = declaredAs(material, ask.name);
    const of = basePart(material, ask, declared);
    if (isRefusal(of)) return of;
    const ideal = (gramsOf(of) * ask.percent) / 100;
    const limits = declared && { declared, onePercent: gramsOf(declared.of) / 100 };
    const grams = onScale(ask, ideal, stepGrams, total, limits);
    if (isRefusal(grams)) return grams;
    reading = Number((reading + grams).toPrecision(12));
    stirred.push({ name: declared?.name ?? ask.name, of, percent: ask.percent, basis: ask.basis, grams, scaleReading: reading });
  }
  return stirred;
}

/** The declared additive that a name stands for: itself, or with a word before it, as in "white pigment". */
function declaredAs(material: Material, name: string): Additive | undefined {
  const names = material.additives.map((additive) => additive.name);
  const last = names.find((one) => name.toLowerCase().endsWith(` ${one.toLowerCase()}`));
  const found = named(name, names) ?? last;
  return material.additives.find((additive) => additive.name === found);
}

function basePart(material: Material, ask: AdditiveAsk, declared: Additive | undefined): string | null | Refusal {
  if (ask.of !== null) {
    if (/^(?:the )?(?:whole )?(?:mix|total)$/i.test(ask.of)) return null;
    const part = partNamed(material, ask.of);
    return isRefusal(part) ? part : part.name;
  }
  if (ask.basis === 'phr') return mainPart(material)?.name ?? null;
  if (declared) return declared.of;
  const like = material.additives.find(
    ({ name }) =>
      name ===
      nearest(
        ask.name,
        material.additives.map((one) => one.name),
        1,
      )[0],
  );
  if (!like) return null;
  return new Refusal(
    'additive-unclear',
    say`Is “${ask.name}” the ${like.name} of ${material.name}? If it is something else, I expected what the percentage is of.`,
    { example: `${ask.percent} % ${like.name} of ${like.of}` },
  );
}

interface Limits {
  readonly declared: Additive;
  /** Grams in one percent of the part that the limits refer to. */
  readonly onePercent: number;
}

function onScale(ask: AdditiveAsk, ideal: number, step: number, total: number, limits: Limits | undefined): number | Refusal {
  const within = (grams: number) =>
    limits === undefined ||
    (grams >= limits.declared.leastPercent * limits.onePercent * (1 - 1e-9) &&
      grams <= limits.declared.mostPercent * limits.onePercent * (1 + 1e-9));
  if (limits && !within(ideal)) {
    const { name, of, leastPercent, mostPercent, usualPercent } = limits.declared;
    const asked = percentText(ideal / limits.onePercent);
    return new Refusal(
      'additive-out-of-range',
      say`I expected ${leastPercent} to ${mostPercent} % of ${name} in ${of}, and got ${plain(asked)}.`,
      { example: `${usualPercent ?? leastPercent} % ${name} of ${of}` },
    );
  }
  const count = ideal / step;
  const choices = limits ? [Math.round(count), Math.floor(count + 1e-9), Math.ceil(count - 1e-9)] : [Math.round(count)];
  const grams = choices.map((one) => onStep(one, step)).find((one) => one > 0 && within(one));
  if (grams !== undefined) return grams;
  const enough = gramsText(onStep(Math.ceil(total / Math.min(1, count) / step - 1e-9), step), step);
  const message =
    count < 1
      ? say`${plain(gramsText(ideal, step / 100))} of ${ask.name} is too little for a scale that shows steps of ${plain(gramsText(step, step))}; I expected a batch of at least ${plain(enough)}, or a finer scale.`
      : say`No step of ${plain(gramsText(step, step))} keeps ${ask.name} within its limits; I expected a larger batch, or a finer scale.`;
  return new Refusal('additive-too-small', message, { example: count < 1 ? enough : gramsText(total * 2, step) });
}
