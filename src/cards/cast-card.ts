import { type Card, card } from '../chat/card.ts';
import type { Batch, CastAmount } from '../trade/casting/amount.ts';
import { linearPercent, type Shrinkage, type Sizes, sizesOf, volumePercent } from '../trade/casting/shrinkage.ts';
import type { Hazard } from '../trade/material.ts';
import { minutesText, percentText } from '../trade/measures/format.ts';
import { boxText, densityText, lengthText, type UnitSystem, volumeText } from '../trade/measures/format-sizes.ts';
import { MILLIMETRES_PER_INCH } from '../trade/measures/units.ts';
import type { Mix } from '../trade/mixing/mix.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { isoIn } from './iso.ts';
import { type PotLifeView, potLifeLine } from './pot-life.ts';
import { partLines, raisedLine, ratioLine, readingText, type WeighOutView } from './weigh-out.ts';
import { mass } from './words.ts';

export interface CastView extends WeighOutView, PotLifeView {
  /** What one cup would be if less could be weighed true, in grams; else null. */
  readonly neededGrams: number | null;
  /** The hazards whose caution is shown in full. */
  readonly inFull: readonly Hazard[];
  readonly buttons: readonly Way[];
  readonly now: number;
  readonly pieces: number;
  /** In how many pours one casting is built up. */
  readonly layers: number;
  readonly amount: CastAmount;
  readonly wastePercent: number;
  /** The cups of one layer, the largest first; `mix` is the first of them. */
  readonly batches: readonly [Batch, ...Batch[]];
  /** The weigh-out of the second kind of cup, where there is one. */
  readonly lastMix: Mix | null;
  /** What the mould holds, or null where only the wall counts. */
  readonly cavityMillilitres: number | null;
  /** What one casting takes up. */
  readonly castMillilitres: number;
  readonly wall: { readonly millimetres: number; readonly leastMillilitres: number | null } | null;
  /** Where the size is from; null where it was given just so. */
  readonly spoken: Text | null;
  /** From when it can be taken out, if it is poured now; null where that is not known. */
  readonly demouldAt: number | null;
  readonly shrinkage: Shrinkage;
  /** Of the skin, the mould's own; null where it is not counted. */
  readonly skin: string | null;
  /** The length that was asked about. */
  readonly sizes: { readonly of: Sizes; readonly asked: 'size' | 'want' } | null;
  readonly boxMillimetres: readonly number[] | null;
  /** More than may be mixed at once goes into one layer. */
  readonly thick: boolean;
  /** What is doubtful about the size. */
  readonly doubts: readonly Text[];
  /** What a casting weighs once it is dry, where it dries out; else null. */
  readonly dryGrams: number | null;
}

/** How much for the castings: the number, the weigh-out, by when, then how large they come out and why. */
export function castCard(view: CastView): Card {
  const { material, mix, pieces, studio, batches, layers } = view;
  const cupsInAll = batches.reduce((sum, batch) => sum + batch.count, 0) * layers;
  const mixedGrams = batches.reduce((sum, { count: cups, cup }) => sum + cups * cup.grams, 0) * layers;
  const each = pieces === 1 ? say`one casting` : say`${pieces} castings, ${mass(view.amount.gramsEach, studio)} each`;
  const title = say`${strong(mass(cupsInAll === 1 ? mix.totalGrams : mixedGrams, studio))} of ${material.name} for ${each}`;
  return card(
    title,
    [
      ...(cupsInAll === 1 ? [] : [cupsLine(view)]),
      ...partLines(view),
      ...(view.lastMix === null ? [] : [lastLine(view.lastMix, view)]),
      ...(view.neededGrams === null ? [] : [raisedLine([mass(view.neededGrams, studio)])]),
      ...byWhen(view),
      ...sizeLines(view),
      ...view.doubts.map((doubt) => say`⚠ ${doubt}`),
      ...(view.thick ? [thickLine(view)] : []),
      reason(view),
      ...(view.potLifeMinutes === null ? [] : [potLife(view)]),
      ratioLine(view),
      ...hazardLines(material, view.inFull),
    ],
    { data: { cast: dataOf(view, mixedGrams) }, buttons: view.buttons, tone: 'go' },
  );
}

