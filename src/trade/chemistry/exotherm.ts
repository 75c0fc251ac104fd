import type { Part } from '../material.ts';

/** Heat of the reaction of one mole of epoxy groups with amine, in kilojoules: from 100 to 110, from memory. */
const KILOJOULES_PER_EQUIVALENT = { least: 100, most: 110 };
/** Heat capacity of an unfilled resin in joules per gram and kelvin, from memory. */
const JOULES_PER_GRAM_KELVIN = 2;

/** How much heat a mix gives off as it cures, and by how much it would warm itself if none of that could leave. */
export interface Exotherm {
  readonly joulesPerGram: { readonly least: number; readonly most: number };
  readonly kelvin: { readonly least: number; readonly most: number };
}

/**
 * The heat of an epoxy cured with amine, from the equivalents in the ratio as printed: the side that runs out first decides
 * how many moles of groups react. It is the most that can be, of a piece so thick that no heat leaves it; what a piece really
 * reaches depends on its thickness, and no law is known for that (see ASTM D2471: gel time and peak vary with the volume).
 * Null where the equivalents of both sides are not known, and for other chemistries.
 */
export function adiabaticExotherm(parts: readonly Pick<Part, 'weightShare' | 'equivalent'>[]): Exotherm | null {
  const equivalentsOf = (group: 'epoxy' | 'amine') =>
    parts.reduce(
      (sum, { weightShare, equivalent }) => (equivalent?.group === group ? sum + weightShare / equivalent.grams : sum),
      0,
    );
  const whole = parts.reduce((sum, { weightShare }) => sum + weightShare, 0);
  const reacting = Math.min(equivalentsOf('epoxy'), equivalentsOf('amine')) / whole;
  if (!(reacting > 0)) return null;
  const heat = (kilojoules: number) => kilojoules * 1000 * reacting;
  const { least, most } = KILOJOULES_PER_EQUIVALENT;
  const joulesPerGram = { least: heat(least), most: heat(most) };
  return {
    joulesPerGram,
    kelvin: { least: joulesPerGram.least / JOULES_PER_GRAM_KELVIN, most: joulesPerGram.most / JOULES_PER_GRAM_KELVIN },
  };
}
