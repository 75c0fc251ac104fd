import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import type { Fibre } from '../trade/laminate/fibres.ts';
import type { Laminate } from '../trade/laminate/laminate.ts';
import type { Hazard, Material } from '../trade/material.ts';
import { massText, millilitres, minutesText, percentText, scaleText } from '../trade/measures/format.ts';
import { arealWeightText, areaText, lengthText } from '../trade/measures/format-sizes.ts';
import { AREAL_WEIGHT, factorOf } from '../trade/measures/units.ts';
import { catalystRange } from '../trade/mixing/catalyst.ts';
import type { Mix } from '../trade/mixing/mix.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { potLifeBasis } from './pot-life.ts';

export interface LaminateView {
  readonly material: Material;
  readonly studio: Studio;
  readonly fibre: Fibre;
  readonly areaSquareMetres: number;
  readonly laminate: Laminate;
  readonly wastePercent: number;
  readonly offcutPercent: number;
  /** One of the equal cups. */
  readonly mix: Mix;
  readonly cups: number;
  /** Where the area takes less than can be weighed true: how much, in grams; else null. */
  readonly neededGrams: number | null;
  readonly potLifeMinutes: number;
  readonly celsius: number | null;
  readonly inFull: readonly Hazard[];
  readonly warning: Text | null;
  readonly buttons: readonly Way[];
}

/** The resin to weigh out, the mats to cut, how thick it gets, and why. */
export function laminateCard(view: LaminateView): Card {
  const { material, studio, laminate, mix, cups } = view;
  const { units, scale } = studio;
  const shown = (grams: number) => plain(massText(grams, units, scale.stepGrams));
  const each = cups === 1 ? say`` : strong(say`${cups} cups`);
  const thick = plain(lengthText(tenths(laminate.thicknessMillimetres), units));
  const layers = laminate.layerCount === 1 ? '1 layer' : `${laminate.layerCount} layers`;
  return card(
    say`${plain(layers)} on ${plain(areaText(view.areaSquareMetres, units))}: ${shown(mix.totalGrams * cups)} of ${material.name}, ${thick} thick`,
    [
      ...(cups === 1 ? [] : [say`${each} of ${shown(mix.totalGrams)}, one after the other. For each:`]),
      ...mix.parts.map((part, index) => {
        const volume = part.millilitres === null ? say`` : say` (${plain(millilitres(part.millilitres, 1))})`;
        const reading = strong(plain(scaleText(part.scaleReading, scale.stepGrams)));
        return say`${index + 1}. ${part.part}: ${strong(shown(part.grams))}${volume} → scale shows ${reading}`;
      }),
      ...(view.neededGrams === null
        ? []
        : [say`${about(view.neededGrams, studio)} are needed; less than this cannot be weighed true.`]),
      ...cutting(view),
      ...atOnce(view),
      potLife(view),
      ...(material.catalyst === null
        ? []
        : [say`${material.catalyst.part}: ${plain(catalystRange(material.catalyst))} may be used; less in a warm room.`]),
      ...(view.warning === null ? [] : [view.warning]),
      reason(view),
      ...hazardLines(material, view.inFull),
    ],
    { data: { laminate: laminateData(view) }, buttons: view.buttons, tone: 'go' },
  );
}

/** A hand-laid layer is no truer than that. */
const tenths = (millimetres: number) =>
  millimetres < 1 ? Number(millimetres.toPrecision(2)) : Math.round(millimetres * 10) / 10;

/** A weight that nobody measures out: three digits of it. */
const about = (grams: number, { units }: Studio) => plain(massText(Number(grams.toPrecision(3)), units, grams < 10 ? 0.1 : 1));

const GRAMS_PER_OUNCE_A_YARD = factorOf(AREAL_WEIGHT, 'oz/sq yd') ?? Number.NaN;

/** As the trade sells it: cloth by the ounce per square yard. */
function weightText({ gramsPerSquareMetre, make }: Laminate['layers'][number], units: Studio['units']): string {
  const metric = Math.round(gramsPerSquareMetre);
  if (units === 'metric' || make === 'mat') return arealWeightText(metric, units);
  return `${Number((gramsPerSquareMetre / GRAMS_PER_OUNCE_A_YARD).toPrecision(3))} oz/sq yd (${metric} g/m²)`;
}

