import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import { mixCard } from '../src/cards/mix-card.ts';
import { choice, text, typed } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';
import { amountForNext, mixWeighed, potLifeNow } from '../src/desk/mixing.ts';
import { jobIfAny, material as materialNamed, outsideUsable } from '../src/desk/resolve.ts';
import { scaleText } from '../src/trade/format.ts';
import { weigh } from '../src/trade/mix.ts';
import { parseAdditives, parseAmount, parseQuantity } from '../src/trade/quantity.ts';
import { Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

const scaleStep = (typedText: string): number | Refusal => {
  const quantity = parseQuantity(typedText);
  if (quantity instanceof Refusal) return quantity;
  if (quantity.kind === 'mass') return quantity.grams;
  return new Refusal('bad-scale', say`Expected the smallest step that the scale shows, got “${typedText}”.`, {
    example: 'scale:0.1 g',
  });
};

export default command({
  name: 'mix',
  summary: 'How much of each part to weigh out, in pour order',
  options: {
    material: text({ about: 'What is mixed; left out, what the job needs next', complete: 'material' }).optional(),
    amount: typed(parseAmount, { about: 'How much in all, or of one part: 500 g, 0.4 L, 12 oz, 150 g of B' }).optional(),
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(scaleStep, { about: 'The smallest step that the scale shows, if it is not the studio’s' }).optional(),
    with: typed(parseAdditives, { about: 'What else goes in: 2% pigment of B, 3 phr thickener' }).optional(),
    job: text({ about: 'The job that it is for', complete: 'job' }).optional(),
  },
  examples: [
    'material:brush-urethane amount:500 g',
    'material:shell-paste amount:300 g of B',
    'material:brush-urethane amount:0,4 L by:weight with:2% pigment of B',
  ],
  run: async (input, desk) => {
    const state = await desk.bench.state();
    const job = jobIfAny(state, input.job);
    if (job instanceof Refusal) return job;
    // Without a material it is the job's next step that asks for one; a job named along with it only lends the amount.
    const wanted = input.material === undefined || input.amount === undefined ? (job ? amountForNext(job) : null) : null;
    const id =
      input.material ??
      (wanted && !(wanted instanceof Refusal)
        ? wanted.materialId
        : job
          ? (job.steps.find((step) => !step.done)?.plan.material?.id ?? null)
          : null);
    if (id === null) {
      if (wanted instanceof Refusal) return wanted;
      return new Refusal('material-missing', say`Which material? No job on this bench says what comes next.`, {
        example: '/mix material:brush-urethane amount:500 g',
      });
    }
    const material = materialNamed(desk, id);
    if (material instanceof Refusal) return material;
    const needed = wanted && !(wanted instanceof Refusal) && wanted.materialId === material.id ? wanted.amount : null;
    const amount = input.amount ?? needed;
    if (!amount)
      return wanted instanceof Refusal && input.material === undefined
        ? wanted
        : new Refusal('amount-missing', say`How much of ${material.name}?`, {
            example: `/mix material:${material.id} amount:500 g`,
          });
    const stepGrams = input.scale ?? desk.studio.scale.stepGrams;
    const mix = weigh(
      material,
      { amount, by: input.by ?? 'weight', additives: input.with ?? [] },
      { stepGrams, mostGrams: desk.studio.scale.mostGrams, measureStepMillilitres: desk.studio.measureStepMillilitres },
    );
    if (mix instanceof Refusal) return mix;
    const step = job ? stepForCup(job, material.id) : null;
    const title = step ? job?.steps.find((each) => each.plan.id === step)?.plan.title : undefined;
    const cups = !input.amount && wanted && !(wanted instanceof Refusal) ? wanted.cups : 1;
    const poured = pouredFor(state, job, step).length;
    const cupOf = cups === 1 ? say`` : say` (cup ${Math.min(poured + 1, cups)} of ${cups})`;
    return mixCard({
      material,
      mix,
      studio: desk.studio,
      stepGrams,
      forStep: job && title ? say`${title}, ${job.name}${cupOf}` : null,
      potLifeMinutes: potLifeNow(state, material, desk.now),
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