/** "3 cups of 420 g, one for each casting", "2 cups of 450 g for each casting", "3 layers: each 140 g". */
function cupsLine({ batches, layers, pieces, studio }: CastView): Text {
  const one = ({ count, castings, cup }: Batch): Text => {
    const cups = say`${count} ${plain(count === 1 ? 'cup' : 'cups')} of ${mass(cup.grams, studio)}`;
    if (pieces === 1) return cups;
    if (castings < 1) return say`${cups}, ${Math.round(1 / castings)} for each casting`;
    return say`${cups}, ${plain(castings === 1 ? 'one casting' : `${castings} castings`)} each`;
  };
  const [first, then] = batches;
  const cups = joined(batches.map(one), '; then ');
  if (layers > 1 && first.count === 1 && then === undefined)
    return say`In ${strong(say`${layers} layers`)} of ${strong(mass(first.cup.grams, studio))} each. Let each gel before the next.`;
  if (layers > 1) return say`In ${strong(say`${layers} layers`)}, each of ${cups}. Let each layer gel before the next.`;
  return say`${strong(cups)}, one after the other:`;
}

/** The smaller cup at the end: its parts in one line. */
const lastLine = (mix: Mix, { studio, stepGrams }: CastView): Text =>
  say`The last cup: ${joined(
    mix.parts.map((part) => say`${part.part} → ${readingText(part.scaleReading, { mix, stepGrams })}`),
    ', ',
  )} (${mass(mix.totalGrams, studio)}).`;

/** A pot life that is shorter than this is no matter of a clock that shows minutes. */
const BY_CLOCK_MINUTES = 10;

const potLife = (view: CastView): Text => potLifeLine(view, view.mix.cupGrams, 'Use within');

/** "Mixed now: pour by 10:03, demould from 10:45."; where no pot life can be told, that. */
function byWhen(view: CastView): Text[] {
  const { material, now, potLifeMinutes, demouldAt, layers, batches } = view;
  const sheet = material.demouldMinutes === null ? null : plain(minutesText(material.demouldMinutes));
  const touch =
    sheet === null
      ? say`its sheet gives no demould time: try it by touch.`
      : say`demould by touch, not by the clock (${sheet}, says the sheet).`;
  if (potLifeMinutes === null) return [potLife(view), say`Mixed now: ${touch}`];
  const alone = layers === 1 && batches.length === 1 && batches[0].count === 1;
  const over = plain(minutesText(potLifeMinutes));
  const pour =
    potLifeMinutes < BY_CLOCK_MINUTES
      ? say`Mixed now: pour within ${strong(over)}`
      : say`Mixed now: pour by ${strong(clock(now + potLifeMinutes * MINUTE))}`;
  if (demouldAt === null) return [say`${pour}; ${touch}`];
  if (alone) return [say`${pour}, demould from ${strong(clock(demouldAt))}.`];
  const wait = plain(minutesText((demouldAt - now) / MINUTE));
  return [say`${pour}. Demould ${strong(wait)} after the last ${plain(layers > 1 ? 'layer' : 'pour')}.`];
}

/** What comes out: its weight, its size, and what that counts. */
function sizeLines(view: CastView): Text[] {
  const { shrinkage, sizes, skin, studio, boxMillimetres, amount, material, dryGrams } = view;
  const { units } = studio;
  const known = [
    ...(skin === null ? [] : [say`mould of ${skin} ${plain(percentText(shrinkage.mouldPercent))}`]),
    ...(material.shrinkagePercent === null ? [] : [say`casting ${plain(percentText(shrinkage.castingPercent))}`]),
    ...(material.postShrinkagePercent === null ? [] : [say`afterwards ${plain(percentText(shrinkage.postPercent))}`]),
    ...(material.expansionPercent === null ? [] : [say`setting growth ${plain(percentText(shrinkage.expansionPercent))}`]),
  ];
  const dry = dryGrams === null ? say`` : say` wet, ${mass(dryGrams, studio)} dry`;
  const weight = say`A casting weighs about ${mass(amount.castingGrams, studio)}${dry}`;
  const box = boxMillimetres?.map((side) => sizesOf(side, shrinkage).castingMillimetres);
  const measures = box === undefined ? say`` : say` and measures ${plain(boxText(box, units))}`;
  const why = known.length === 0 ? say`no shrinkage is known` : say`counted: ${joined(known, ', ')}`;
  const without = skin === null ? say`; the mould’s own is not` : say``;
  const exact = (millimetres: number) => plain(sizeText(millimetres, units));
  const { of, asked } = sizes ?? { of: sizesOf(units === 'metric' ? 100 : MILLIMETRES_PER_INCH * 10, shrinkage), asked: 'size' };
  const line =
    asked === 'want'
      ? say`For ${exact(of.castingMillimetres)} make the model ${strong(exact(of.modelMillimetres))}`
      : say`A ${exact(of.modelMillimetres)} model gives ${strong(exact(of.castingMillimetres))}`;
  const told = sizes !== null || known.length > 0;
  return [say`${weight}${measures}.`, ...(told ? [say`${line} (${why}${without}).`] : [])];
}

