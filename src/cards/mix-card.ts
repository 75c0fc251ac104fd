import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import type { Hazard, Material } from '../trade/material.ts';
import { massText, millilitres, minutesText, percentText, scaleText } from '../trade/measures/format.ts';
import { catalystRange, printedCatalystPercent } from '../trade/mixing/catalyst.ts';
import type { Mix } from '../trade/mixing/mix.ts';
import type { Way } from '../words/refusal.ts';
import { plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { potLifeBasis } from './pot-life.ts';

export interface MixView {
  readonly material: Material;
  readonly mix: Mix;
  readonly studio: Studio;
  readonly stepGrams: number;
  /** For which step of which job, if any. */
  readonly forStep: Text | null;
  /** Why it is another amount than was asked for. */
  readonly note: Text | null;
  readonly potLifeMinutes: number;
  /** The bench's temperature; null where none is logged. */
  readonly celsius: number | null;
  /** The hazards whose caution is shown in full. */
  readonly inFull: readonly Hazard[];
  readonly warnings: readonly Text[];
  /** The share of the catalyst that the data sheet's times are of, where it may vary. */
  readonly sheetCatalystPercent: number | null;
  readonly buttons: readonly Way[];
}

/** The weigh-out: each part in pour order with what the scale shows, then everything that bears on it. */
export function mixCard(view: MixView): Card {
  const { material, mix, studio, stepGrams } = view;
  const shown = (value: number) =>
    plain(mix.by === 'volume' ? massText(Math.round(value), studio.units, 1) : massText(value, studio.units, stepGrams));
  const reading = (value: number) => plain(scaleText(mix.by === 'volume' ? Math.round(value) : value, stepGrams));
  // A catalyst is drawn up in a syringe, which shows tenths.
  const volume = (value: number | null, part: string) =>
    value === null
      ? say``
      : say` (${plain(millilitres(value, Math.min(studio.measureStepMillilitres, part === material.catalyst?.part ? 0.1 : 1)))})`;
  const parts = mix.parts.map((part, index) =>
    mix.by === 'volume'
      ? say`${index + 1}. ${part.part}: ${strong(plain(millilitres(part.millilitres ?? 0, studio.measureStepMillilitres)))} (${shown(part.grams)})`
      : say`${index + 1}. ${part.part}: ${strong(shown(part.grams))}${volume(part.millilitres, part.part)} → scale shows ${strong(reading(part.scaleReading))}`,
  );
  const added = mix.additives.map(
    (each, index) =>
      say`${mix.parts.length + index + 1}. ${each.name}: ${strong(shown(each.grams))} → scale shows ${strong(reading(each.scaleReading))}${each.offPercent > 10 ? say` (as near as this scale comes: off by ${plain(percentText(each.offPercent))})` : say``}`,
  );
  return card(
    say`${material.name}: ${shown(mix.totalGrams)}${view.forStep === null ? say`` : say` for ${view.forStep}`}`,
    [
      ...parts,
      ...added,
      ...(view.note === null ? [] : [view.note]),
      potLife(view),
      ...otherCatalyst(view),
      ...view.warnings,
      reason(view),
      ...hazardLines(material, view.inFull),
    ],
    {
      data: {
        mix: {
          material: material.id,
          by: mix.by,
          parts: mix.parts,
          additives: mix.additives,
          totalGrams: mix.totalGrams,
          totalMillilitres: mix.totalMillilitres,
          cupGrams: mix.cupGrams,
          ratioErrorPercent: mix.ratioErrorPercent,
          smallestBatchGrams: mix.smallestBatchGrams,
          potLifeMinutes: mix.potLifeMinutes,
        },
      },
      buttons: view.buttons,
      tone: 'go',
    },
  );
}

/** "Use within 30 min at 17 °C (20 min at 23 °C and 100 g, says the sheet; more in one cup goes off sooner)." */
function potLife({ material, mix, potLifeMinutes, celsius, studio }: MixView): Text {
  const { at, rests } = potLifeBasis(material, mix.cupGrams, celsius, studio.units);
  const use = strong(plain(minutesText(potLifeMinutes)));
  return say`Use within ${use} at ${at}${rests === null ? say`` : say` (${rests})`}.`;
}

/** No sheet says how a pot life follows the catalyst; only which way it goes is known. */
function otherCatalyst({ material, sheetCatalystPercent: sheetPercent }: MixView): Text[] {
  const percent = printedCatalystPercent(material);
  if (percent === null || sheetPercent === null || Math.abs(percent - sheetPercent) < 1e-9) return [];
  const goes = strong(percent > sheetPercent ? say`it goes off sooner` : say`it goes off later`);
  return [
    say`That holds for the sheet’s ${plain(percentText(sheetPercent))} of catalyst: with ${plain(percentText(percent))} ${goes}.`,
  ];
}

/** The reason in one line: `135 g = 150 g × 90/100`, how true it came out, and the smallest batch. */
function reason({ material, mix, stepGrams }: MixView): Text {
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
