import { indexOf } from '../trade/chemistry/equivalents.ts';
import { offRatioEffect, overPoured } from '../trade/chemistry/off-ratio.ts';
import type { Material } from '../trade/material.ts';
import { percentText } from '../trade/measures/format.ts';
import { catalystFits, catalystPercent, catalystRange } from '../trade/mixing/catalyst.ts';
import type { Correction } from '../trade/mixing/correction.ts';
import { plain, say, type Text } from '../words/text.ts';

/** An index as it is spoken of: two decimals. */
export const indexText = (index: number): string => index.toFixed(2);

/**
 * How far off a cup is, with what is over; and what would become of it. `grams`: in the order of the material's parts;
 * `meantPercent`: the share of catalyst that somebody named, if any.
 */
export function offLines(
  material: Material,
  grams: readonly number[],
  { errorPercentBefore, verdict }: Correction,
  meantPercent: number | null,
): Text[] {
  const { catalyst, tolerancePercent } = material;
  const over = overPoured(material, grams);
  const percent = catalystPercent(material, grams);
  const missing = grams.some((one) => one === 0);
  const effect = over === null || missing ? null : offRatioEffect(material, over);
  if (catalyst !== null && percent !== null) {
    const edge = plain(percent > catalyst.mostPercent ? 'most' : 'least');
    const out = catalystFits(material, percent)
      ? say`.`
      : say`: off by ${plain(percentText(errorPercentBefore))} from the ${edge}.`;
    const meant = meantPercent === null ? say`` : say` ${plain(percentText(meantPercent))} was meant.`;
    const line = say`${plain(percentText(percent))} of ${catalyst.part} is in it; its range is ${plain(catalystRange(catalyst))}${meantPercent === null ? out : say`.`}${meant}`;
    return !catalystFits(material, percent) && effect !== null ? [line, say`As it is, ${effect}.`] : [line];
  }
  const index = indexOf(material.parts, grams);
  const off = errorPercentBefore > tolerancePercent;
  const much =
    off && over && !missing
      ? say` (too much ${over.name}${index === null ? say`` : say`, index ${plain(indexText(index))}`})`
      : say``;
  const line = say`It is off by ${plain(percentText(errorPercentBefore))}${much}; ${tolerancePercent} % is allowed.`;
  return off && verdict !== 'good' && effect !== null ? [line, say`As it is, ${effect}.`] : [line];
}
