import { celsiusOn } from '../src/bench/conditions.ts';
import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import { concernData, concernLines } from '../src/cards/compatibility.ts';
import { mixCard } from '../src/cards/mix-card.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { choice, text, typed } from '../src/chat/options.ts';
import { concernsOfMix } from '../src/desk/contacts.ts';
import { command } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, mixLine, type Typed } from '../src/desk/examples.ts';
import { amountForNext, mixWeighed, potLifeNow } from '../src/desk/mixing.ts';
import { oneCoat } from '../src/desk/one-coat.ts';
import { jobIfAny, job as jobNamed, material as materialNamed } from '../src/desk/resolve.ts';
import { sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import type { Material } from '../src/trade/material.ts';
import type { Amount } from '../src/trade/measures/amount.ts';
import { scaleText } from '../src/trade/measures/format.ts';
import { parseAdditives, parseAmount, parseLength, parsePercent, parseQuantity } from '../src/trade/measures/quantity.ts';
import { printedCatalystPercent, withCatalyst } from '../src/trade/mixing/catalyst.ts';
import { weigh } from '../src/trade/mixing/mix.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

const scaleStep = (typedText: string): number | Refusal => {
  const quantity = parseQuantity(typedText);
  if (isRefusal(quantity)) return quantity;
  if (quantity.kind === 'mass') return quantity.grams;
  return new Refusal('bad-scale', say`Expected the smallest step that the scale shows, got “${typedText}”.`);
};

const EXAMPLE = { material: 'brush-urethane', amount: '500 g' };
const SPREAD = { material: 'brush-urethane', area: '0.4 m2' };
const CATALYSED = { material: 'laminate-polyester', amount: '500 g' };
/** More lines of warning than this, and none is read at the bench. */
const MOST_CONCERNS = 2;
/** An option whose refusals show it in a whole line. */
const option = <T>(name: string, parse: (text: string) => T | Refusal, instead?: string) =>
  kept(inLine(parse, (example) => line('mix', { ...EXAMPLE, [name]: instead ?? example })));

/** Refusals that name another amount which would do. */
const OF_SIZE = new Set(['batch-too-small', 'batch-too-large', 'scale-too-small', 'additive-too-small']);
/** Refusals after which only the scale is left. */
const BY_WEIGHT = new Set(['density-missing', 'volume-ratio-missing']);

/** Where an amount is given, none of these may be. */
const NO_SIZE = { area: undefined, shape: undefined, model: undefined, unit: undefined, thickness: undefined };

/** What the trade offers instead, as a line that would work, and as a button where it is another amount. */
function inThisCommand(refusal: Refusal, material: Material, options: Typed): Refusal {
  const { code, example } = refusal;
  if (example === undefined) return refusal;
  const { by, ...others } = options;
  const kept = BY_WEIGHT.has(code) ? others : options;
  const other = /%|phr/.test(example) ? { with: example } : { ...NO_SIZE, amount: example };
  const instead = { ...kept, material: material.id, ...other };
  const ways = OF_SIZE.has(code) ? [{ label: `Mix ${example}`, command: 'mix', options: givenOf(instead) }] : [];
  return again(refusal, { example: line('mix', instead), ways });
}

export default command({
  name: 'mix',
  summary: 'How much of each part to weigh out, in pour order',
  options: {
    material: text({ about: 'What is mixed; left out, what the job needs next', complete: 'material' }).optional(),
    amount: typed(option('amount', parseAmount), {
      about: 'How much in all, or of one part: 500 g, 0.4 L, 12 oz, 150 g of B',
    }).optional(),
    ...sizeOptions('mix', { material: EXAMPLE.material }),
    thickness: typed(kept(inLine(parseLength, (thickness) => line('mix', { ...SPREAD, thickness }))), {
      about: 'Of a coat over an area, a shape or a model: 1 mm; left out, the usual',
    }).optional(),
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(option('scale', scaleStep, '0.1 g'), {
      about: 'The smallest step that the scale shows, if it is not the studio’s',
    }).optional(),
    with: typed(option('with', parseAdditives), { about: 'What else goes in: 2% pigment of B, 3 phr thickener' }).optional(),
    catalyst: typed(kept(inLine(parsePercent, () => line('mix', { ...CATALYSED, catalyst: '1.5 %' }))), {
      about: 'The catalyst’s share, where it may vary: 1,2 %; left out, as the sheet has it',
    }).optional(),
    surface: text({ about: 'What it is laid on, if it is not the job’s model: plaster, wax, 3D print', free: true }).optional(),
    job: text({ about: 'The job that it is for', complete: 'job' }).optional(),
  },
  examples: [
    'material:brush-urethane amount:500 g',
    'material:shell-paste amount:300 g of B',
    'material:brush-urethane amount:0,4 L by:weight with:2% pigment of B',
    'material:laminate-polyester amount:500 g catalyst:1,2 %',
    'material:brush-urethane area:0.4 m2 thickness:1 mm',
  ],
  run: async (input, desk) => {
    const state = await desk.bench.state();
    const options: Typed = {
      material: input.material,
      amount: input.amount?.typed,
      ...sizeTyped(input),
      thickness: input.thickness?.typed,
      by: input.by,
      scale: input.scale?.typed,
      with: input.with?.typed,
      catalyst: input.catalyst?.typed,
      surface: input.surface,
      job: input.job,
    };
    const asked = { desk, command: 'mix', options };
    const job = jobIfAny(state, input.job, asked);
    if (isRefusal(job)) return job;
    // Without a material it is the job's next step that asks for one; a job named along with it only lends the amount.
    const wanted = input.material === undefined || input.amount === undefined ? (job ? amountForNext(job, desk) : null) : null;
    const id =
      input.material ??
      (wanted && !isRefusal(wanted)
        ? wanted.materialId
        : job
          ? (job.steps.find((step) => !step.done)?.plan.material?.id ?? null)
          : null);
    if (id === null) {
      if (isRefusal(wanted)) return wanted;
      const which = jobNamed(state, undefined, asked);
      if (isRefusal(which) && which.code === 'which-job') return which;
      return new Refusal('material-missing', say`Which material? No job on this bench says what comes next.`, {
        example: mixLine(desk),
      });
    }
    const listed = materialNamed(desk, id, (one) => line('mix', { amount: '500 g', ...givenOf(options), material: one }));
    if (isRefusal(listed)) return listed;
    const material = input.catalyst === undefined ? listed : withCatalyst(listed, input.catalyst.value);
    if (isRefusal(material))
      return again(material, {
        example: line('mix', {
          ...options,
          material: listed.id,
          amount: options['amount'] ?? '500 g',
          catalyst: material.example,
        }),
      });
    const stepGrams = input.scale?.value ?? desk.studio.scale.stepGrams;
    const coat = await oneCoat(desk, input, material, { command: 'mix', options, stepGrams });
    if (isRefusal(coat)) return coat;
    const needed = coat ?? (wanted && !isRefusal(wanted) && wanted.materialId === material.id ? wanted : null);
    const amount = input.amount?.value ?? needed?.amount;
    if (!amount)
      return isRefusal(wanted) && input.material === undefined
        ? wanted
        : new Refusal('amount-missing', say`How much of ${material.name}?`, {
            example: line('mix', { ...options, material: material.id, amount: '500 g' }),
          });
    const scale = {
      stepGrams,
      mostGrams: desk.studio.scale.mostGrams,
      measureStepMillilitres: desk.studio.measureStepMillilitres,
    };
    const weighed = (each: Amount) =>
      weigh(material, { amount: each, by: input.by ?? 'weight', additives: input.with?.value ?? [] }, scale);
    let mix = weighed(amount);
    let raised = needed !== null && needed.cups === 1 && sizeOf(needed.amount) > needed.neededGrams;
    if (isRefusal(mix) && mix.code === 'batch-too-small' && input.amount === undefined) {
      // What the job needs is nobody's wish: it becomes what can be measured out.
      const least = parseAmount(mix.example ?? '');
      if (!isRefusal(least)) mix = weighed(least);
      raised = true;
    }
    if (isRefusal(mix)) return inThisCommand(mix, material, options);
    const step = job ? stepForCup(job, material.id) : null;
    const title = step ? job?.steps.find((each) => each.plan.id === step)?.plan.title : undefined;
    const cups = input.amount ? 1 : (needed?.cups ?? 1);
    const poured = pouredFor(state, job, step).length;
    const cupOf = cups === 1 ? say`` : say` (cup ${Math.min(poured + 1, cups)} of ${cups})`;
    const tooColdOrWarm = outsideUsable(state, material, desk.now, desk.studio.units);
    // Each cup after the first of a step lies on the same as that.
    const concerns = poured > 0 ? [] : concernsOfMix(listed, job, input.surface?.trim() || null, desk);
    const weighedOut = mixCard({
      material,
      mix,
      studio: desk.studio,
      stepGrams,
      forStep: job && title ? say`${title}, ${job.name}${cupOf}` : null,
      note:
        raised && needed && !input.amount
          ? say`${coat ? coat.reason : say`${mass(needed.neededGrams / cups, desk.studio)} are needed;`} ${plain(coat ? 'Less' : 'less')} than this cannot be weighed true.`
          : (coat?.reason ?? null),
      potLifeMinutes: potLifeNow(state, material, desk.now, mix.cupGrams),
      celsius: celsiusOn(state, desk.now),
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      warnings: [
        ...(coat?.warnings ?? []),
        ...(tooColdOrWarm ? [tooColdOrWarm] : []),
        ...concernLines(concerns.slice(0, MOST_CONCERNS), desk.studio),
      ],
      sheetCatalystPercent: printedCatalystPercent(listed),
      buttons: [
        {
          label: 'Cup poured',
          command: 'cup start',
          options: {
            material: material.id,
            amount: scaleText(mix.cupGrams, stepGrams),
            ...(job && step ? { job: job.id, step, nth: String(poured + 1) } : {}),
          },
        },
        {
          label: 'Poured wrong',
          command: 'fix',
          options: { material: material.id, ...givenOf({ catalyst: input.catalyst?.typed }) },
          asks: true,
        },
      ],
    });
    return { ...weighedOut, data: { ...weighedOut.data, concerns: concernData(concerns) } };
  },
});

const sizeOf = ({ quantity }: Amount) => (quantity.kind === 'mass' ? quantity.grams : quantity.millilitres);
