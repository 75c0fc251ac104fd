import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { printedAs, stoichiometryOf } from '../trade/chemistry/equivalents.ts';
import { adiabaticExotherm } from '../trade/chemistry/exotherm.ts';
import type { Material, Part } from '../trade/material.ts';
import { aboutText, minutesText, percentText, temperatureText } from '../trade/measures/format.ts';
import { lengthText } from '../trade/measures/format-sizes.ts';
import { catalystRange, printedCatalystPercent } from '../trade/mixing/catalyst.ts';
import { smallestBatchGrams } from '../trade/mixing/mix.ts';
import { ratioError } from '../trade/mixing/ratio.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { hazardLines } from './hazards.ts';
import { indexText } from './off-ratio.ts';
import { rangeText } from './usable.ts';
import { mass } from './words.ts';

export const ratioText = (material: Material): string =>
  `${material.parts.map((part) => part.weightShare).join(':')} by weight (${material.parts.map((part) => part.name).join(':')})`;

const until = (minutes: number | null) => (minutes === null ? say`` : say` to ${plain(minutesText(minutes))}`);

/** One line of the list. */
export const materialLine = (material: Material): Text =>
  say`${strong(say`${material.id}`)}: ${material.name}, for ${plain(material.use.join(', '))}; pot life ${plain(minutesText(material.potLifeMinutes))}`;

const GROUPS = { epoxy: 'epoxy', amine: 'amine hydrogen', isocyanate: 'isocyanate', polyol: 'hydroxyl' } as const;

/** "A isocyanate 420 g/eq (10 % NCO)". */
function equivalentText({ name, equivalent }: Part): Text[] {
  if (equivalent === null) return [];
  const printed = printedAs(equivalent);
  const as =
    printed === null
      ? ''
      : equivalent.group === 'isocyanate'
        ? ` (${percentText(printed)} NCO)`
        : ` (${Math.round(printed)} mg KOH/g)`;
  return [
    say`${name}: ${Number(equivalent.grams.toPrecision(4))} g for each mole of ${plain(GROUPS[equivalent.group])}${plain(as)}`,
  ];
}

/** What the equivalents say of the ratio: nothing where there are none. */
function chemistryLines(material: Material): Text[] {
  const chemistry = stoichiometryOf(material.parts);
  if (chemistry === null) return [];
  const { parts, tolerancePercent } = material;
  const printed = parts.map(({ weightShare }) => weightShare);
  const short = (share: number) => Number(share.toPrecision(3));
  const balanced = plain(chemistry.shares.map(short).join(':'));
  const phr = plain(`${short(chemistry.partsPerHundred)} phr`);
  const index = plain(indexText(chemistry.printedIndex));
  const agree = ratioError(printed, chemistry.shares) <= tolerancePercent;
  return [
    joined(
      parts.flatMap((part) => equivalentText(part).map((each) => [...each])),
      '; ',
    ),
    agree
      ? say`They give ${balanced} by weight, ${phr}; as printed the index is ${index}.`
      : say`${strong(say`They give ${balanced} by weight`)}, ${phr}; as printed the index is ${index}, further off than is forgiven. The sheet’s ratio goes first: ask its maker which is right.`,
  ];
}

/** All that is known of a material. */
export function materialCard(material: Material, studio: Studio): Card {
  const volumes = material.parts.every((part) => part.volumeShare !== null)
    ? `; ${material.parts.map((part) => Number((part.volumeShare ?? 0).toPrecision(4))).join(':')} by volume`
    : '';
  const { recoat, usable, coat, reference } = material;
  const { units, scale } = studio;
  // As the sheet prints it, not as the scale could show it.
  const sheetMass = (grams: number) => plain(aboutText(grams, units, scale.stepGrams));
  const lines: Text[] = [
    say`${plain(ratioText(material))}${plain(volumes)}, ${material.tolerancePercent} % off is forgiven.`,
    ...(material.catalyst === null
      ? []
      : [
          say`${material.catalyst.part} may be ${plain(catalystRange(material.catalyst))}, ${plain(percentText(printedCatalystPercent(material) ?? 0))} as printed: more in the cold, less in the warm, never beyond (/mix catalyst:${plain(percentText(material.catalyst.mostPercent))}).`,
        ]),
    ...chemistryLines(material),
    say`Pot life ${strong(plain(minutesText(material.potLifeMinutes)))} at ${plain(temperatureText(reference.celsius, units))}${reference.massGrams === null ? say`` : say`, ${sheetMass(reference.massGrams)} in the cup`}.`,
    ...(recoat
      ? [say`Next coat from ${plain(minutesText(recoat.fromMinutes))}${until(recoat.untilMinutes)} after the last.`]
      : []),
    ...(material.demouldMinutes === null
      ? []
      : [say`Cured enough to go on after ${plain(minutesText(material.demouldMinutes))}.`]),
    ...(coat
      ? [
          say`One coat is ${plain(lengthText(coat.thicknessMillimetres, units))}${coat.mostMillimetres === null ? say`` : say`, ${plain(lengthText(coat.mostMillimetres, units))} at most`}.`,
        ]
      : []),
    ...(usable ? [say`To be used at ${plain(rangeText(usable, units))}.`] : []),
    say`Smallest batch on this studio’s scale ${mass(smallestBatchGrams(material, studio.scale.stepGrams), studio)}${material.mostGrams === null ? say`` : say`, largest ${sheetMass(material.mostGrams)}`}.`,
    ...(material.inhibitedBy.length > 0
      ? [
          say`It cures badly where there is ${joined(
            material.inhibitedBy.map((each) => say`${each}`),
            ', ',
            ' or ',
          )}.`,
        ]
      : []),
    ...(material.leaves.length > 0
      ? [
          say`May leave ${joined(
            material.leaves.map((each) => say`${each}`),
            ', ',
          )} on what touches it.`,
        ]
      : []),
    ...heatLine(material, studio),
    ...exothermLine(material, studio),
    ...hazardLines(material, material.hazards),
    say`Source: ${material.source}`,
  ];
  return card(say`${material.name} (${material.id})`, lines, { data: { material }, aside: true });
}

/** Why a thick piece of it must not be poured at once. */
function exothermLine({ parts }: Material, { units }: Studio): Text[] {
  const most = adiabaticExotherm(parts)?.kelvin.most;
  if (most === undefined) return [];
  const degrees = Math.round(most / 10) * 10;
  const warmer = units === 'metric' ? `${degrees} °C` : `${Math.round((degrees * 9) / 50) * 10} °F (${degrees} °C)`;
  return [say`Thick, it heats itself: by up to ${plain(warmer)} where no heat can leave. Pour thin, in small cups.`];
}

function heatLine({ peakCelsius, standsCelsius }: Material, { units }: Studio): Text[] {
  const peak = peakCelsius === null ? [] : [say`heats itself to ${plain(temperatureText(peakCelsius, units))} while it sets`];
  const stands = standsCelsius === null ? [] : [say`stands ${plain(temperatureText(standsCelsius, units))} when it is cured`];
  const both = [...peak, ...stands];
  return both.length === 0 ? [] : [say`It ${joined(both, ', and ')}.`];
}
