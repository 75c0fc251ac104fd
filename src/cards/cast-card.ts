import { type Card, card } from '../chat/card.ts';
import type { Batch, CastAmount } from '../trade/casting/amount.ts';
import { linearPercent, type Shrinkage, type Sizes, sizesOf, volumePercent } from '../trade/casting/shrinkage.ts';
import type { Concern } from '../trade/compatibility/concerns.ts';
import type { Hazard } from '../trade/material.ts';
import { minutesText, percentText } from '../trade/measures/format.ts';
import { boxText, densityText, lengthText, type UnitSystem, volumeText } from '../trade/measures/format-sizes.ts';
import { MILLIMETRES_PER_INCH } from '../trade/measures/units.ts';
import type { Mix } from '../trade/mixing/mix.ts';
import { neat } from '../trade/mixing/ratio.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, joined, plain, say, strong, type Text } from '../words/text.ts';
import { concernData } from './compatibility.ts';
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
  /** What is to be minded of the mould, the gravest first. */
  readonly minded: readonly Text[];
  readonly concerns: readonly Concern[];
  /** What a casting weighs once it is dry, where it dries out; else null. */
  readonly dryGrams: number | null;
}

/** How much for the castings: the number, the weigh-out, by when, then how large they come out and why. */
export function castCard(view: CastView): Card {
  const { material, mix, pieces, studio, batches, layers } = view;
  const cupsInAll = batches.reduce((sum, batch) => sum + batch.count, 0) * layers;
  const mixedGrams = neat(batches.reduce((sum, { count: cups, cup }) => sum + cups * cup.grams, 0) * layers);
  const each = pieces === 1 ? say`one casting` : say`${pieces} castings, ${mass(view.amount.gramsEach, studio)} each`;
  const inAll = say`${strong(mass(mixedGrams, studio))} of ${material.name} for ${each}`;
  return card(
    view.thick
      ? say`Pour ${plain(pieces === 1 ? 'it' : 'each')} in ${strong(say`${poursOf(view)} layers of ${mass(mix.totalGrams, studio)}`)}, each gelled and cooled`
      : inAll,
    [
      ...(view.thick ? [thickLine(view), say`${inAll}. A cup for each layer:`] : cupsInAll === 1 ? [] : [cupsLine(view)]),
      ...partLines(view),
      ...(view.lastMix === null ? [] : [lastLine(view.lastMix, view)]),
      ...(view.neededGrams === null ? [] : [raisedLine([mass(view.neededGrams, studio)])]),
      ...byWhen(view),
      ...sizeLines(view),
      ...view.doubts.map((doubt) => say`⚠ ${doubt}`),
      ...view.minded,
      reason(view),
      ...(isLong(view) ? [potLifeLine(view, mix.cupGrams, 'Pot life')] : []),
      ratioLine(view),
      ...hazardLines(material, view.inFull),
    ],
    {
      data: { cast: dataOf(view, mixedGrams), concerns: concernData(view.concerns) },
      buttons: view.buttons,
      tone: view.thick ? 'soon' : 'go',
    },
  );
}

/** In how many pours one casting comes about. */
const poursOf = ({ layers, batches }: CastView): number => layers * Math.max(1, Math.round(1 / batches[0].castings));

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

const isLong = ({ potLifeMinutes }: CastView): boolean => potLifeMinutes !== null && potLifeMinutes >= BY_CLOCK_MINUTES;

/** "Mixed now: pour by 10:03, demould from 10:45."; a short pot life in minutes; where none can be told, that. */
function byWhen(view: CastView): Text[] {
  const { material, now, potLifeMinutes, demouldAt, layers, batches } = view;
  const sheet = material.demouldMinutes === null ? null : plain(minutesText(material.demouldMinutes));
  const touch =
    sheet === null
      ? say`its sheet gives no demould time: try it by touch.`
      : say`demould by touch, not by the clock (${sheet}, says the sheet).`;
  const alone = layers === 1 && batches.length === 1 && batches[0].count === 1;
  const within = potLifeLine(view, view.mix.cupGrams, alone ? 'Pour within' : 'Pour each cup within');
  if (potLifeMinutes === null) return [within, say`Mixed now: ${touch}`];
  const pourBy = clock(now + potLifeMinutes * MINUTE);
  const wait = say`emould ${strong(plain(minutesText(((demouldAt ?? now) - now) / MINUTE)))} after the last ${plain(layers > 1 || view.thick ? 'layer' : 'pour')}.`;
  if (isLong(view)) {
    const pour = say`Mixed now: pour by ${strong(pourBy)}`;
    if (demouldAt === null) return [say`${pour}; ${touch}`];
    return [alone ? say`${pour}, demould from ${strong(clock(demouldAt))}.` : say`${pour}. D${wait}`];
  }
  if (demouldAt === null) return [within, say`Mixed now: ${touch}`];
  return [within, alone ? say`Mixed now: demould from ${strong(clock(demouldAt))}.` : say`D${wait}`];
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

const thickLine = ({ material, studio }: CastView): Text =>
  say`⚠ No more than ${mass(material.mostGrams ?? 0, studio)} may be mixed at once: more in one piece grows hot, may crack or smoke.`;

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

const orNull = (value: number | null) => (value === null ? null : neat(value));

const neatSizes = ({ modelMillimetres, mouldMillimetres, castingMillimetres }: Sizes): Sizes => ({
  modelMillimetres: neat(modelMillimetres),
  mouldMillimetres: neat(mouldMillimetres),
  castingMillimetres: neat(castingMillimetres),
});

function dataOf(view: CastView, mixedGrams: number) {
  const { amount, mix, pieces, studio, shrinkage, sizes, wall } = view;
  const linear = linearPercent(shrinkage);
  return {
    material: view.material.id,
    pieces,
    cavityMillilitres: orNull(view.cavityMillilitres),
    castMillilitres: neat(view.castMillilitres),
    overpourPercent: neat(amount.overpourPercent),
    wastePercent: view.wastePercent,
    gramsEach: neat(amount.gramsEach),
    totalGrams: neat(amount.gramsEach * pieces),
    mixedGrams,
    by: mix.by,
    parts: mix.parts,
    layers: view.layers,
    batches: view.batches.map(({ count, castings, cup }) => ({ count, castings: neat(castings), grams: neat(cup.grams) })),
    potLifeMinutes: orNull(view.potLifeMinutes),
    demouldAt: view.demouldAt === null ? null : isoIn(studio.zone)(view.demouldAt),
    demouldMinutes: view.demouldAt === null ? null : neat((view.demouldAt - view.now) / MINUTE),
    castingGrams: neat(amount.castingGrams),
    dryGrams: orNull(view.dryGrams),
    sizes: sizes === null ? null : neatSizes(sizes.of),
    castingBoxMillimetres: view.boxMillimetres?.map((side) => neat(sizesOf(side, shrinkage).castingMillimetres)) ?? null,
    shrinkage: { ...shrinkage, linearPercent: neat(linear), volumePercent: neat(volumePercent(linear)) },
    wallMillimetres: wall?.millimetres ?? null,
    wallLeastMillilitres: orNull(wall?.leastMillilitres ?? null),
  };
}
