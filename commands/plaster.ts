import { plasterCard } from '../src/cards/plaster-card.ts';
import { MOST_BUTTONS } from '../src/chat/card.ts';
import { text, typed } from '../src/chat/options.ts';
import { cupPoured, pouredWrong } from '../src/desk/cup-ways.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { again, givenOf, line, optionsOf, type Typed } from '../src/desk/examples.ts';
import { mixWeighed, potLifeOn, scaleOf } from '../src/desk/mixing.ts';
import { pick } from '../src/desk/resolve.ts';
import { parsePlasterAmount } from '../src/trade/gypsum/asked.ts';
import { plasterBatches } from '../src/trade/gypsum/batch.ts';
import { ownWater, powderAndWater, powderFor, setPiece, slurryMillilitres, withWater } from '../src/trade/gypsum/plaster.ts';
import { parseWater } from '../src/trade/gypsum/water.ts';
import { isCastable, isGypsum, type Material } from '../src/trade/material.ts';
import { parseAddedShare, parseScaleStep } from '../src/trade/measures/quantity.ts';
import { isRefusal, Refusal, type Way } from '../src/words/refusal.ts';
import { joined, quoted, say } from '../src/words/text.ts';

const AMOUNT = '0.4 L';

const option = optionsOf('plaster', { amount: AMOUNT });

export default command({
  name: 'plaster',
  summary: 'How much powder into how much water, and what the piece weighs when it is dry',
  options: {
    amount: typed(option('amount', parsePlasterAmount, AMOUNT), {
      about: 'A mould’s volume, or a weight: 0.4 L, 2 gal, 2 kg of powder, 1.2 kg dry',
    }),
    material: text({ about: 'Which plaster; left out, the first for casting', complete: 'gypsum' }).optional(),
    water: typed(option('water', parseWater, '70:100'), {
      about: 'Water to powder, if not as the sheet says: 70:100, 0.7, 30 ml per 100 g',
    }).optional(),
    waste: typed(option('waste', parseAddedShare, '5 %'), {
      about: 'What stays in the bucket, if it is not the studio’s: 5 %',
    }).optional(),
    scale: typed(option('scale', parseScaleStep, '1 g'), {
      about: 'The smallest step that the scale shows, if it is not the studio’s',
    }).optional(),
  },
  examples: [
    'amount:0,4 L',
    'amount:2 kg of powder water:70:100',
    'amount:1.2 kg dry material:gypsum-stone water:30 ml per 100 g',
  ],
  run: async (input, desk) => {
    const options: Typed = {
      amount: input.amount.typed,
      material: input.material,
      water: input.water?.typed,
      waste: input.waste?.typed,
      scale: input.scale?.typed,
    };
    const sheet = gypsumOf(desk, input.material, options);
    if (isRefusal(sheet)) return sheet;
    const parts = powderAndWater(sheet);
    if (isRefusal(parts)) return again(parts, { example: line('mix', { material: sheet.id, amount: '500 g' }) });
    const own = ownWater(parts);
    const water = input.water?.value ?? own;
    const isOwn = Math.abs(water / own - 1) < 1e-9;
    // A sheet's own ratio goes through the same limits as one that is typed.
    const possible = parseWater(`${own}:100`);
    if (input.water === undefined && isRefusal(possible))
      return again(possible, { example: line('plaster', { ...options, water: '70:100' }) });
    const material = withWater(sheet, parts, water);
    const stepGrams = input.scale?.value ?? desk.studio.scale.stepGrams;

    const asked = powderFor(input.amount.value, water, material, parts);
    if (isRefusal(asked)) return again(asked, { example: line('plaster', { ...options, amount: '2 kg of powder' }) });
    const measured = input.amount.value.of === 'mould' || input.amount.value.of === 'dry';
    // Of a weight that is mixed, all counts as poured unless somebody says how much is not.
    const wastePercent = input.waste?.value ?? (measured ? desk.studio.wastePercent : null);
    const withWaste = 1 + (wastePercent ?? 0) / 100;
    const needed = asked * (1 + water / 100) * (measured ? withWaste : 1);
    const batches = plasterBatches(material, parts, needed, input.amount.value.of, scaleOf(desk.studio, stepGrams));
    if (isRefusal(batches)) {
      if (batches.example === undefined) return again(batches, { example: line('plaster', { ...options, scale: '0.1 g' }) });
      const { example } = batches;
      const amount = / of /.test(example) ? example : `${example} of mix`;
      return again(batches, { example: line('plaster', { ...options, amount }) });
    }
    const { mix, count } = batches;
    const poured = (name: string) => (mix.parts.find(({ part }) => part === name)?.grams ?? 0) * count;
    const [powderGrams, waterGrams] = [poured(parts.powder.name), poured(parts.water.name)];
    const inPiece = measured
      ? ([asked, (asked * water) / 100] as const)
      : ([powderGrams / withWaste, waterGrams / withWaste] as const);
    const state = await desk.bench.state();
    return plasterCard({
      material,
      studio: desk.studio,
      stepGrams,
      parts: { powder: parts.powder.name, water: parts.water.name },
      waterPerHundred: water,
      ownWaterPerHundred: isOwn ? null : own,
      mix,
      batches: count,
      apart: batches.apart,
      neededGrams: batches.raised ? needed : null,
      wastePercent,
      piece: { ...setPiece(...inPiece), millilitres: slurryMillilitres(...inPiece, parts) },
      slurryMillilitres: slurryMillilitres(powderGrams, waterGrams, parts),
      ...potLifeOn(state, sheet, desk.now, mix.totalGrams),
      inFull: await mixWeighed(desk, sheet, mix.totalGrams * count, null),
      buttons: [
        cupPoured(sheet, mix.totalGrams, stepGrams, count > 1 ? { of: String(count) } : {}),
        // What is put right is put right to the sheet's ratio.
        ...(isOwn ? [pouredWrong(sheet)] : []),
      ],
    });
  },
});

