import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Material } from '../material.ts';
import { percentText } from '../measures/format.ts';
import { mainPart } from './parts.ts';

/** The main part beside the catalyst: what its percentage refers to. */
const carrierOf = (material: Material) =>
  mainPart({ ...material, parts: material.parts.filter(({ name }) => name !== material.catalyst?.part) });

/** The catalyst of a cup, in percent of the weight of the main part; null for a fixed ratio, or where either is missing. */
export function catalystPercent(material: Material, grams: readonly number[]): number | null {
  const { catalyst, parts } = material;
  const carrier = carrierOf(material);
  if (catalyst === null || carrier === undefined) return null;
  const of = (name: string) => grams[parts.findIndex((part) => part.name === name)] ?? 0;
  return of(catalyst.part) > 0 && of(carrier.name) > 0 ? (100 * of(catalyst.part)) / of(carrier.name) : null;
}

/** The catalyst of the ratio as printed, in percent; null for a fixed ratio. */
export const printedCatalystPercent = (material: Material): number | null =>
  catalystPercent(
    material,
    material.parts.map(({ weightShare }) => weightShare),
  );

/** Whether a share of catalyst is one that the material may be given. */
export const catalystFits = ({ catalyst }: Material, percent: number): boolean =>
  catalyst !== null && percent >= catalyst.leastPercent - 1e-9 && percent <= catalyst.mostPercent + 1e-9;

/** "1 to 2 %". */
export const catalystRange = ({ leastPercent, mostPercent }: NonNullable<Material['catalyst']>): string =>
  `${percentText(leastPercent).replace(' %', '')} to ${percentText(mostPercent)}`;

/**
 * The material with `percent` of its catalyst, by weight of the main part. Refusals: `ratio-fixed` where its ratio may not
 * be changed, and `catalyst-out-of-range`, whose example is the limit that is nearer.
 */
export function withCatalyst(material: Material, percent: number): Material | Refusal {
  const { catalyst } = material;
  const carrier = carrierOf(material);
  if (catalyst === null || carrier === undefined) {
    const message = say`The ratio of ${material.name} is fixed: more or less of a part makes it no faster or slower, but spoils it. I expected no catalyst, and got ${plain(percentText(percent))}.`;
    return new Refusal('ratio-fixed', message);
  }
  if (!catalystFits(material, percent)) {
    const message = say`I expected ${plain(catalystRange(catalyst))} of ${catalyst.part} for ${material.name}, and got ${plain(`${Number(percent.toPrecision(4))} %`)}.`;
    const near = percent < catalyst.leastPercent ? catalyst.leastPercent : catalyst.mostPercent;
    return new Refusal('catalyst-out-of-range', message, { example: `${near} %` });
  }
  const weightShare = (carrier.weightShare * percent) / 100;
  const scaled = (volumeShare: number | null, was: number) => (volumeShare === null ? null : (volumeShare * weightShare) / was);
  return {
    ...material,
    parts: material.parts.map((part) =>
      part.name === catalyst.part ? { ...part, weightShare, volumeShare: scaled(part.volumeShare, part.weightShare) } : part,
    ),
  };
}

/** The part that is stirred in last, after all that thickens or colours: the catalyst, by its entry or by its name; else undefined. */
export const lastPart = ({ catalyst, parts }: Material): Material['parts'][number] | undefined =>
  parts.find(({ name }) => name === catalyst?.part) ?? parts.find(({ name }) => /catalyst|peroxide|initiator/i.test(name));

/** Whether a peroxide is among what is mixed. */
export const hasPeroxide = ({ family, hazards }: Pick<Material, 'family' | 'hazards'>): boolean =>
  family === 'polyester' || hazards.includes('peroxide');
