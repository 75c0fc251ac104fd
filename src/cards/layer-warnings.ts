import type { Studio } from '../bench/studio.ts';
import type { Split } from '../job/laid-out.ts';
import type { Body } from '../trade/body/body.ts';
import type { CoverageLayer, LayerRole } from '../trade/cover/coverage.ts';
import { percentText } from '../trade/measures/format.ts';
import { lengthText } from '../trade/measures/format-sizes.ts';
import { plain, say, strong, type Text } from '../words/text.ts';
import { aboutMass } from './weigh-out.ts';
import { mass, roundTo } from './words.ts';

export const TITLES: Readonly<Record<LayerRole, string>> = { detail: 'Detail', skin: 'Skin', shell: 'Shell' };

/** A weight that nobody weighs out: two or three digits of it. */
export const about = (grams: number, studio: Studio) =>
  aboutMass(roundTo(grams, grams < 100 ? 1 : grams < 1000 ? 10 : 100), studio);

/** From here on nobody weighs the whole of it at once. */
const HEAVY_GRAMS = 10_000;

/** What a layer takes: as the scale shows it, but of what is weighed out in many cups three digits. */
export const amount = (grams: number, studio: Studio) => (grams < HEAVY_GRAMS ? mass(grams, studio) : about(grams, studio));

/** So much of a material. */
export interface Amount {
  readonly grams: number;
  readonly material: { readonly name: string };
}

/** "1590 g of X", "about 12.3 kg of X". */
export const amountOf = ({ grams, material }: Amount, studio: Studio): Text =>
  say`${plain(grams < HEAVY_GRAMS ? '' : 'about ')}${strong(amount(grams, studio))} of ${material.name}`;

export const unknownBlockLine = (material: string | undefined): Text[] =>
  material === undefined
    ? []
    : [
        say`How much a poured block takes is the box less the model. Give a shape or a model; or mix the litres of that: ${plain('/mix')} material:${material} amount:3 L.`,
      ];

/** Where the amounts are none to rely on, since nobody can weigh them. */
export const coarseLine = ({ scaleTooCoarse, material }: CoverageLayer, studio: Studio): Text[] =>
  scaleTooCoarse
    ? [
        say`⚠ In steps of ${mass(studio.scale.stepGrams, studio)} no cup of ${material.name} can be weighed true: take a finer scale.`,
      ]
    : [];

interface Steep {
  /** Null where no size is known. */
  readonly body: Body | null;
  readonly studio: Studio;
}

/** "Skin in 6 coats, not the recipe’s 4: 1.5 mm is the most in one." As many coats in other proportions are no news. */
export const splitLines = (splits: readonly Split[], { body, studio }: Steep): Text[] =>
  splits
    .filter(({ ruled, coats }) => coats > ruled)
    .map(({ role, ruled, coats, limit }) => {
      const most = plain(lengthText(limit.millimetres, studio.units));
      const why =
        limit.by === 'most'
          ? say`${most} is the most in one`
          : say`${plain(percentText(Math.round(body?.steepPercent ?? 0)))} is steep, where no more than ${most} holds`;
      return say`${plain(TITLES[role === 'detail' ? 'detail' : 'skin'])} in ${coats} coats, not the recipe’s ${ruled}: ${why}.`;
    });

export function runsLine({ role, runs, coatsMillimetres, material }: CoverageLayer, { body, studio }: Steep): Text[] {
  if (runs === null) return [];
  const [coat, holds] = [Math.max(...coatsMillimetres), runs.holdsMillimetres].map((each) =>
    plain(lengthText(each, studio.units)),
  );
  const share = plain(percentText(Math.round(body?.steepPercent ?? 0)));
  return [
    say`⚠ ${plain(TITLES[role])}: ${share} is steep, and ${coat ?? ''} of ${material.name} runs from ${Math.floor(runs.fromDegrees)}° on; upright it holds ${holds ?? ''}. Thicken it, or go thinner there.`,
  ];
}
