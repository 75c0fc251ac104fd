import { raisedLine } from '../cards/weigh-out.ts';
import { mass } from '../cards/words.ts';
import type { Material } from '../trade/material.ts';
import { type Amount, sizeOf } from '../trade/measures/amount.ts';
import { parseAmount } from '../trade/measures/quantity.ts';
import { type Mix, type MixAsk, weigh } from '../trade/mixing/mix.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, type Kept, line, type Typed } from './examples.ts';
import { type ForNext, scaleOf } from './mixing.ts';
import { type OneCoat, oneCoat } from './one-coat.ts';
import type { SizeInput } from './sizing.ts';

/** What says how much to mix, and how. */
export interface MixInput extends SizeInput {
  readonly material?: string | undefined;
  readonly amount?: Kept<Amount> | undefined;
  readonly thickness?: Kept<number> | undefined;
  readonly by?: MixAsk['by'] | undefined;
  readonly with?: Kept<MixAsk['additives']> | undefined;
}

/** What is weighed out. */
export interface MixedAmount {
  readonly mix: Mix;
  /** How many such cups the job's step or the coat takes. */
  readonly cups: number;
  /** How the amount came about, where it was not typed just so. */
  readonly note: Text | null;
  /** What is doubtful about a size. */
  readonly warnings: readonly Text[];
}

/**
 * One cup weighed out: of the amount that was typed, else of what a coat takes over a size, else of what the job's next step
 * takes (`wanted`). What nobody typed is raised to the least that can be weighed true.
 *
 * Refusals: `amount-missing`, those of `oneCoat`, of `amountForNext`, and of `weigh`, whose amounts become lines that work.
 */
export async function amountToMix(
  desk: Desk,
  input: MixInput,
  material: Material,
  wanted: ForNext | Refusal | null,
  { options, stepGrams }: { options: Typed; stepGrams: number },
): Promise<MixedAmount | Refusal> {
  const coat = await oneCoat(desk, input, material, { command: 'mix', options, stepGrams });
  if (isRefusal(coat)) return coat;
  const ofJob = wanted && !isRefusal(wanted) && wanted.materialId === material.id ? wanted : null;
  const needed = input.amount ? null : (coat ?? ofJob);
  const amount = input.amount?.value ?? needed?.amount;
  if (!amount) {
    if (isRefusal(wanted) && input.material === undefined) return wanted;
    const example = line('mix', { ...options, material: material.id, amount: '500 g' });
    return new Refusal('amount-missing', say`How much of ${material.name}?`, { example });
  }
  const weighed = (each: Amount) =>
    weigh(
      material,
      { amount: each, by: input.by ?? 'weight', additives: input.with?.value ?? [] },
      scaleOf(desk.studio, stepGrams),
    );
  let mix = weighed(amount);
  let raised = needed !== null && needed.cups === 1 && sizeOf(amount.quantity) > needed.neededGrams;
  if (isRefusal(mix) && mix.code === 'batch-too-small' && needed !== null) {
    // What the job needs is nobody's wish: it becomes what can be measured out.
    const least = parseAmount(mix.example ?? '');
    if (!isRefusal(least)) mix = weighed(least);
    raised = true;
  }
  if (isRefusal(mix)) return inLineOfMix(mix, material, options);
  const note = raised && needed ? whyMore(needed, coat, desk) : (coat?.reason ?? null);
  return { mix, cups: needed?.cups ?? 1, note, warnings: coat?.warnings ?? [] };
}

const whyMore = ({ neededGrams, cups }: ForNext | OneCoat, coat: OneCoat | null, { studio }: Desk): Text =>
  coat ? say`${coat.reason} Less than this cannot be weighed true.` : raisedLine([mass(neededGrams / cups, studio)]);

/** Refusals that name another amount which would do. */
const OF_SIZE = new Set(['batch-too-small', 'batch-too-large', 'scale-too-small', 'additive-too-small']);
/** Refusals after which only the scale is left. */
const BY_WEIGHT = new Set(['density-missing', 'volume-ratio-missing', 'powder-by-volume']);

/** Where an amount is given, none of these may be. */
const NO_SIZE = { area: undefined, shape: undefined, model: undefined, unit: undefined, up: undefined, thickness: undefined };

/** What the trade offers instead, as a line that would work, and as a button where it is another amount. */
function inLineOfMix(refusal: Refusal, material: Material, options: Typed): Refusal {
  const { code, example } = refusal;
  const { by, ...weighed } = options;
  const kept = { ...(BY_WEIGHT.has(code) ? weighed : options), material: material.id };
  // A powder is weighed out, as much of it as was asked for.
  if (example === undefined) return code === 'powder-by-volume' ? again(refusal, { example: line('mix', kept) }) : refusal;
  const other = /%|phr/.test(example) ? { with: example } : { ...NO_SIZE, amount: example };
  const instead = { ...kept, ...other };
  const ways = OF_SIZE.has(code) ? [{ label: `Mix ${example}`, command: 'mix', options: givenOf(instead) }] : [];
  return again(refusal, { example: line('mix', instead), ways });
}
