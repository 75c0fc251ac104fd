import type { Studio } from '../bench/studio.ts';
import { isPowder } from '../trade/gypsum/powder.ts';
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

/** Each part in pour order: "1. B: 150 g (125 mL) → scale shows 150 g". */
export const partLines = (view: WeighOutView): Text[] =>
  view.mix.parts.map((part, index) => say`${index + 1}. ${part.part}: ${portion(part, view)}`);

function portion(part: MixPart, view: WeighOutView): Text {
  const { mix, studio } = view;
  if (mix.by === 'volume')
    return say`${strong(plain(cupText(part.millilitres ?? 0, studio.units, studio.measureStepMillilitres)))}${behind(shownMass(part.grams, view), studio.units)}`;
  return say`${strong(shownMass(part.grams, view))}${volume(part, view)} → ${readingText(part.scaleReading, view)}`;
}

/** Behind a weight, where it means something: a powder's would be that of the solid. */
function volume({ part: name, millilitres: value }: MixPart, { material, studio }: WeighOutView): Text {
  if (value === null || isPowder(material, { name })) return say``;
  // A catalyst is drawn up in a syringe, which shows tenths of a millilitre everywhere.
  const syringe = name === material.catalyst?.part;
  if (studio.units === 'customary' && !syringe) return behind(plain(volumeText(value, studio.units)), studio.units);
  return behind(plain(millilitres(value, Math.min(studio.measureStepMillilitres, syringe ? 0.1 : 1))), studio.units);
}

/** What is stirred in after the parts, numbered on. */
export const additiveLines = (view: WeighOutView): Text[] =>
  view.mix.additives.map((each, index) => {
    const off = each.offPercent > 10 ? say` (as near as this scale comes: off by ${plain(percentText(each.offPercent))})` : say``;
    const number = view.mix.parts.length + index + 1;
    return say`${number}. ${each.name}: ${strong(shownMass(each.grams, view))} → ${readingText(each.scaleReading, view)}${off}`;
  });

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
