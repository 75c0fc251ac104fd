/**
 * The chemistry behind a mixing ratio, for whoever has equivalent weights instead of a ratio. Weights are in grams per
 * equivalent of reacting groups.
 */

/** Amine hydrogen equivalent weight: the molar mass over the number of hydrogens on amine nitrogen. */
export const amineHydrogenEquivalent = (gramsPerMole: number, amineHydrogens: number): number => gramsPerMole / amineHydrogens;

/** Parts of amine per hundred of epoxy resin: 100 times the amine hydrogen equivalent over the epoxy equivalent weight. */
export const aminePhr = (amineHydrogenGrams: number, epoxyGrams: number): number => (100 * amineHydrogenGrams) / epoxyGrams;

/** Percent of isocyanate groups from the equivalent weight, and back: the group weighs 42.02 g/mol. */
export const isocyanatePercent = (equivalentGrams: number): number => 4202 / equivalentGrams;
export const isocyanateEquivalent = (percent: number): number => 4202 / percent;

/** Equivalent weight of a polyol from its hydroxyl value in mg KOH/g; potassium hydroxide weighs 56.1 g/mol. */
export const polyolEquivalent = (hydroxylValue: number): number => 56_100 / hydroxylValue;

/** Isocyanate index: isocyanate equivalents over those of the resin blend (ASTM D7997-15, 3.2.4). */
export const isocyanateIndex = (isocyanateEquivalents: number, resinEquivalents: number): number =>
  isocyanateEquivalents / resinEquivalents;
