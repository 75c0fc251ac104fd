import { laminateCard } from '../src/cards/laminate-card.ts';
import { MOST_BUTTONS } from '../src/chat/card.ts';
import { choice, text, typed } from '../src/chat/options.ts';
import { cupPoured, pouredWrong } from '../src/desk/cup-ways.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, line, optionsOf, type Typed } from '../src/desk/examples.ts';
import { mixWeighed, potLifeOn, scaleOf } from '../src/desk/mixing.ts';
import { pick } from '../src/desk/resolve.ts';
import { FIBRES } from '../src/trade/laminate/fibres.ts';
import { parseFraction } from '../src/trade/laminate/fraction.ts';
import { laminate } from '../src/trade/laminate/laminate.ts';
import { type Mats, OFFCUT_PERCENT, parseMats, readingsOf } from '../src/trade/laminate/mats.ts';
import { isLaminatingResin, isPaste, type Material } from '../src/trade/material.ts';
import { parseAddedShare, parseArea } from '../src/trade/measures/quantity.ts';
import { cupsOf, truenessOf } from '../src/trade/mixing/batches.ts';
import { weigh } from '../src/trade/mixing/mix.ts';
import { mixedDensity } from '../src/trade/mixing/parts.ts';
import { isRefusal, Refusal, type Way } from '../src/words/refusal.ts';
import { joined, plain, quoted, say } from '../src/words/text.ts';

const EXAMPLE = { mats: '2 x 450 g/m2', area: '1.2 m2', material: 'laminate-polyester' };

const option = optionsOf('laminate', EXAMPLE);

export default command({
  name: 'laminate',
  summary: 'How much resin layers of mat or cloth take, how much mat to cut, and how thick it gets',
  options: {
    mats: text({ about: 'How many layers of what: 2 x 450 g/m2, 1 x 300 g/m2, or 2 x 1.5 oz mat', free: true }),
    area: typed(option('area', parseArea, EXAMPLE.area), { about: 'What is covered: 1.2 m2, 20 x 30 cm, 12 sq ft' }),
    material: text({ about: 'The resin', complete: 'laminating-resin' }).optional(),
    fibre: choice(FIBRES, { about: 'What the mats are made of; left out, glass' }).optional(),
    fraction: typed(option('fraction', parseFraction, '30 %'), {
      about: 'Fibre by weight; left out, glass mat 30 %, cloth 45 %',
    }).optional(),
    waste: typed(option('waste', parseAddedShare, '10 %'), {
      about: 'What stays in cup and brush, if it is not the studio’s: 10 %',
    }).optional(),
    offcut: typed(option('offcut', parseAddedShare, '10 %'), {
      about: 'More mat for overlaps and trimming; left out, 10 %',
    }).optional(),
  },
  examples: [
    'mats:2 x 450 g/m2, 1 x 300 g/m2 area:1,2 m2 material:laminate-polyester',
    'mats:2 x 1.5 oz mat area:12 sq ft material:laminate-polyester',
    'mats:3 x 200 g/m2 cloth area:30 x 40 cm material:laminate-epoxy fibre:carbon fraction:50 %',
  ],
  run: async (input, desk) => {
    const options: Typed = {
      mats: input.mats,
      area: input.area.typed,
      material: input.material,
      fibre: input.fibre,
      fraction: input.fraction?.typed,
      waste: input.waste?.typed,
      offcut: input.offcut?.typed,
    };
    const mats = matsOf(input.mats, options);
    if (isRefusal(mats)) return mats;
    const material = resinOf(desk, input.material, options);
    if (isRefusal(material)) return material;
    const resinGramsPerMillilitre = mixedDensity(material);
    if (resinGramsPerMillilitre === null)
      return new Refusal(
        'density-missing',
        say`${material.name} has a part without a density, so no thickness can be told. I expected a resin with both.`,
        {
          example: line('material show', { material: material.id }),
        },
      );
    const fibre = input.fibre ?? 'glass';
    const areaSquareMetres = input.area.value;
    const laid = laminate({
      mats,
      areaSquareMetres,
      fibre,
      fibrePercent: input.fraction?.value ?? null,
      resinGramsPerMillilitre,
    });
    const wastePercent = input.waste?.value ?? desk.studio.wastePercent;
    const needed = laid.resinGrams * (1 + wastePercent / 100);
    const scale = scaleOf(desk.studio);
    const cups = cupsOf(needed, material.mostGrams, truenessOf(material), scale);
    const mix = weigh(
      material,
      { amount: { quantity: { kind: 'mass', grams: cups.askGrams }, of: null }, by: 'weight', additives: [] },
      scale,
    );
    if (isRefusal(mix)) return again(mix, { example: line('mix', { material: material.id, amount: mix.example ?? '500 g' }) });
    const state = await desk.bench.state();
    return laminateCard({
      material,
      studio: desk.studio,
      stepGrams: scale.stepGrams,
      fibre,
      areaSquareMetres,
      laminate: laid,
      wastePercent,
      offcutPercent: input.offcut?.value ?? OFFCUT_PERCENT,
      binder: material.family === 'epoxy' && !/stitched|unbound/i.test(input.mats),
      mix,
      cups: cups.count,
      neededGrams: cups.raised ? needed : null,
      ...potLifeOn(state, material, desk.now, mix.totalGrams),
      inFull: await mixWeighed(desk, material, mix.totalGrams * cups.count, null),
      buttons: [
        cupPoured(material, mix.totalGrams, scale.stepGrams, cups.count > 1 ? { of: String(cups.count) } : {}),
        pouredWrong(material),
      ],
    });
  },
});

