import { celsiusOn, conditionsOf } from '../src/bench/conditions.ts';
import { type BenchState, pouredFor, stepForCup } from '../src/bench/fold.ts';
import type { Studio } from '../src/bench/studio.ts';
import { cupsCard, type LayingRate } from '../src/cards/cups-card.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { text, typed } from '../src/chat/options.ts';
import { cupPoured, ofStep } from '../src/desk/cup-ways.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, inLine, kept, line, type Typed } from '../src/desk/examples.ts';
import { rateLearned } from '../src/desk/laying.ts';
import { amountForNext, mixWeighed, potLifeNow, scaleOf } from '../src/desk/mixing.ts';
import { materialOrNext } from '../src/desk/next-material.ts';
import { jobIfAny } from '../src/desk/resolve.ts';
import type { JobState } from '../src/job/state.ts';
import { nextWindow } from '../src/job/window.ts';
import { planCups } from '../src/trade/cups/plan.ts';
import type { Material } from '../src/trade/material.ts';
import { scaleText } from '../src/trade/measures/format.ts';
import { parseMassRate, parseQuantity } from '../src/trade/measures/quantity.ts';
import { GRAMS_PER_OUNCE } from '../src/trade/measures/units.ts';
import { LEFT_BY_ROUNDING } from '../src/trade/mixing/batches.ts';
import { amountIn } from '../src/trade/mixing/limits.ts';
import { MINUTE } from '../src/trade/time/calendar.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

const EXAMPLE = { material: 'shell-paste', amount: '2.4 kg', rate: '25 g/min' };
const option = <T>(name: string, parse: (text: string) => T | Refusal) =>
  kept(inLine(parse, (example, typed) => line('cups', { ...EXAMPLE, [name]: withUnit(name, typed) ?? example })));
/** A bare number was most likely meant in the usual unit. */
const withUnit = (name: string, typed: string): string | undefined =>
  name === 'rate' && /^\s*\d{1,3}\s*$/.test(typed) && Number(typed) > 0 ? `${Number(typed)} g/min` : undefined;

/** What hands lay in a minute: slow, usual and fast. Common practice, no source. */
const RATES = { metric: ['10 g/min', '20 g/min', '40 g/min'], customary: ['0.5 oz/min', '1 oz/min', '1.5 oz/min'] };

/** Which option a refusal's example is for. */
const OPTION_OF: Readonly<Record<string, string>> = { 'rate-absurd': 'rate', 'too-slow': 'rate', 'container-too-small': 'cup' };

export default command({
  name: 'cups',
  summary: 'How many cups to mix, how large and when, so that each is laid before it goes off',
  options: {
    material: text({ about: 'What is laid; left out, what the job needs next', complete: 'material' }).optional(),
    amount: typed(option('amount', parseQuantity), {
      about: 'How much in all: 2.4 kg; left out, what the job’s next step needs',
    }).optional(),
    job: text({ about: 'The job that it is for', complete: 'job' }).optional(),
    rate: typed(option('rate', parseMassRate), {
      about: 'How fast it is laid: 25 g/min, 1.5 kg/h, 1 oz/min; left out, as your last cups were',
    }).optional(),
    cup: typed(option('cup', parseQuantity), { about: 'The most that the container holds: 300 g, 400 mL' }).optional(),
  },
  examples: [
    'material:shell-paste amount:2.4 kg rate:25 g/min',
    'material:shell-paste amount:1,5 kg rate:1.5 kg/h cup:400 mL',
    'material:shell-paste amount:3 lb rate:1 oz/min',
  ],
  run: async (input, desk) => {
    const state = await desk.bench.state();
    const given: Typed = {
      material: input.material,
      amount: input.amount?.typed,
      job: input.job,
      rate: input.rate?.typed,
      cup: input.cup?.typed,
    };
    const job = jobIfAny(state, input.job, { desk, command: 'cups', options: given });
    if (isRefusal(job)) return job;
    const lineOf = (one: string | undefined) =>
      line('cups', { amount: EXAMPLE.amount, rate: EXAMPLE.rate, ...givenOf(given), material: one });
    const shell = desk.materials.find(({ use }) => use.includes('shell')) ?? desk.materials[0];
    const asking = { desk, command: 'cups', options: given, material: input.material, lineOf, example: lineOf(shell?.id) };
    const material = materialOrNext(state, job, asking);
    if (isRefusal(material)) return material;
    const options: Typed = { ...given, material: material.id };

    const outside = outsideUsable(state, material, desk.now, desk.studio.units);
    if (outside && material.usable) {
      const { fromCelsius, untilCelsius } = material.usable;
      const middle = Math.round((fromCelsius + untilCelsius) / 2);
      const help = say`Bring room and material into that range as its sheet says; no flame or hot plate under a pot.`;
      return new Refusal('outside-usable', say`${outside} ${help} Then log the temperature, and I plan the cups.`, {
        example: line('temp log', {
          value: desk.studio.units === 'metric' ? `${middle} C` : `${Math.round(middle * 1.8 + 32)} F`,
        }),
      });
    }

    const total = totalGrams(state, desk, job, material, input.amount?.value, options);
    if (isRefusal(total)) return total;
    const container = input.cup === undefined ? null : amountIn('mass', input.cup.value, material, null);
    if (isRefusal(container)) return again(container, { example: line('cups', { ...options, cup: container.example }) });
    const rate = await rateFor(desk, material, input.rate?.value, {
      ...options,
      amount: options['amount'] ?? gramsTyped(desk, total),
    });
    if (isRefusal(rate)) return rate;

    const step = job ? stepForCup(job, material.id) : null;
    const begin = job && step ? earliest(state, desk, job) : desk.now;
    const plan = planCups(
      material,
      {
        totalGrams: total,
        gramsPerMinute: rate.gramsPerMinute,
        containerGrams: container,
        potLifeMinutes: (grams) => potLifeNow(state, material, begin, grams),
      },
      scaleOf(desk.studio),
    );
    if (isRefusal(plan)) return inThisCommand(plan, options, desk.studio.units);
    const { mix, count, minutesEach } = plan;
    const title = job?.steps.find((each) => each.plan.id === step)?.plan.title;
    const poured = pouredFor(state, job, step).length;
    const clocks = Array.from({ length: count }, (_, before) => {
      const mixAt = begin + before * minutesEach * MINUTE;
      const useBy = mixAt + potLifeNow(state, material, mixAt, mix.totalGrams) * MINUTE;
      return { cup: poured + before + 1, mixAt, useBy };
    });
    return cupsCard({
      material,
      plan,
      rate,
      studio: desk.studio,
      forStep: job && title !== undefined ? say`${title}, ${job.name}` : null,
      neededGramsEach: total / count,
      clocks,
      celsius: celsiusOn(state, begin),
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      buttons: [
        cupPoured(material, mix.totalGrams, desk.studio.scale.stepGrams, {
          ...ofStep(job, step),
          nth: String(poured + 1),
          of: String(poured + count),
        }),
      ],
    });
  },
});

