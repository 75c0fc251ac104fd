import type { Material } from '../../src/trade/material.ts';
import { parseAdditives, parseAmount } from '../../src/trade/measures/quantity.ts';
import { type Mix, type MixAsk, type Scale, weigh } from '../../src/trade/mixing/mix.ts';
import { Refusal } from '../../src/words/refusal.ts';

export function good<T>(value: T | Refusal): T {
  if (value instanceof Refusal) throw new Error(`${value.code}: ${JSON.stringify(value.message)}`);
  return value;
}

export function refused(value: unknown): Refusal {
  if (value instanceof Refusal) return value;
  throw new Error(`expected a refusal, got ${JSON.stringify(value)}`);
}

export const SCALE: Scale = { stepGrams: 1, mostGrams: null, measureStepMillilitres: 5 };

export const ask = (amount: string, more: { by?: MixAsk['by']; additives?: string } = {}): MixAsk => ({
  amount: good(parseAmount(amount)),
  by: more.by ?? 'weight',
  additives: good(parseAdditives(more.additives ?? '')),
});

/** Weighs it out, in the words that people type. */
export const mixOf = (
  material: Material,
  amount: string,
  more: { by?: MixAsk['by']; additives?: string; scale?: Partial<Scale> } = {},
): Mix | Refusal => weigh(material, ask(amount, more), { ...SCALE, ...more.scale });

export const gramsOf = (mix: Mix, part: string): number | undefined => mix.parts.find((one) => one.part === part)?.grams;

export const words = (refusal: Refusal): string =>
  refusal.message.map((span) => ('text' in span && typeof span.text === 'string' ? span.text : '')).join('');