const withOffcuts = ({ areaSquareMetres, offcutPercent }: LaminateView, count: number) =>
  count * areaSquareMetres * (1 + offcutPercent / 100);

function cutting(view: LaminateView): Text[] {
  const { laminate, studio } = view;
  const { units } = studio;
  return laminate.layers.map((layer) => {
    const { gramsPerSquareMetre, count, thicknessMillimetres } = layer;
    const area = plain(areaText(withOffcuts(view, count), units));
    const grams = about(withOffcuts(view, count) * gramsPerSquareMetre, studio);
    const thick = plain(lengthText(Number(thicknessMillimetres.toPrecision(2)), units));
    const size = plain(weightText(layer, units));
    const deep = count === 1 ? say`${thick}` : say`${thick} each`;
    return say`Cut ${strong(say`${count} × ${size}`)}: ${area} off the roll, ${grams}; ${deep}.`;
  });
}

/** So much of it is its own heater that a data sheet limits what is laid before it has set. */
function atOnce({ material, laminate, studio }: LaminateView): Text[] {
  const most = material.coat?.mostMillimetres ?? null;
  if (most === null || laminate.thicknessMillimetres <= most * (1 + 1e-9)) return [];
  const goes = Math.ceil(laminate.thicknessMillimetres / most - 1e-9);
  return [
    say`${strong(say`Lay it in ${goes} goes`)}: at most ${plain(lengthText(most, studio.units))} at once, or it grows too hot; let each set before the next.`,
  ];
}

function potLife({ material, mix, celsius, studio, potLifeMinutes, cups }: LaminateView): Text {
  const { at, rests } = potLifeBasis(material, mix.totalGrams, celsius, studio.units);
  const which = cups === 1 ? say`Use` : say`Use each cup`;
  return say`${which} within ${strong(plain(minutesText(potLifeMinutes)))} at ${at}${rests === null ? say`` : say` (${rests})`}.`;
}

/** "1.62 kg of glass at 30 % of the weight takes 3.78 kg of resin; 10 % waste, 10 % off-cuts." */
function reason({ laminate, fibre, studio, wastePercent, offcutPercent }: LaminateView): Text {
  const shares = joined(
    [...new Set(laminate.layers.map(({ fibrePercent }) => fibrePercent))].map((share) => say`${plain(percentText(share))}`),
    ' and ',
  );
  const [fibreGrams, resinGrams] = [about(laminate.fibreGrams, studio), about(laminate.resinGrams, studio)];
  return say`${fibreGrams} of ${plain(fibre)} at ${shares} of the weight takes ${resinGrams} of resin; ${plain(percentText(wastePercent))} more for waste, ${plain(percentText(offcutPercent))} for off-cuts. Laid by hand, without pores.`;
}

function laminateData(view: LaminateView) {
  const { laminate, mix, cups } = view;
  return {
    material: view.material.id,
    fibre: view.fibre,
    layers: laminate.layers.map((layer) => ({
      ...layer,
      thicknessMillimetres: neat(layer.thicknessMillimetres),
      matSquareMetres: neat(withOffcuts(view, layer.count)),
    })),
    areaSquareMetres: view.areaSquareMetres,
    fibreGrams: neat(laminate.fibreGrams),
    matSquareMetres: neat(withOffcuts(view, laminate.layerCount)),
    matGrams: neat(laminate.fibreGrams * (1 + view.offcutPercent / 100)),
    /** To mix, waste included, in all cups. */
    resinGrams: neat(mix.totalGrams * cups),
    /** Of one cup, in pour order. */
    parts: mix.parts,
    batches: cups,
    batchGrams: mix.totalGrams,
    thicknessMillimetres: neat(laminate.thicknessMillimetres),
    laminateGrams: neat(laminate.fibreGrams + laminate.resinGrams),
    fibreWeightFraction: neat(laminate.fibreWeightFraction),
    fibreVolumeFraction: neat(laminate.fibreVolumeFraction),
    wastePercent: view.wastePercent,
    offcutPercent: view.offcutPercent,
    potLifeMinutes: view.potLifeMinutes,
  };
}
