import { named, nearest } from '../../words/nearest.ts';
import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Additive, Material } from '../material.ts';
import type { AdditiveAsk } from '../measures/additives.ts';
import { fineText, percentText, scaleText, shownStep } from '../measures/format.ts';
import { forbiddenIn } from './forbidden.ts';
import { mainPart, partNamed } from './parts.ts';
import { neat, onStep } from './ratio.ts';

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
  /** How far the scale's step puts it off what was asked for, in percent of itself; worth saying above 10. */
  readonly offPercent: number;
}

interface Poured {
  readonly part: string;
  readonly grams: number;
}

/**
 * What to weigh of each additive, after the parts. A percentage refers to the part that was named; else, for phr, to the
 * part with the largest share; else to the part that the material declares for that additive; else to the whole mix.
 *
 * Refusals: `unknown-part`; `additive-out-of-range` (a declared additive beyond its limits, any other beyond half of what it
 * refers to); `additive-too-small` (the scale cannot show it, or not within the limits); `additive-unclear` (nearly the name
 * of a declared one, and no part is named); `additive-is-part`; `additive-twice`; those of `forbiddenIn`. `accepts` says whether an amount, as
 * typed, would be weighed out, so that no other is offered.
 */
export function stir(
  material: Material,
  asks: readonly AdditiveAsk[],
  parts: readonly Poured[],
  stepGrams: number,
  accepts: (typed: string) => boolean = () => false,
): Stirred[] | Refusal {
  const total = parts.reduce((sum, part) => sum + part.grams, 0);
  const gramsOf = (of: string | null) => (of === null ? total : (parts.find(({ part }) => part === of)?.grams ?? 0));
  const stirred: Stirred[] = [];
  let reading = total;
  for (const ask of asks) {
    const declared = declaredAs(material, ask.name);
    const name = declared?.name ?? ask.name;
    const forbidden = forbiddenIn(material, ask.name, declared !== undefined);
    if (forbidden) return forbidden;
    const taken = alreadyThere(material, ask, name, stirred);
    if (taken) return taken;
    const of = basePart(material, ask, declared);
    if (isRefusal(of)) return of;
    const ideal = (gramsOf(of) * ask.percent) / 100;
    const limits = declared && { declared, onePercent: gramsOf(declared.of) / 100 };
    const grams = onScale(ask, ideal, { step: stepGrams, total, base: gramsOf(of), accepts }, limits);
    if (isRefusal(grams)) return grams;
    reading = neat(reading + grams);
    const offPercent = neat(Math.abs(grams / ideal - 1) * 100);
    stirred.push({ name, of, percent: ask.percent, basis: ask.basis, grams, scaleReading: reading, offPercent });
  }
  return stirred;
}

function alreadyThere(material: Material, ask: AdditiveAsk, name: string, stirred: readonly Stirred[]): Refusal | undefined {
  const same = (other: string) => other.toLowerCase() === name.toLowerCase();
  if (material.parts.some((part) => same(part.name))) {
    const message = say`“${ask.name}” is a part of ${material.name}, which is weighed out already; I expected something to stir in.`;
    return new Refusal('additive-is-part', message, { example: '2 % pigment' });
  }
  if (!stirred.some((one) => same(one.name))) return undefined;
  return new Refusal('additive-twice', say`${name} is named twice; I expected each additive once.`, {
    example: `${ask.percent} % ${name}`,
  });
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
    if (!isRefusal(part)) return part.name;
    const example = `${ask.percent} % ${ask.name} of ${material.parts[0]?.name ?? 'mix'}`;
    return new Refusal(part.code, part.message, { example });
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

interface Batch {
  readonly step: number;
  readonly total: number;
  /** Grams of what the percentage refers to. */
  readonly base: number;
  readonly accepts: (typed: string) => boolean;
}

/** Of anything that the material does not declare, more than this of what it refers to is a slip. Percent. */
const MOST_PERCENT = 50;

function onScale(ask: AdditiveAsk, ideal: number, batch: Batch, limits: Limits | undefined): number | Refusal {
  const { step, total } = batch;
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
  if (!limits && ideal > (batch.base * MOST_PERCENT * (1 + 1e-9)) / 100) {
    const message = say`I expected at most ${MOST_PERCENT} % of ${ask.name}, and got ${plain(percentText(ask.percent))}.`;
    return new Refusal('additive-out-of-range', message, { example: `5 % ${ask.name}` });
  }
  const count = ideal / step;
  const choices = limits ? [Math.round(count), Math.floor(count + 1e-9), Math.ceil(count - 1e-9)] : [Math.round(count)];
  const grams = choices.map((one) => onStep(one, step)).find((one) => one > 0 && within(one));
  if (grams !== undefined) return neat(grams);
  const shown = plain(scaleText(step, step));
  const finer = (text: string | undefined) => (text === undefined ? say`a finer scale` : say`${plain(text)}, or a finer scale`);
  if (count >= 1) {
    const twice = enough(2 * total, batch);
    const larger = finer(twice === undefined ? undefined : `a larger batch, such as ${twice}`);
    const message = say`No step of ${shown} keeps ${ask.name} within its limits; I expected ${larger}.`;
    return new Refusal('additive-too-small', message, twice === undefined ? {} : { example: twice });
  }
  const least = enough(total / count, batch);
  const larger = finer(least === undefined ? undefined : `a batch of at least ${least}`);
  const little = plain(fineText(ideal, step));
  const message = say`${little} of ${ask.name} is too little for a scale that shows steps of ${shown}; I expected ${larger}.`;
  return new Refusal('additive-too-small', message, least === undefined ? {} : { example: least });
}

/** The first batch from there on that would be weighed out; undefined where none is. */
function enough(grams: number, { step, accepts }: Batch): string | undefined {
  const first = Math.ceil(grams / shownStep(step) - 1e-9);
  for (let more = 0; more < 20; more += 1) {
    const text = scaleText(onStep(first + more, shownStep(step)), step);
    if (accepts(text)) return text;
  }
  return undefined;
}
