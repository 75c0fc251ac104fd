import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import type { MaterialToBuy, Shopping, Unknown } from '../job/shopping.ts';
import { isWater } from '../trade/gypsum/powder.ts';
import { arealWeightText, areaText, volumeText } from '../trade/measures/format-sizes.ts';
import { MILLILITRES_PER_US_GALLON } from '../trade/measures/units.ts';
import { onStep } from '../trade/mixing/ratio.ts';
import { code, joined, plain, say, strong, type Text } from '../words/text.ts';
import { amountOf } from './layer-warnings.ts';
import { mass } from './words.ts';

export interface ShoppingView {
  readonly shopping: Shopping;
  readonly studio: Studio;
}

/** A title of more materials is read by nobody; all of them stand below it. */
const MOST_IN_TITLE = 3;

/** What to buy, the materials first; then what goes with them, what nobody can tell, and whose it is. */
export function shoppingCard(view: ShoppingView): Card {
  const { jobs, materials, unknown } = view.shopping;
  const whose = jobs.length === 1 ? say`${jobs[0] ?? ''}` : say`${jobs.length} jobs`;
  const needs = materials.map((each) => say`${mass(bought(each, view.studio), view.studio)} of ${each.name}`);
  const more = needs.length - MOST_IN_TITLE;
  const first = more > 0 ? [...needs.slice(0, MOST_IN_TITLE), say`${more} more`] : needs;
  const title =
    materials.length > 0
      ? say`Shopping for ${whose}: ${joined(first, ', ', more > 0 ? ' and ' : ', ')}`
      : unknown.length > 0
        ? say`Shopping for ${whose}: no amount can be told yet`
        : say`${whose}: nothing more to mix`;
  return card(
    title,
    [
      ...materials.map((each) => partsLine(each, view)),
      ...coatingLine(view),
      ...matLines(view),
      ...cupLines(view),
      ...unknownLines(view),
      ...jobLines(view),
      ...(materials.length === 0
        ? []
        : [say`For the steps to come, waste counted, rounded up; what is on your shelf is not taken off.`]),
    ],
    { data: { shopping: view.shopping }, aside: true },
  );
}

/** What is to be mixed in all, in one line: as it is weighed out, not as it is bought. None where no size was given. */
export const takesLine = ({ shopping, studio }: ShoppingView): Text[] =>
  shopping.materials.length === 0
    ? []
    : [
        say`Takes ${joined(
          shopping.materials.map((each) => amountOf({ grams: each.grams, material: each }, studio)),
          ', ',
        )}.`,
      ];

/** A number for a shopping list may be so much larger than what is needed, so that it is a short one. */
const NICE = 0.02;

/** No less than `amount`, in the largest tenfold of `step` that adds no more than `NICE`. */
function upTo(amount: number, step: number): number {
  let nice = step;
  while (nice * 10 <= amount * NICE) nice *= 10;
  return onStep(Math.ceil(amount / nice - 1e-9) * Math.round(nice / step), step);
}

const grams = (amount: number, { scale }: Studio) => upTo(amount, scale.stepGrams);

/** What comes out of the tap is not bought. The parts as they are shown add up to it. */
function bought({ parts, ...all }: Pick<MaterialToBuy, 'parts' | 'grams'>, studio: Studio): number {
  const dry = parts.filter(({ part }) => !isWater({ name: part }));
  return dry.length === 0 ? grams(all.grams, studio) : dry.reduce((sum, part) => sum + grams(part.grams, studio), 0);
}

/** "Brush-on urethane rubber: A 760 g, B 850 g." */
function partsLine(material: MaterialToBuy, { studio }: ShoppingView): Text {
  const { name, parts } = material;
  if (parts.length === 0)
    return say`${name}: ${strong(mass(bought(material, studio), studio))}; it is no longer in the list, so look up how much of each part.`;
  const each = (wet: boolean) =>
    joined(
      parts
        .filter(({ part }) => isWater({ name: part }) === wet)
        .map((part) => say`${part.part} ${strong(mass(grams(part.grams, studio), studio))}`),
      ', ',
    );
  const water = each(true);
  return say`${name}: ${each(false)}${water.length === 0 ? say`` : say`; and from the tap, ${water}`}.`;
}

const FLUID_OUNCE = MILLILITRES_PER_US_GALLON / 128;

