import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import { mixCard } from '../src/cards/mix-card.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { choice, text, typed } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, mixLine, type Typed } from '../src/desk/examples.ts';
import { amountForNext, mixWeighed, potLifeNow } from '../src/desk/mixing.ts';
import { jobIfAny, job as jobNamed, material as materialNamed } from '../src/desk/resolve.ts';
import type { Amount } from '../src/trade/amount.ts';
import { celsiusAt } from '../src/trade/cure.ts';
import { scaleText } from '../src/trade/format.ts';
import type { Material } from '../src/trade/material.ts';
import { weigh } from '../src/trade/mix.ts';
import { parseAdditives, parseAmount, parseQuantity } from '../src/trade/quantity.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

const scaleStep = (typedText: string): number | Refusal => {
  const quantity = parseQuantity(typedText);
  if (isRefusal(quantity)) return quantity;
  if (quantity.kind === 'mass') return quantity.grams;
  return new Refusal('bad-scale', say`Expected the smallest step that the scale shows, got “${typedText}”.`);
};

const EXAMPLE = { material: 'brush-urethane', amount: '500 g' };
/** An option whose refusals show it in a whole line. */
const option = <T>(name: string, parse: (text: string) => T | Refusal, instead?: string) =>
  kept(inLine(parse, (example) => line('mix', { ...EXAMPLE, [name]: instead ?? example })));

/** Refusals that name another amount which would do. */
const OF_SIZE = new Set(['batch-too-small', 'batch-too-large', 'scale-too-small', 'additive-too-small']);
/** Refusals after which only the scale is left. */
const BY_WEIGHT = new Set(['density-missing', 'volume-ratio-missing']);

/** What the trade offers instead, as a line that would work, and as a button where it is another amount. */
function inThisCommand(refusal: Refusal, material: Material, options: Typed): Refusal {
  const { code, example } = refusal;
  if (example === undefined) return refusal;
  const { by, ...others } = options;
  const kept = BY_WEIGHT.has(code) ? others : options;
  const instead = { ...kept, material: material.id, [/%|phr/.test(example) ? 'with' : 'amount']: example };
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
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(option('scale', scaleStep, '0.1 g'), {
      about: 'The smallest step that the scale shows, if it is not the studio’s',
    }).optional(),
    with: typed(option('with', parseAdditives), { about: 'What else goes in: 2% pigment of B, 3 phr thickener' }).optional(),
    job: text({ about: 'The job that it is for', complete: 'job' }).optional(),
  },
  examples: [
    'material:brush-urethane amount:500 g',
    'material:shell-paste amount:300 g of B',
    'material:brush-urethane amount:0,4 L by:weight with:2% pigment of B',
  ],
  run: async (input, desk) => {
    const state = await desk.bench.state();
    const options: Typed = {
      material: input.material,
      amount: input.amount?.typed,
      by: input.by,
      scale: input.scale?.typed,
      with: input.with?.typed,
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
    const material = materialNamed(desk, id, (one) => line('mix', { amount: '500 g', ...givenOf(options), material: one }));
    if (isRefusal(material)) return material;
    const needed = wanted && !isRefusal(wanted) && wanted.materialId === material.id ? wanted : null;
    const amount = input.amount?.value ?? needed?.amount;
    if (!amount)
      return isRefusal(wanted) && input.material === undefined
        ? wanted
        : new Refusal('amount-missing', say`How much of ${material.name}?`, {
            example: line('mix', { ...options, material: material.id, amount: '500 g' }),
          });
    const stepGrams = input.scale?.value ?? desk.studio.scale.stepGrams;
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
    return mixCard({
      material,
      mix,
      studio: desk.studio,
      stepGrams,
      forStep: job && title ? say`${title}, ${job.name}${cupOf}` : null,
      note:
        raised && needed && !input.amount
          ? say`${mass(needed.neededGrams / cups, desk.studio)} are needed; less than this cannot be weighed true.`
          : null,
      potLifeMinutes: potLifeNow(state, material, desk.now),
      celsius: celsiusAt(state.temperatures, desk.now),
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      warning: outsideUsable(state, material, desk.now),
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
        { label: 'Poured wrong', command: 'fix', options: { material: material.id }, asks: true },
      ],
    });
  },
});

const sizeOf = ({ quantity }: Amount) => (quantity.kind === 'mass' ? quantity.grams : quantity.millilitres);
