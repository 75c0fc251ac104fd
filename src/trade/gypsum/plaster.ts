import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import type { Material, Part } from '../material.ts';
import { densityMissing } from '../mixing/limits.ts';
import type { PlasterAsk } from './asked.ts';
import { SET_GRAMS_PER_MILLILITRE, WATER_TAKEN_UP } from './chemistry.ts';
import { isWater } from './powder.ts';

/** What a gypsum is mixed of. */
export interface PowderAndWater {
  readonly powder: Part;
  readonly water: Part;
}

/** Refusal `not-powder-and-water`: it has other parts than a powder and water, so its water has no ratio of its own. */
export function powderAndWater(material: Material): PowderAndWater | Refusal {
  const water = material.parts.find(isWater);
  const powder = material.parts.find((part) => part !== water);
  if (water && powder && material.parts.length === 2) return { powder, water };
  return new Refusal(
    'not-powder-and-water',
    say`${material.name} is not mixed of a powder and water alone; I expected it to be mixed as its ratio says.`,
  );
}

/** The gypsum's own ratio: parts of water by weight to 100 of powder. */
export const ownWater = ({ powder, water }: PowderAndWater): number => (100 * water.weightShare) / powder.weightShare;

/** The same gypsum, mixed with that much water to 100 of powder, which goes into the water. */
export const withWater = (material: Material, { powder, water }: PowderAndWater, waterPerHundred: number): Material => ({
  ...material,
  pourOrder: [water.name, powder.name],
  parts: material.parts.map((part) => ({ ...part, weightShare: part === powder ? 100 : waterPerHundred, volumeShare: null })),
});

/** Millilitres of slurry: the solid's volume and the water's, since the heap's air is gone; null without both densities. */
export function slurryMillilitres(powderGrams: number, waterGrams: number, { powder, water }: PowderAndWater): number | null {
  if (powder.gramsPerMillilitre === null || water.gramsPerMillilitre === null) return null;
  return powderGrams / powder.gramsPerMillilitre + waterGrams / water.gramsPerMillilitre;
}

/**
 * The powder, in grams, that ends up in the piece that was asked for. A dry weight is powder and the water that it takes up.
 * Refusal: `density-missing`, where a volume is asked for.
 */
export function powderFor(ask: PlasterAsk, waterPerHundred: number, material: Material, parts: PowderAndWater): number | Refusal {
  const water = waterPerHundred / 100;
  switch (ask.of) {
    case 'mould': {
      const each = slurryMillilitres(1, water, parts);
      return each === null ? densityMissing(material) : ask.millilitres / each;
    }
    case 'powder':
      return ask.grams;
    case 'water':
      return ask.grams / water;
    case 'mix':
      return ask.grams / (1 + water);
    case 'dry':
      return ask.grams / (1 + WATER_TAKEN_UP);
  }
}

/** What becomes of powder and water, in grams. */
export interface SetPiece {
  /** When it has just set: nothing has left it yet. */
  readonly wetGrams: number;
  /** Water that is part of the gypsum from then on. */
  readonly hydrationGrams: number;
  /** When it has dried until its weight stays the same. */
  readonly dryGrams: number;
  /** Water that has to dry out for that. */
  readonly evaporatesGrams: number;
}

/** The mass balance of setting and drying; `waterGrams` must be enough to set all of the powder. */
export function setPiece(powderGrams: number, waterGrams: number): SetPiece {
  const hydrationGrams = powderGrams * WATER_TAKEN_UP;
  return {
    wetGrams: powderGrams + waterGrams,
    hydrationGrams,
    dryGrams: powderGrams + hydrationGrams,
    evaporatesGrams: waterGrams - hydrationGrams,
  };
}

/** Share of a dry piece that is air, in percent, where it keeps the volume of its slurry: what it can drink. */
export const poresPercent = (dryGrams: number, millilitres: number): number =>
  (1 - dryGrams / SET_GRAMS_PER_MILLILITRE / millilitres) * 100;