/** Nobody measures what is brushed on finer than that; it is a guess. */
function brushedOn(millilitres: number, { units }: Studio): number {
  if (units === 'metric') return upTo(millilitres, millilitres < 100 ? 1 : 10);
  const step = millilitres <= 16 * FLUID_OUNCE ? 1 : 4;
  return Math.ceil(millilitres / FLUID_OUNCE / step - 1e-9) * step * FLUID_OUNCE;
}

/** "About 40 mL of sealer, 24 mL of release and 24 mL of wax, in two thin coats." */
function coatingLine({ shopping: { release }, studio }: ShoppingView): Text[] {
  const sized = release.flatMap(({ what, millilitres }) =>
    millilitres === null
      ? []
      : [say`${strong(plain(volumeText(brushedOn(millilitres, studio), studio.units)))} of ${plain(what)}`],
  );
  const unsized = names([...new Set(release.flatMap((each) => each.unsized))]);
  const left = unsized.length === 0 ? say`` : say` ${unsized} not counted: no size was given.`;
  if (sized.length > 0) return [say`About ${joined(sized, ', ', ' and ')}, in two thin coats.${left}`];
  const what = release.map((each) => [plain(each.what)]);
  return what.length === 0 ? [] : [say`Also ${joined(what, ', ', ' and ')}; how much is not known, no size was given.`];
}

const names = (all: readonly string[]): Text =>
  joined(
    all.map((name) => say`${name}`),
    ', ',
    ' and ',
  );

const matLines = ({ shopping: { mats }, studio }: ShoppingView): Text[] =>
  mats.map(({ unbound, squareMetres, gramsPerSquareMetre, grams: weight }) => {
    const area = plain(areaText(Math.ceil(squareMetres * 10) / 10, studio.units));
    const heavy = mass(grams(weight, studio), studio);
    const made = plain(unbound ? ', stitched or unbound since an epoxy dissolves no binder' : '');
    return say`Glass mat${made}: ${strong(area)} of ${plain(arealWeightText(gramsPerSquareMetre, studio.units))}, ${heavy} with off-cuts. ${code('/laminate')} plans the layers.`;
  });

function cupLines({ shopping: { cups, cupsUnsure }, studio }: ShoppingView): Text[] {
  if (cups.length === 0) return [];
  const sizes = cups.map(({ millilitres, count }) =>
    millilitres === null
      ? say`${count} of a size that nobody can tell`
      : say`${count} of ${plain(volumeText(millilitres, studio.units))}`,
  );
  const unsure = names(cupsUnsure);
  return [
    say`Cups: ${joined(sizes, ', ')}.`,
    ...(cupsUnsure.length === 0
      ? []
      : [say`${unsure} may need smaller cups, and more, to be laid in time: ${code('/cups')} plans them.`]),
  ];
}

const WHY: Readonly<Record<Unknown['why'], (material: Text) => Text>> = {
  'no-material': () => say`no material is chosen yet`,
  'no-size': (material) => say`how much ${material} is not known, no size was given`,
  'no-density': (material) => say`how much ${material} is not known, its size or its densities do not tell`,
  casting: (material) => say`how much ${material} the mould holds, ${code('/cast')} says`,
};

/** Steps of one job that lack the same are one line. */
function unknownLines({ shopping: { unknown } }: ShoppingView): Text[] {
  const key = ({ job, name, why }: Unknown) => JSON.stringify([job, name, why]);
  return [...new Set(unknown.map(key))].flatMap((each) => {
    const same = unknown.filter((one) => key(one) === each);
    const [first] = same;
    if (!first) return [];
    const steps = same.length === 1 ? say`${first.step}` : say`${first.step} and ${same.length - 1} more`;
    return [say`${steps}, ${first.job}: ${WHY[first.why](say`${first.name ?? ''}`)}.`];
  });
}

/** "Owl: 880 g of X, 2100 g of Y." */
function jobLines({ shopping: { jobs, materials }, studio }: ShoppingView): Text[] {
  if (jobs.length < 2) return [];
  return jobs.flatMap((job) => {
    const its = materials.flatMap(({ name, grams: all, parts, jobs: shares }) =>
      shares
        .filter((each) => each.job === job)
        .map((each) => {
          const share = parts.map((part) => ({ ...part, grams: (part.grams * each.grams) / all }));
          return say`${mass(bought({ grams: each.grams, parts: share }, studio), studio)} of ${name}`;
        }),
    );
    return its.length === 0 ? [] : [say`${strong(say`${job}`)}: ${joined(its, ', ')}.`];
  });
}