/** A hundredth of a millimetre up to 10 cm, a tenth above; customary readers see thousandths of an inch first. */
function sizeText(millimetres: number, units: UnitSystem): string {
  const metric = `${Number(millimetres.toFixed(millimetres < 100 ? 2 : 1))} mm`;
  return units === 'metric' ? metric : `${Number((millimetres / MILLIMETRES_PER_INCH).toFixed(3))} in (${metric})`;
}

function thickLine({ material, studio, layers }: CastView): Text {
  const most = mass(material.mostGrams ?? 0, studio);
  const each = plain(layers > 1 ? 'One layer' : 'One casting');
  return say`⚠ ${each} takes more than the ${most} that may be mixed at once: so much in one piece grows hot, may crack or smoke. Pour it in ${plain(layers > 1 ? 'more layers' : 'layers')}, each when the one before has gelled and cooled.`;
}

/** "350 mL × 1.05 g/mL + 5 % overpour = 386 g each." */
function reason(view: CastView): Text {
  const { amount, castMillilitres, wall, spoken, wastePercent, studio } = view;
  const { units } = studio;
  const density = plain(densityText(amount.gramsPerMillilitre, units));
  const more = [
    ...(amount.overpourPercent > 0 ? [`+ ${percentText(amount.overpourPercent)} overpour`] : []),
    ...(wastePercent > 0 ? [`+ ${percentText(wastePercent)} left in the cup`] : []),
  ];
  const volume = plain(volumeText(castMillilitres, units));
  const grams = mass(amount.gramsEach, studio);
  const sum = say`${volume} × ${density} ${plain(more.join(' '))}${plain(more.length > 0 ? ' ' : '')}= ${grams}`;
  const thick =
    wall === null ? '' : `wall ${lengthText(wall.millimetres, units)}${view.boxMillimetres === null ? '' : ', open at its foot'}`;
  const from = joined([...(spoken === null ? [] : [spoken]), ...(thick === '' ? [] : [say`${plain(thick)}`])], ', ');
  const least =
    wall === null || wall.leastMillilitres === null || wall.leastMillilitres > castMillilitres * 0.98
      ? say``
      : say`; a rounded form takes less, down to ${plain(volumeText(wall.leastMillilitres, units))}`;
  return say`${from}${plain(from.length > 0 ? ': ' : '')}${sum}${least}.`;
}

function dataOf(view: CastView, mixedGrams: number) {
  const { amount, mix, pieces, studio, shrinkage, sizes, wall } = view;
  const linear = linearPercent(shrinkage);
  return {
    material: view.material.id,
    pieces,
    cavityMillilitres: view.cavityMillilitres,
    castMillilitres: view.castMillilitres,
    overpourPercent: amount.overpourPercent,
    wastePercent: view.wastePercent,
    gramsEach: amount.gramsEach,
    totalGrams: amount.gramsEach * pieces,
    mixedGrams,
    by: mix.by,
    parts: mix.parts,
    layers: view.layers,
    batches: view.batches.map(({ count, castings, cup }) => ({ count, castings, grams: cup.grams })),
    potLifeMinutes: view.potLifeMinutes,
    demouldAt: view.demouldAt === null ? null : isoIn(studio.zone)(view.demouldAt),
    demouldMinutes: view.demouldAt === null ? null : (view.demouldAt - view.now) / MINUTE,
    castingGrams: amount.castingGrams,
    dryGrams: view.dryGrams,
    sizes: sizes?.of ?? null,
    castingBoxMillimetres: view.boxMillimetres?.map((side) => sizesOf(side, shrinkage).castingMillimetres) ?? null,
    shrinkage: { ...shrinkage, linearPercent: linear, volumePercent: volumePercent(linear) },
    wallMillimetres: wall?.millimetres ?? null,
    wallLeastMillilitres: wall?.leastMillilitres ?? null,
  };
}
