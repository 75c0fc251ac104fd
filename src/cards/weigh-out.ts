import type { Studio } from '../bench/studio.ts';
import { isPowder, isWater } from '../trade/gypsum/powder.ts';
import type { Material } from '../trade/material.ts';
import { aboutText, cupText, massText, millilitres, percentText, scaleText } from '../trade/measures/format.ts';
import { volumeText } from '../trade/measures/format-sizes.ts';
import { catalystRange, printedCatalystPercent } from '../trade/mixing/catalyst.ts';
import type { Mix, MixPart } from '../trade/mixing/mix.ts';
import { plain, type Span, say, strong, type Text } from '../words/text.ts';

/** What several cards say of a mix that is weighed out. */

export interface WeighOutView {
  readonly material: Material;
  readonly mix: Mix;
  readonly studio: Studio;
  readonly stepGrams: number;
}

/** A mass of the mix, as the scale shows it. */
export const shownMass = (grams: number, { mix, studio, stepGrams }: Omit<WeighOutView, 'material'>) =>
  plain(massText(mix.by === 'volume' ? Math.round(grams) : grams, studio.units, stepGrams));

/** A weight that nobody measures out: three digits of it. */
export const aboutMass = (grams: number, { units, scale }: Studio) => plain(aboutText(grams, units, scale.stepGrams));

/** What stands behind another measure: in brackets, but not where both have brackets of their own. */
const behind = (text: Span, units: Studio['units']): Text => (units === 'metric' ? say` (${text})` : say`, ${text}`);

/** "scale shows 150 g": once this is in the cup, too. */
export const readingText = (grams: number, { mix, stepGrams }: Pick<WeighOutView, 'mix' | 'stepGrams'>): Text =>
  say`scale shows ${strong(plain(scaleText(mix.by === 'volume' ? Math.round(grams) : grams, stepGrams)))}`;

/** How a powder goes into its water, and what comes after. */
export const SIFTED = say`, sifted into the water, never the other way round`;
export const SOAK = say`Let it soak until no dry spot is left, then stir slowly; beat no air in.`;

/** Whether it is a powder that goes into water which is in the bucket already. */
const isSifted = ({ part: name }: MixPart, { material, mix }: WeighOutView): boolean =>
  isPowder(material, { name }) &&
  mix.parts
    .slice(
      0,
      mix.parts.findIndex(({ part }) => part === name),
    )
    .some(({ part }) => isWater({ name: part }));

/** Lines in their order, with their numbers; last what plaster wants. */
const numbered = (lines: readonly Text[], view: WeighOutView): Text[] =>
  [...lines, ...(view.mix.parts.some((part) => isSifted(part, view)) ? [SOAK] : [])].map(
    (line, index) => say`${index + 1}. ${line}`,
  );

/** Each part in pour order: "1. B: 150 g (125 mL) → scale shows 150 g". */
export const partLines = (view: WeighOutView): Text[] =>
  numbered(
    view.mix.parts.map((part) => say`${part.part}: ${portion(part, view)}`),
    view,
  );

function portion(part: MixPart, view: WeighOutView): Text {
  const { mix, studio } = view;
  if (mix.by === 'volume')
    return say`${strong(plain(cupText(part.millilitres ?? 0, studio.units, studio.measureStepMillilitres)))}${behind(shownMass(part.grams, view), studio.units)}`;
  const sifted = isSifted(part, view) ? SIFTED : say``;
  return say`${strong(shownMass(part.grams, view))}${volume(part, view)}${sifted} → ${readingText(part.scaleReading, view)}`;
}

/** Behind a weight, where it means something: a powder's would be that of the solid. */
function volume({ part: name, millilitres: value }: MixPart, { material, studio }: WeighOutView): Text {
  if (value === null || isPowder(material, { name })) return say``;
  // A catalyst is drawn up in a syringe, which shows tenths of a millilitre everywhere.
  const syringe = name === material.catalyst?.part;
  if (studio.units === 'customary' && !syringe) return behind(plain(volumeText(value, studio.units)), studio.units);
  return behind(plain(millilitres(value, Math.min(studio.measureStepMillilitres, syringe ? 0.1 : 1))), studio.units);
}

/** The same with what is stirred in, in the order in which the scale shows it: before a catalyst, else after the parts. */
export function weighLines(view: WeighOutView): Text[] {
  const parts = view.mix.parts.map((part) => ({ at: part.scaleReading, line: say`${part.part}: ${portion(part, view)}` }));
  const additives = view.mix.additives.map((each) => {
    const off = each.offPercent > 10 ? say` (as near as this scale comes: off by ${plain(percentText(each.offPercent))})` : say``;
    const line = say`${each.name}: ${strong(shownMass(each.grams, view))} → ${readingText(each.scaleReading, view)}${off}`;
    return { at: each.scaleReading, line };
  });
  const inOrder = [...parts, ...additives].sort((a, b) => a.at - b.at);
  return numbered(
    inOrder.map(({ line }) => line),
    view,
  );
}

/** Why it is more than was asked for. `needed`: what that was, as text. */
export const raisedLine = (needed: Text): Text => say`${needed} are needed; less than this cannot be weighed true.`;

/** No sheet says how a pot life follows the catalyst; only which way it goes is known. */
export function otherCatalystLines(material: Material, sheetPercent: number | null): Text[] {
  const percent = printedCatalystPercent(material);
  if (percent === null || sheetPercent === null || Math.abs(percent - sheetPercent) < 1e-9) return [];
  const goes = strong(percent > sheetPercent ? say`it goes off sooner` : say`it goes off later`);
  return [
    say`That holds for the sheet’s ${plain(percentText(sheetPercent))} of catalyst: with ${plain(percentText(percent))} ${goes}.`,
  ];
}

/** Why so much of each, in one line: `135 g = 150 g × 90/100`, how true it came out, and the smallest batch. */
export function ratioLine({ material, mix, stepGrams }: WeighOutView): Text {
  const off = say`off the ratio by ${plain(percentText(mix.ratioErrorPercent))}, ${material.tolerancePercent} % is allowed; smallest batch ${plain(mix.by === 'volume' ? 'in these measuring cups' : 'on this scale')} ${plain(scaleText(mix.smallestBatchGrams, stepGrams))}`;
  const { catalyst } = material;
  const percent = printedCatalystPercent(material);
  if (catalyst !== null && percent !== null && mix.by === 'weight')
    return say`${plain(percentText(percent))} of ${catalyst.part}, which may be ${plain(catalystRange(catalyst))}: more in the cold, less in the warm; ${off}.`;
  const share = (name: string) => material.parts.find((part) => part.name === name)?.weightShare ?? 0;
  const shares = material.parts.map((part) => (mix.by === 'volume' ? part.volumeShare : part.weightShare));
  const ratio = shares.map((part) => Number((part ?? 0).toPrecision(4))).join(':');
  const anchor = mix.parts.find((part) => part.part === mix.anchored);
  const other = mix.parts.find((part) => part.part !== mix.anchored);
  if (anchor && other && mix.by === 'weight' && mix.parts.length === 2)
    return say`${plain(scaleText(other.grams, stepGrams))} = ${plain(scaleText(anchor.grams, stepGrams))} × ${share(other.part)}/${share(anchor.part)}; ${off}.`;
  return say`${plain(ratio)} by ${mix.by}; ${off}.`;
}
