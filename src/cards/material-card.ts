import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { minutesText } from '../trade/format.ts';
import type { Material } from '../trade/material.ts';
import { smallestBatchGrams } from '../trade/mix.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { mass, millimetresText } from './words.ts';

export const ratioText = (material: Material): string =>
  `${material.parts.map((part) => part.weightShare).join(':')} by weight (${material.parts.map((part) => part.name).join(':')})`;

const until = (minutes: number | null) => (minutes === null ? say`` : say` to ${plain(minutesText(minutes))}`);

/** One line of the list. */
export const materialLine = (material: Material): Text =>
  say`${strong(say`${material.id}`)}: ${material.name}, for ${plain(material.use.join(', '))}; pot life ${plain(minutesText(material.potLifeMinutes))}`;

/** All that is known of a material. */
export function materialCard(material: Material, studio: Studio): Card {
  const volumes = material.parts.every((part) => part.volumeShare !== null)
    ? `; ${material.parts.map((part) => Number((part.volumeShare ?? 0).toPrecision(4))).join(':')} by volume`
    : '';
  const { recoat, usable, coat, reference } = material;
  const lines: Text[] = [
    say`${plain(ratioText(material))}${plain(volumes)}, ${material.tolerancePercent} % off is forgiven.`,
    say`Pot life ${strong(plain(minutesText(material.potLifeMinutes)))} at ${reference.celsius} °C${reference.massGrams === null ? say`` : say`, ${reference.massGrams} g in the cup`}.`,
    ...(recoat
      ? [say`Next coat from ${plain(minutesText(recoat.fromMinutes))}${until(recoat.untilMinutes)} after the last.`]
      : []),
    ...(material.demouldMinutes === null
      ? []
      : [say`Cured enough to go on after ${plain(minutesText(material.demouldMinutes))}.`]),
    ...(coat
      ? [
          say`One coat is ${plain(millimetresText(coat.thicknessMillimetres))}${coat.mostMillimetres === null ? say`` : say`, ${plain(millimetresText(coat.mostMillimetres))} at most`}.`,
        ]
      : []),
    ...(usable ? [say`To be used at ${usable.fromCelsius} to ${usable.untilCelsius} °C.`] : []),
    say`Smallest batch on this studio’s scale ${mass(smallestBatchGrams(material, studio.scale.stepGrams), studio)}${material.mostGrams === null ? say`` : say`, largest ${mass(material.mostGrams, studio)}`}.`,
    ...(material.inhibitedBy.length > 0
      ? [
          say`Kept from curing by ${joined(
            material.inhibitedBy.map((each) => say`${each}`),
            ', ',
          )}.`,
        ]
      : []),
    ...hazardLines(material, material.hazards),
    say`Source: ${material.source}`,
  ];
  return card(say`${material.name} (${material.id})`, lines, { data: { material }, aside: true });
}
