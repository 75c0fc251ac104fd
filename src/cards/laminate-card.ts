import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import type { Fibre } from '../trade/laminate/fibres.ts';
import type { Laminate } from '../trade/laminate/laminate.ts';
import type { Hazard } from '../trade/material.ts';
import { percentText } from '../trade/measures/format.ts';
import { arealWeightText, areaText, lengthText } from '../trade/measures/format-sizes.ts';
import { catalystRange } from '../trade/mixing/catalyst.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { type PotLifeView, potLifeLine } from './pot-life.ts';
import { aboutMass, partLines, raisedLine, shownMass, type WeighOutView } from './weigh-out.ts';

/** `mix` is one of the equal cups. */
export interface LaminateView extends WeighOutView, PotLifeView {
  readonly fibre: Fibre;
  readonly areaSquareMetres: number;
  readonly laminate: Laminate;
  readonly wastePercent: number;
  readonly offcutPercent: number;
  /** Whether the resin leaves the binder of a chopped-strand mat as it is. */
  readonly binder: boolean;
  readonly cups: number;
  /** Where the area takes less than can be weighed true: how much, in grams; else null. */
  readonly neededGrams: number | null;
  readonly inFull: readonly Hazard[];
  readonly buttons: readonly Way[];
}

/** The resin to weigh out, the mats to cut, how thick it gets, and why. */
export function laminateCard(view: LaminateView): Card {
  const { material, studio, laminate, mix, cups } = view;
  const { units } = studio;
  const shown = (grams: number) => shownMass(grams, view);
  const each = cups === 1 ? say`` : strong(say`${cups} cups`);
  const thick = plain(lengthText(tenths(laminate.thicknessMillimetres), units));
  const layers = laminate.layerCount === 1 ? '1 layer' : `${laminate.layerCount} layers`;
  return card(
    say`${plain(layers)} on ${plain(areaText(view.areaSquareMetres, units))}: ${shown(mix.totalGrams * cups)} of ${material.name}, ${thick} thick`,
    [
      ...(cups === 1 ? [] : [say`${each} of ${shown(mix.totalGrams)}, one after the other. For each:`]),
      ...partLines(view),
      ...(view.neededGrams === null ? [] : [raisedLine([aboutMass(view.neededGrams, studio)])]),
      ...cutting(view),
      ...binderLines(view),
      ...atOnce(view),
      potLifeLine(view, mix.totalGrams, cups === 1 ? 'Use within' : 'Use each cup within'),
      ...(material.catalyst === null
        ? []
        : [say`${material.catalyst.part}: ${plain(catalystRange(material.catalyst))} may be used; less in a warm room.`]),
      reason(view),
      ...hazardLines(material, view.inFull),
    ],
    { data: { laminate: laminateData(view) }, buttons: view.buttons, tone: 'go' },
  );
}

/** A hand-laid layer is no truer than that. */
const tenths = (millimetres: number) =>
  millimetres < 1 ? Number(millimetres.toPrecision(2)) : Math.round(millimetres * 10) / 10;

/** As the trade sells it: cloth by the ounce per square yard. */
const weightText = ({ gramsPerSquareMetre, make }: Laminate['layers'][number], units: Studio['units']): string =>
  arealWeightText(gramsPerSquareMetre, units, make === 'mat' ? 'mat' : 'cloth');

const withOffcuts = ({ areaSquareMetres, offcutPercent }: LaminateView, count: number) =>
  count * areaSquareMetres * (1 + offcutPercent / 100);

function cutting(view: LaminateView): Text[] {
  const { laminate, studio } = view;
  const { units } = studio;
  return laminate.layers.map((layer) => {
    const { gramsPerSquareMetre, count, thicknessMillimetres } = layer;
    const area = plain(areaText(withOffcuts(view, count), units));
    const grams = aboutMass(withOffcuts(view, count) * gramsPerSquareMetre, studio);
    const thick = plain(lengthText(Number(thicknessMillimetres.toPrecision(2)), units));
    const size = plain(weightText(layer, units));
    const deep = count === 1 ? say`${thick}` : say`${thick} each`;
    return say`Cut ${strong(say`${count} × ${size}`)}: ${area} off the roll, ${grams}; ${deep}.`;
  });
}

/** Common practice, no source. */
const binderLines = ({ binder, laminate, fibre }: LaminateView): Text[] =>
  binder && fibre === 'glass' && laminate.layers.some(({ make }) => make === 'mat')
    ? [
        say`⚠ Chopped-strand mat is held by a binder that needs styrene to dissolve, and an epoxy has none: take cloth, stitched or unbound mat.`,
      ]
    : [];

/** So much of it is its own heater that a data sheet limits what is laid before it has set. */
function atOnce({ material, laminate, studio }: LaminateView): Text[] {
  const most = material.coat?.mostMillimetres ?? null;
  if (most === null || laminate.thicknessMillimetres <= most * (1 + 1e-9)) return [];
  const goes = Math.ceil(laminate.thicknessMillimetres / most - 1e-9);
  return [
    say`${strong(say`Lay it in ${goes} goes`)}: at most ${plain(lengthText(most, studio.units))} at once, or it grows too hot; let each set before the next.`,
  ];
}

/** "1.62 kg of glass at 30 % of the weight takes 3.78 kg of resin; 10 % waste, 10 % off-cuts." */
function reason({ laminate, fibre, studio, wastePercent, offcutPercent }: LaminateView): Text {
  const shares = joined(
    [...new Set(laminate.layers.map(({ fibrePercent }) => fibrePercent))].map((share) => say`${plain(percentText(share))}`),
    ' and ',
  );
  const [fibreGrams, resinGrams] = [aboutMass(laminate.fibreGrams, studio), aboutMass(laminate.resinGrams, studio)];
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
    areaSquareMetres: neat(view.areaSquareMetres),
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
    potLifeMinutes: view.potLifeMinutes === null ? null : neat(view.potLifeMinutes),
  };
}