/** The gypsum that is meant: the named one, or the first for casting. */
function gypsumOf(desk: Desk, typedText: string | undefined, options: Typed): Material | Refusal {
  const gypsums = desk.materials.filter(isGypsum);
  const first = gypsums.find(isCastable) ?? gypsums[0];
  const lineOf = (id: string | undefined) => line('plaster', { ...options, material: id });
  if (first === undefined)
    return new Refusal('no-gypsum', say`This studio’s list has no gypsum; I expected one, with its powder and water.`, {
      example: '/material list',
    });
  if (typedText === undefined) return first;
  const found = pick('material', typedText, desk.materials, lineOf);
  const meant = isRefusal(found)
    ? gypsums.filter(({ id, name }) => wordsIn(`${id} ${name}`).includes(typedText.trim().toLowerCase()))
    : [];
  if (meant[0] && meant.length === 1) return meant[0];
  if (meant.length > 1)
    return new Refusal('which-gypsum', say`Which “${typedText}”?`, {
      example: lineOf(meant[0]?.id),
      ways: waysTo(meant, options),
    });
  if (isRefusal(found)) return pick('material', typedText, gypsums, lineOf);
  if (isGypsum(found)) return found;
  const names = joined(
    gypsums.map(({ id }) => [quoted(id)]),
    ', ',
    ' or ',
  );
  return new Refusal('not-gypsum', say`${found.name} is no gypsum. I expected ${names}.`, {
    example: lineOf(first.id),
    ways: waysTo(gypsums, options),
  });
}

const wordsIn = (text: string): string[] => text.toLowerCase().split(/[^\p{L}\d]+/u);

const waysTo = (gypsums: readonly Material[], options: Typed): Way[] =>
  gypsums.slice(0, MOST_BUTTONS).map(({ id, name }) => ({
    label: name.length <= 80 ? name : id,
    command: 'plaster',
    options: givenOf({ ...options, material: id }),
  }));
