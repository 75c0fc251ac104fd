import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import type { Studio } from '../src/bench/studio.ts';
import { concernData, concernLines } from '../src/cards/compatibility.ts';
import { mixCard } from '../src/cards/mix-card.ts';
import { choice, text, typed } from '../src/chat/options.ts';
import { concernsOfMix, onLiving } from '../src/desk/contacts.ts';
import { cupPoured, ofStep, pouredWrong } from '../src/desk/cup-ways.ts';
import { command } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, mixLine, optionsOf, type Typed } from '../src/desk/examples.ts';
import { amountToMix } from '../src/desk/mix-amount.ts';
import { amountForNext, mixWeighed, potLifeOn } from '../src/desk/mixing.ts';
import { materialOrNext, nextMaterialId } from '../src/desk/next-material.ts';
import { notNow } from '../src/desk/not-now.ts';
import { jobIfAny } from '../src/desk/resolve.ts';
import { sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import type { JobState } from '../src/job/state.ts';
import { LAYING_SHARE } from '../src/trade/cups/plan.ts';
import { massRateText } from '../src/trade/measures/format-sizes.ts';
import { parseAdditives, parseAmount, parseLength, parsePercent, parseScaleStep } from '../src/trade/measures/quantity.ts';
import { printedCatalystPercent, withCatalyst } from '../src/trade/mixing/catalyst.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { plain, say, type Text } from '../src/words/text.ts';

const EXAMPLE = { material: 'brush-urethane', amount: '500 g' };
const SPREAD = { material: 'brush-urethane', area: '0.4 m2' };
const CATALYSED = { material: 'laminate-polyester', amount: '500 g' };
/** More lines of warning than this, and none is read at the bench. */
const MOST_CONCERNS = 2;
const option = optionsOf('mix', EXAMPLE);

export default command({
  name: 'mix',
  summary: 'How much of each part to weigh out, in pour order',
  options: {
    material: text({ about: 'What is mixed; left out, what the job needs next', complete: 'material' }).optional(),
    amount: typed(option('amount', parseAmount), {
      about: 'How much in all, or of one part: 500 g, 0.4 L, 12 oz, 150 g of B',
    }).optional(),
    ...sizeOptions('mix', { material: EXAMPLE.material }),
    thickness: typed(kept(inLine(parseLength, () => line('mix', { ...SPREAD, thickness: '1 mm' }))), {
      about: 'Of a coat over an area, a shape or a model: 1 mm; left out, the usual',
    }).optional(),
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(option('scale', parseScaleStep), {
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
    const living = onLiving(input.surface, line('mix', { ...EXAMPLE, surface: 'wood, shellac' }));
    if (living) return living;
    const asked = { desk, command: 'mix', options };
    const job = jobIfAny(state, input.job, asked);
    if (isRefusal(job)) return job;
    // Without a material it is the job's next step that asks for one; a job named along with it only lends the amount.
    const wanted = job && (input.material === undefined || input.amount === undefined) ? amountForNext(job, desk) : null;
    if (isRefusal(wanted) && input.material === undefined && nextMaterialId(job) === undefined) return wanted;
    const listed = materialOrNext(state, job, {
      ...asked,
      material: input.material,
      lineOf: (material) => line('mix', { amount: '500 g', ...givenOf(options), material }),
      example: mixLine(desk),
    });
    if (isRefusal(listed)) return listed;
    const material = input.catalyst === undefined ? listed : withCatalyst(listed, input.catalyst.value);
    if (isRefusal(material))
      return again(material, {
        example: line('mix', { amount: '500 g', ...givenOf(options), material: listed.id, catalyst: material.example }),
      });
    const stepGrams = input.scale?.value ?? desk.studio.scale.stepGrams;
    const amount = await amountToMix(desk, input, material, wanted, { options, stepGrams });
    if (isRefusal(amount)) return amount;
    const { mix, cups } = amount;
    const step = job ? stepForCup(job, material.id) : null;
    const poured = pouredFor(state, job, step).length;
    const life = potLifeOn(state, material, desk.now, mix.cupGrams);
    const against = job && step ? notNow(state, job, { step, cups, potLifeMinutes: life.potLifeMinutes }, desk) : null;
    // Whoever says just how much has a use for it.
    if (isRefusal(against) && input.amount === undefined) return against;
    // Each cup after the first of a step lies on the same as that.
    const concerns = poured > 0 ? [] : concernsOfMix(listed, job, input.surface?.trim() || null, desk);
    const weighedOut = mixCard({
      material,
      mix,
      studio: desk.studio,
      stepGrams,
      forStep: job && step ? say`${stepWords(job, step)}${cupWords(poured, cups)}` : null,
      note: amount.note,
      ...life,
      notNow: isRefusal(against) ? against.message : against,
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      warnings: [
        ...amount.warnings,
        ...(cups > 1 ? fastEnough(mix.cupGrams, life.potLifeMinutes, desk.studio) : []),
        ...concernLines(concerns.slice(0, MOST_CONCERNS), desk.studio),
      ],
      sheetCatalystPercent: printedCatalystPercent(listed),
      buttons: [
        cupPoured(
          material,
          mix.cupGrams,
          stepGrams,
          step ? { ...ofStep(job, step), nth: String(poured + 1), ...(cups > 1 ? { of: String(cups) } : {}) } : {},
        ),
        pouredWrong(material, { catalyst: input.catalyst?.typed }),
      ],
    });
    return { ...weighedOut, data: { ...weighedOut.data, concerns: concernData(concerns) } };
  },
});

/** "Second coat, Lion head". */
const stepWords = (job: JobState, step: string): Text =>
  say`${job.steps.find(({ plan }) => plan.id === step)?.plan.title ?? ''}, ${job.name}`;

/** " (cup 2 of 3)", where there are several. */
const cupWords = (poured: number, cups: number): Text =>
  cups === 1 ? say`` : say` (cup ${Math.min(poured + 1, cups)} of ${cups})`;

/** A cup among several is as large as may be mixed; whether it can be laid in time depends on the hand. */
const fastEnough = (grams: number, potLifeMinutes: number | null, { units }: Studio): Text[] =>
  potLifeMinutes === null
    ? []
    : [
        say`Whoever lays less than ${plain(massRateText(grams / (LAYING_SHARE * potLifeMinutes), units))} loses some of it: /cups plans smaller cups.`,
      ];
