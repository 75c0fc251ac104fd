import { celsiusOn, temperaturesOf } from '../src/bench/conditions.ts';
import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import { castCard } from '../src/cards/cast-card.ts';
import { outsideUsable } from '../src/cards/usable.ts';
import { mass } from '../src/cards/words.ts';
import { choice, text, typed, whole } from '../src/chat/options.ts';
import { castingMaterial, dryGramsOf, skinOf } from '../src/desk/casting.ts';
import { cavityOf, solidOrHollow } from '../src/desk/cavity.ts';
import { command } from '../src/desk/desk.ts';
import { again, inLine, kept, line, type Typed } from '../src/desk/examples.ts';
import { mixWeighed, potLifeNow, speedOf } from '../src/desk/mixing.ts';
import { jobIfAny, job as jobNamed } from '../src/desk/resolve.ts';
import { sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import { nextStep } from '../src/job/state.ts';
import { castAmount, castBatches } from '../src/trade/casting/amount.ts';
import { parseCavity, parseHeldWater, parseOverpour, parseSize, parseWaste } from '../src/trade/casting/asked.ts';
import { type Shrinkage, sizesFor, sizesOf } from '../src/trade/casting/shrinkage.ts';
import { usualLayers } from '../src/trade/casting/wall.ts';
import type { Material } from '../src/trade/material.ts';
import type { Quantity } from '../src/trade/measures/amount.ts';
import { scaleText } from '../src/trade/measures/format.ts';
import { parseQuantity } from '../src/trade/measures/quantity.ts';
import type { Cups } from '../src/trade/mixing/batches.ts';
import { printedCatalystPercent } from '../src/trade/mixing/catalyst.ts';
import { type Mix, type Scale, weigh } from '../src/trade/mixing/mix.ts';
import { waitOver } from '../src/trade/time/cure.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

/** What is poured beyond the cavity where nobody says: sprue and vents. Common practice, no source. */
const USUAL_OVERPOUR = 5;
const EXAMPLE = { material: 'cast-resin-fast', water: '412 g' };

/** An option whose refusals show it in a whole line; `others`: what else that line needs. */
const option = <T>(name: string, parse: (text: string) => T | Refusal, others: Typed = EXAMPLE) =>
  kept(inLine(parse, (example) => line('cast', { ...others, [name]: example })));

function stepOf(typedText: string): number | Refusal {
  const quantity = parseQuantity(typedText);
  if (isRefusal(quantity)) return again(quantity, { example: '0.1 g' });
  if (quantity.kind === 'mass') return quantity.grams;
  return new Refusal('bad-scale', say`Expected the smallest step that the scale shows, got “${typedText}”.`, {
    example: '0.1 g',
  });
}

export default command({
  name: 'cast',
  summary: 'How much to mix for castings from a mould, when to take them out, and how large they come out',
  options: {
    material: text({ about: 'What is cast; left out, the job’s', complete: 'material' }).optional(),
    water: typed(option('water', parseHeldWater, { material: EXAMPLE.material }), {
      about: 'The water that the mould holds, weighed: 412 g, 14 oz',
    }).optional(),
    volume: typed(option('volume', parseCavity, { material: EXAMPLE.material }), {
      about: 'Or the volume that it holds: 350 mL, 0,4 L, 12 fl oz',
    }).optional(),
    ...sizeOptions('cast', { material: EXAMPLE.material, wall: '3 mm' }),
    pieces: whole({ about: 'How many castings', least: 1, most: 500 }).optional(),
    wall: typed(option('wall', parseSize, { material: EXAMPLE.material, shape: 'half sphere 20 cm' }), {
      about: 'Cast hollow: how thick its wall is to be, 3 mm',
    }).optional(),
    layers: whole({ about: 'In how many pours each casting is built up', least: 1, most: 10 }).optional(),
    overpour: typed(option('overpour', parseOverpour), {
      about: 'What is poured beyond, for sprue and vents: 5 %, or 20 mL for each',
    }).optional(),
    waste: typed(option('waste', parseWaste), { about: 'What stays in the cup, on top of that: 3 %' }).optional(),
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(option('scale', stepOf), {
      about: 'The smallest step that the scale shows, if it is not the studio’s',
    }).optional(),
    size: typed(option('size', parseSize), { about: 'A length of the model: how long is it on the casting?' }).optional(),
    want: typed(option('want', parseSize), { about: 'A length of the casting: how long must the model be?' }).optional(),
    mould: text({ about: 'What the mould’s skin is made of, if it is not the job’s', complete: 'material' }).optional(),
    job: text({ about: 'The job whose mould it is', complete: 'any-job' }).optional(),
  },
  examples: [
    'material:cast-resin-fast water:412 g pieces:3',
    'material:cast-resin-slow volume:0,4 L want:100 mm mould:brush-silicone-tin',
    'material:cast-resin-fast shape:half sphere 20 cm wall:3 mm',
  ],
  run: async (input, desk) => {
    const state = await desk.bench.state();
    const { studio } = desk;
    const options: Typed = {
      material: input.material,
      water: input.water?.typed,
      volume: input.volume?.typed,
      ...sizeTyped(input),
      pieces: input.pieces?.toString(),
      wall: input.wall?.typed,
      layers: input.layers?.toString(),
      overpour: input.overpour?.typed,
      waste: input.waste?.typed,
      by: input.by,
      scale: input.scale?.typed,
      size: input.size?.typed,
      want: input.want?.typed,
      mould: input.mould,
      job: input.job,
    };
    const asked = { desk, command: 'cast', options };
    // A job that nobody named counts where its casting comes next, or where nothing else says how much the mould holds.
    const only = jobIfAny(state, input.job, asked);
    if (isRefusal(only)) return only;
    const sizeless = [input.water, input.volume, input.area, input.shape, input.model].every((each) => each === undefined);
    const job = only !== null && (input.job !== undefined || sizeless || nextStep(only)?.plan.kind === 'cast') ? only : null;

    // Nothing was said but that something is to be cast: of several jobs one must be meant.
    const which = only === null && sizeless ? jobNamed(state, undefined, asked) : null;
    if (isRefusal(which) && which.code === 'which-job') return which;
    const material = castingMaterial(desk, job, options);
    if (isRefusal(material)) return material;
    if (input.by === 'volume' && material.family === 'gypsum') return powderByVolume(material, options);
    const withMaterial = { ...options, material: material.id };
    const skin = skinOf(desk, job, withMaterial);
    if (isRefusal(skin)) return skin;
    if (input.size !== undefined && input.want !== undefined)
      return new Refusal(
        'one-length',
        say`Either a length of the model (size), or one that the casting is to have (want); I got both.`,
        {
          example: line('cast', { ...withMaterial, size: undefined }),
        },
      );

    const cavity = await cavityOf(desk, state, input, job, withMaterial);
    if (isRefusal(cavity)) return cavity;
    const poured = solidOrHollow(desk, cavity, input.wall?.value ?? null, material, job, withMaterial);
    if (isRefusal(poured)) return poured;

    const amount = castAmount(material, {
      millilitres: poured.millilitres,
      overpour: input.overpour?.value ?? { percent: USUAL_OVERPOUR },
      wastePercent: input.waste?.value ?? 0,
    });
    if (isRefusal(amount)) return again(amount, { example: line('cast', { ...withMaterial, material: EXAMPLE.material }) });
    const stepGrams = input.scale?.value ?? studio.scale.stepGrams;
    const scale = { stepGrams, mostGrams: studio.scale.mostGrams, measureStepMillilitres: studio.measureStepMillilitres };
    const pieces = input.pieces ?? 1;
    const ratio = { shares: material.parts.map((part) => part.weightShare), tolerancePercent: material.tolerancePercent };
    const inLayers = (count: number) => castBatches(pieces, amount.gramsEach / count, material.mostGrams, ratio, scale);
    const usual = input.layers ?? (input.wall === undefined ? 1 : usualLayers(input.wall.value));
    // Where nobody says how many, no layer is so small that it could not be weighed true.
    const layers = input.layers === undefined && inLayers(usual).some(({ cup }) => cup.raised) ? 1 : usual;
    const eachGrams = amount.gramsEach / layers;
    const batches = inLayers(layers);
    const by = input.by ?? 'weight';
    const cup = weighCup(material, batches[0].cup, by, scale);
    if (isRefusal(cup)) return inThisCommand(cup, withMaterial);
    const { mix } = cup;
    const last = batches[1] ? weighCup(material, batches[1].cup, by, scale) : null;
    if (isRefusal(last)) return inThisCommand(last, withMaterial);

    const shrinkage: Shrinkage = {
      mouldPercent: skin?.shrinkagePercent ?? 0,
      castingPercent: material.shrinkagePercent ?? 0,
      postPercent: material.postShrinkagePercent ?? 0,
      expansionPercent: material.expansionPercent ?? 0,
    };
    const sizes =
      input.want !== undefined
        ? { of: sizesFor(input.want.value, shrinkage), asked: 'want' as const }
        : input.size !== undefined
          ? { of: sizesOf(input.size.value, shrinkage), asked: 'size' as const }
          : null;
    const outside = outsideUsable(state, material, desk.now, studio.units);
    const step = job ? stepForCup(job, material.id) : null;
    const nth = pouredFor(state, job, step).length + 1;
    return castCard({
      material,
      mix,
      lastMix: last?.mix ?? null,
      studio,
      stepGrams,
      now: desk.now,
      pieces,
      layers,
      amount,
      wastePercent: input.waste?.value ?? 0,
      batches,
      cavityMillilitres: cavity.millilitres,
      castMillilitres: poured.millilitres,
      wall: input.wall ? { millimetres: input.wall.value, leastMillilitres: poured.leastMillilitres } : null,
      spoken: cavity.spoken,
      note: cup.raised
        ? say`${mass(batches[0].castings * eachGrams, studio)} are needed; less than this cannot be weighed true.`
        : null,
      potLifeMinutes: potLifeNow(state, material, desk.now, mix.cupGrams),
      celsius: celsiusOn(state, desk.now),
      demouldAt:
        material.demouldMinutes === null || outside !== null
          ? null
          : waitOver(temperaturesOf(state), speedOf(material), desk.now, material.demouldMinutes),
      shrinkage,
      skin: skin !== null && skin.shrinkagePercent !== null ? skin.name : null,
      sizes,
      boxMillimetres: cavity.boxMillimetres,
      thick: material.mostGrams !== null && eachGrams > material.mostGrams,
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      warnings: outside === null ? [] : [outside],
      sheetCatalystPercent: printedCatalystPercent(material),
      doubts: cavity.warnings,
      dryGrams: dryGramsOf(material, amount.castingGrams),
      buttons: [
        {
          label: 'Cup poured',
          command: 'cup start',
          options: {
            material: material.id,
            amount: scaleText(mix.cupGrams, stepGrams),
            ...(job && step ? { job: job.id, step, nth: String(nth) } : {}),
          },
        },
        { label: 'Poured wrong', command: 'fix', options: { material: material.id }, asks: true },
      ],
    });
  },
});

/** One cup weighed out; what is too little for this way of measuring is raised to the least that is not. */
function weighCup(material: Material, cup: Cups, by: 'weight' | 'volume', scale: Scale): { mix: Mix; raised: boolean } | Refusal {
  const of = (quantity: Quantity) => weigh(material, { amount: { quantity, of: null }, by, additives: [] }, scale);
  const mix = of({ kind: 'mass', grams: cup.askGrams });
  if (!isRefusal(mix)) return { mix, raised: cup.raised };
  const least = mix.code === 'batch-too-small' ? parseQuantity(mix.example ?? '') : mix;
  const more = isRefusal(least) ? mix : of(least);
  return isRefusal(more) ? more : { mix: more, raised: true };
}

/** A powder's density is that of the solid. */
const powderByVolume = (material: Material, options: Typed): Refusal =>
  new Refusal(
    'powder-by-volume',
    say`A measuring cup of powder holds air, more or less of it each time: ${material.name} is weighed out.`,
    { example: line('cast', { ...options, by: undefined }) },
  );

/** What the trade refuses, with a line that would work: weighed out, which is always possible. */
const inThisCommand = (refusal: Refusal, options: Typed): Refusal =>
  again(refusal, { example: line('cast', { ...options, by: undefined, scale: undefined }) });
