import { temperaturesOf } from '../src/bench/conditions.ts';
import { pouredFor, stepForCup } from '../src/bench/fold.ts';
import { castCard } from '../src/cards/cast-card.ts';
import { concernLines } from '../src/cards/compatibility.ts';
import { isOutside } from '../src/cards/usable.ts';
import { choice, text, typed, whole } from '../src/chat/options.ts';
import { castCups } from '../src/desk/cast-cups.ts';
import { castingMaterial, castJob, dryGramsOf, skinOf } from '../src/desk/casting.ts';
import { cavityOf, solidOrHollow } from '../src/desk/cavity.ts';
import { concernsOfCast } from '../src/desk/contacts.ts';
import { cupPoured, ofStep, pouredWrong } from '../src/desk/cup-ways.ts';
import { command } from '../src/desk/desk.ts';
import { again, line, optionsOf, type Typed } from '../src/desk/examples.ts';
import { mixWeighed, potLifeOn, scaleOf, speedOf } from '../src/desk/mixing.ts';
import { sizeOptions, sizeTyped } from '../src/desk/sizing.ts';
import { castAmount } from '../src/trade/casting/amount.ts';
import { parseCavity, parseHeldWater, parseOverpour, parseSize } from '../src/trade/casting/asked.ts';
import { type Shrinkage, sizesFor, sizesOf } from '../src/trade/casting/shrinkage.ts';
import { isGypsum, type Material } from '../src/trade/material.ts';
import { parseAddedShare, parseScaleStep } from '../src/trade/measures/quantity.ts';
import { waitOver } from '../src/trade/time/cure.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

/** What is poured beyond the cavity where nobody says: sprue and vents. Common practice, no source. */
const USUAL_OVERPOUR = 5;
const EXAMPLE = { material: 'cast-resin-fast', water: '412 g' };

const HOLLOW = { material: EXAMPLE.material, shape: 'half sphere 20 cm' };
const option = optionsOf('cast', EXAMPLE);
/** Of what says how much the mould holds: nothing else may say it beside. */
const alone = optionsOf('cast', { material: EXAMPLE.material });

