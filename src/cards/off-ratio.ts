import { indexOf } from '../trade/chemistry/equivalents.ts';
import { offRatioEffect, overPoured } from '../trade/chemistry/off-ratio.ts';
import type { Material } from '../trade/material.ts';
import { percentText } from '../trade/measures/format.ts';
import { catalystPercent, catalystRange } from '../trade/mixing/catalyst.ts';
import type { Correction } from '../trade/mixing/correction.ts';
import { plain, say, type Text } from '../words/text.ts';

/** An index as it is spoken of: two decimals. */
export const indexText = (index: number): string => index.toFixed(2);

/** How far off a cup is, with what is over; and what would become of it. `grams`: in the order of the material's parts. */
export function offLines(material: Material, grams: readonly number[], { errorPercentBefore, verdict }: Correction): Text[] {
  const { catalyst, tolerancePercent } = material;
  const over = overPoured(material, grams);
  const percent = catalystPercent(material, grams);
  const index = indexOf(material.parts, grams);
  const share =
    catalyst === null || percent === null
      ? say``
      : say` ${plain(percentText(percent))} of ${catalyst.part} is in it, ${plain(catalystRange(catalyst))} is its range.`;
  const off = errorPercentBefore > tolerancePercent;
  const missing = grams.some((one) => one === 0);
  const much =
    off && over && !missing
      ? say` (too much ${over.name}${index === null ? say`` : say`, index ${plain(indexText(index))}`})`
      : say``;
  const line = say`It is off by ${plain(percentText(errorPercentBefore))}${much}; ${tolerancePercent} % is allowed.${share}`;
  const effect = over === null || missing ? null : offRatioEffect(material, over);
  return off && verdict !== 'good' && effect !== null ? [line, say`As it is, ${effect}.`] : [line];
}
