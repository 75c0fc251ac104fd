import type { Body } from '../trade/body/body.ts';
import { areaText, lengthText } from '../trade/measures/format-sizes.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say, strong, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';

/** Square metres. Less is no more than a drop, and more is a hall: a slip of the finger, or another unit. */
const [LEAST_AREA, MOST_AREA] = [1e-5, 1000];

/** Refusals: `area-too-small`, `area-absurd`; null where the size can be worked with. */
export function outOfRange(desk: Desk, { areaSquareMetres: area }: Body, example: string): Refusal | null {
  const text = plain(areaText(area, desk.studio.units));
  if (area < LEAST_AREA)
    return new Refusal('area-too-small', say`I expected at least 0.1 cm², and got ${text}. Check the unit.`, { example });
  if (area > MOST_AREA)
    return new Refusal('area-absurd', say`I expected at most ${MOST_AREA} m², and got ${text}. Check the unit.`, { example });
  return null;
}

/** Millimetres and square metres: what is larger is built in pieces, and seldom brushed. */
const [DOUBTED_LENGTH, DOUBTED_AREA] = [5000, 100];

/** The question that stands first on a card where a size may yet be right; none where it is an ordinary one. */
export function doubtsOf(desk: Desk, { longestMillimetres: longest, areaSquareMetres: area }: Body): Text[] {
  const { units } = desk.studio;
  if (longest !== null && longest > DOUBTED_LENGTH)
    return [say`${strong(plain(`${lengthText(longest, units)} across?`))} Check the unit.`];
  return area > DOUBTED_AREA ? [say`${strong(plain(`${areaText(area, units)} to cover?`))} Check the unit.`] : [];
}