/** When the first cup is mixed: now, or when the job's next step opens. */
function earliest(state: BenchState, desk: Desk, job: JobState): number {
  const window = nextWindow(job, conditionsOf(state, desk.studio));
  return window === null || window.outside !== null ? desk.now : Math.max(desk.now, window.opensAt);
}

const gramsTyped = (desk: Desk, grams: number) => scaleText(grams, desk.studio.scale.stepGrams);

/** What was asked for, else what the job's next step still needs. */
function totalGrams(
  state: BenchState,
  desk: Desk,
  job: JobState | null,
  material: Material,
  amount: Parameters<typeof amountIn>[1] | undefined,
  options: Typed,
): number | Refusal {
  if (amount !== undefined) {
    const grams = amountIn('mass', amount, material, null);
    return isRefusal(grams) ? again(grams, { example: line('cups', { ...options, amount: grams.example }) }) : grams;
  }
  const example = line('cups', { ...options, amount: EXAMPLE.amount, rate: options['rate'] ?? EXAMPLE.rate });
  const needed = job ? amountForNext(job, desk) : null;
  if (isRefusal(needed) && needed.code === 'amount-missing') return again(needed, { example });
  if (needed === null || isRefusal(needed) || needed.materialId !== material.id)
    return new Refusal('amount-missing', say`How much of ${material.name} in all?`, { example });
  const cups = pouredFor(state, job, job ? stepForCup(job, material.id) : null);
  const left = needed.neededGrams - cups.reduce((sum, cup) => sum + (cup.grams ?? 0), 0);
  if (left > needed.neededGrams * LEFT_BY_ROUNDING) return left;
  return new Refusal(
    'all-poured',
    say`All that this step needs of ${material.name} is poured already. I expected how much more.`,
    {
      example,
    },
  );
}

/** How fast it is laid: as somebody says, else as this studio did last; else that is asked. */
async function rateFor(desk: Desk, material: Material, asked: number | undefined, options: Typed): Promise<LayingRate | Refusal> {
  if (asked !== undefined) return { gramsPerMinute: asked, from: 'asked', cups: 0 };
  const learned = await rateLearned(desk, material.id);
  if (learned) return { ...learned, from: 'learned' };
  const rates = RATES[desk.studio.units];
  return new Refusal(
    'rate-missing',
    say`How fast do you lay it? Weigh one cup and look at the clock. After three cups of it that were started with their weight and used up, I know by myself.`,
    {
      example: line('cups', { ...options, rate: rates[1] }),
      ways: rates.map((rate) => ({ label: rate, command: 'cups', options: givenOf({ ...options, rate }) })),
    },
  );
}

/** A rate as the studio would type it, rounded up. */
function rateTyped(example: string, units: Studio['units']): string {
  const gramsPerMinute = parseMassRate(example);
  if (units === 'metric' || isRefusal(gramsPerMinute)) return example;
  return `${Math.ceil((gramsPerMinute / GRAMS_PER_OUNCE) * 100) / 100} oz/min`;
}

/** What the trade offers instead, as a line that would work. */
function inThisCommand(refusal: Refusal, options: Typed, units: Studio['units']): Refusal {
  const { code } = refusal;
  const name = OPTION_OF[code] ?? 'amount';
  const example = name === 'rate' ? rateTyped(refusal.example ?? '', units) : refusal.example;
  if (example === undefined) return refusal;
  // Hands that are fast enough for a larger cup may need a larger container.
  const { cup, ...others } = options;
  return again(refusal, { example: line('cups', { ...(code === 'too-slow' ? others : options), [name]: example }) });
}