/** Bare ounces are offered in both readings. */
function matsOf(typedText: string, options: Typed): Mats[] | Refusal {
  const mats = parseMats(typedText);
  if (!isRefusal(mats)) return mats;
  const lineOf = (instead = '') => line('laminate', { ...options, mats: isRefusal(parseMats(instead)) ? EXAMPLE.mats : instead });
  if (mats.code !== 'ounces-unclear') return again(mats, { example: lineOf(mats.example) });
  const { mat, cloth } = readingsOf(typedText);
  const way = (label: string, instead: string): Way => ({
    label,
    command: 'laminate',
    options: givenOf({ ...options, mats: instead }),
  });
  return again(mats, { example: lineOf(mat), ways: [way('Mat, oz per sq ft', mat), way('Cloth, oz per sq yd', cloth)] });
}

/** The resin that is meant: the named one, or the only one that there is for laminating. */
function resinOf(desk: Desk, typedText: string | undefined, options: Typed): Material | Refusal {
  const resins = desk.materials.filter(isLaminatingResin);
  const meant = resins.filter(({ id, name }) => /lamin/i.test(`${id} ${name}`));
  const fit = meant.length > 0 ? meant : resins;
  const lineOf = (id: string | undefined) => line('laminate', { ...options, material: id });
  const ways = fit.slice(0, MOST_BUTTONS).map(({ id, name }) => ({
    label: name.length <= 80 ? name : id,
    command: 'laminate',
    options: givenOf({ ...options, material: id }),
  }));
  const names = joined(
    fit.map(({ id }) => [quoted(id)]),
    ', ',
    ' or ',
  );
  if (typedText === undefined) {
    const [only] = fit;
    if (only && fit.length === 1) return only;
    if (only === undefined)
      return new Refusal('no-resin', say`This studio’s list has no epoxy or polyester for shells. I expected one.`, {
        example: '/material list',
      });
    return new Refusal('material-missing', say`Which resin? There is ${names}.`, { example: lineOf(only.id), ways });
  }
  const found = pick('material', typedText, desk.materials, lineOf);
  if (isRefusal(found)) return fit.length > 0 ? pick('material', typedText, fit, lineOf) : found;
  if (isPaste(found) && found.use.includes('shell'))
    return new Refusal('not-a-laminate', say`${found.name} is a paste, too thick to wet out a mat. I expected ${names}.`, {
      example: lineOf(fit[0]?.id),
      ways,
    });
  if (found.use.includes('shell') && !['gypsum', 'silicone-tin', 'silicone-platinum'].includes(found.family)) return found;
  return new Refusal(
    'not-a-laminate',
    say`${found.name} is a ${plain(found.family)} for ${plain(found.use.join(' and '))}, no resin for a laminate. I expected ${names}.`,
    { example: lineOf(fit[0]?.id), ways },
  );
}