export default command({
  name: 'cast',
  summary: 'How much to mix for castings from a mould, when to take them out, and how large they come out',
  options: {
    material: text({ about: 'What is cast; left out, the job’s', complete: 'castable' }).optional(),
    water: typed(alone('water', parseHeldWater), {
      about: 'The water that the mould holds, weighed: 412 g, 14 oz',
    }).optional(),
    volume: typed(alone('volume', parseCavity), {
      about: 'Or the volume that it holds: 350 mL, 0,4 L, 12 fl oz',
    }).optional(),
    ...sizeOptions('cast', { material: EXAMPLE.material, wall: '3 mm' }),
    pieces: whole({ about: 'How many castings', least: 1, most: 500 }).optional(),
    wall: typed(optionsOf('cast', HOLLOW)('wall', parseSize), {
      about: 'Cast hollow: how thick its wall is to be, 3 mm',
    }).optional(),
    layers: whole({ about: 'In how many pours each casting is built up', least: 1, most: 10 }).optional(),
    overpour: typed(option('overpour', parseOverpour), {
      about: 'What is poured beyond, for sprue and vents: 5 %, or 20 mL for each',
    }).optional(),
    waste: typed(option('waste', parseAddedShare), { about: 'What stays in the cup, on top of that: 3 %' }).optional(),
    by: choice(['weight', 'volume'], { about: 'Measured on the scale or in measuring cups' }).optional(),
    scale: typed(option('scale', parseScaleStep), {
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
    const job = castJob(state, { desk, command: 'cast', options });
    if (isRefusal(job)) return job;
    const material = castingMaterial(desk, job, options);
    if (isRefusal(material)) return material;
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
    if (isRefusal(cavity))
      return cavity.code === 'volume-missing' && skin && isGypsum(skin) ? withoutWater(cavity, withMaterial) : cavity;
    const poured = solidOrHollow(desk, cavity, input.wall?.value ?? null, material, job, withMaterial);
    if (isRefusal(poured)) return poured;

    const amount = castAmount(material, {
      millilitres: poured.millilitres,
      overpour: input.overpour?.value ?? { percent: USUAL_OVERPOUR },
      wastePercent: input.waste?.value ?? 0,
    });
    if (isRefusal(amount)) return again(amount, { example: line('cast', { ...withMaterial, material: EXAMPLE.material }) });
    const stepGrams = input.scale?.value ?? studio.scale.stepGrams;
    const pieces = input.pieces ?? 1;
    const cups = castCups(
      material,
      {
        pieces,
        gramsEach: amount.gramsEach,
        wallMillimetres: input.wall?.value ?? null,
        layers: input.layers ?? null,
        by: input.by ?? 'weight',
      },
      scaleOf(studio, stepGrams),
    );
    if (isRefusal(cups)) return inThisCommand(cups, withMaterial);
    const { mix, layerGrams } = cups;

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
    const concerns = concernsOfCast(material, job, input.mould === undefined ? null : skin, desk);
    const step = job ? stepForCup(job, material.id) : null;
    // Plaster that is too much for one bucket goes into the mould at once all the same.
    const thick = material.mostGrams !== null && layerGrams > material.mostGrams && !isGypsum(material);
    const before = pouredFor(state, job, step).length;
    // A layer gels before the next is mixed, and the last cup may be a smaller one.
    const alike = cups.layers === 1 && !thick ? cups.batches[0].count : 1;
    return castCard({
      material,
      mix,
      lastMix: cups.lastMix,
      neededGrams: cups.neededGrams,
      studio,
      stepGrams,
      now: desk.now,
      pieces,
      layers: cups.layers,
      amount,
      wastePercent: input.waste?.value ?? 0,
      batches: cups.batches,
      cavityMillilitres: cavity.millilitres,
      castMillilitres: poured.millilitres,
      wall: input.wall ? { millimetres: input.wall.value, leastMillilitres: poured.leastMillilitres } : null,
      spoken: cavity.spoken,
      ...potLifeOn(state, material, desk.now, mix.cupGrams),
      demouldAt:
        material.demouldMinutes === null || isOutside(state, material, desk.now)
          ? null
          : waitOver(temperaturesOf(state), speedOf(material), desk.now, material.demouldMinutes),
      shrinkage,
      skin: skin !== null && skin.shrinkagePercent !== null ? skin.name : null,
      sizes,
      boxMillimetres: cavity.boxMillimetres,
      thick,
      inFull: await mixWeighed(desk, material, mix.totalGrams, job && step ? job.id : null),
      doubts: cavity.warnings,
      minded: [...concernLines(concerns, studio), ...(input.water === undefined ? [] : [dryLine(skin)])],
      concerns,
      dryGrams: dryGramsOf(material, amount.castingGrams),
      buttons: [
        cupPoured(material, mix.cupGrams, stepGrams, {
          ...ofStep(job, step),
          nth: String(before + 1),
          ...(alike > 1 ? { of: String(before + alike) } : {}),
        }),
        pouredWrong(material),
      ],
    });
  },
});

/** What water leaves behind. Common practice, no source. */
const dryLine = (skin: Material | null) =>
  skin !== null && isGypsum(skin)
    ? say`A plaster mould drinks water: that is not what it holds. Give its volume, a shape or a model, and dry it right through.`
    : say`After the water dry the mould right through: what is left makes urethanes foam.`;

/** How much it holds, of a mould that water is not for. */
const withoutWater = (refusal: Refusal, options: Typed): Refusal =>
  new Refusal(
    refusal.code,
    say`How much does the mould hold? A plaster mould drinks water: give its volume, a shape or a model.`,
    {
      example: line('cast', { ...options, area: undefined, volume: '400 mL' }),
    },
  );

/** What the trade refuses, with a line that would work: weighed out, which is always possible. */
const inThisCommand = (refusal: Refusal, options: Typed): Refusal =>
  again(refusal, { example: line('cast', { ...options, by: undefined, scale: undefined }) });
