/** What a mould maker knows of a material. Everything is in the unit that its name gives. */
export interface Material {
  readonly id: string;
  readonly name: string;
  readonly family: Family;
  readonly use: readonly Use[];
  /** As declared; the pour order is worked out by the mix. */
  readonly parts: readonly Part[];
  /** Order in which to pour, where the trade does not go by thickness (gypsum: powder into water). */
  readonly pourOrder: readonly string[] | null;
  /** How far off its ratio, in percent, the material still cures as it should. */
  readonly tolerancePercent: number;
  /** The conditions at which the data sheet's times hold. */
  readonly reference: { readonly celsius: number; readonly massGrams: number | null };
  readonly potLifeMinutes: number;
  readonly recoat: { readonly fromMinutes: number; readonly untilMinutes: number | null } | null;
  readonly demouldMinutes: number | null;
  /** How the speed of cure follows temperature; null where the data sheet does not say. */
  readonly cure: CureLaw | null;
  readonly usable: { readonly fromCelsius: number; readonly untilCelsius: number } | null;
  readonly coat: { readonly thicknessMillimetres: number; readonly mostMillimetres: number | null } | null;
  readonly shrinkagePercent: number | null;
  /** Largest batch, in grams. */
  readonly mostGrams: number | null;
  readonly additives: readonly Additive[];
  readonly hazards: readonly Hazard[];
  readonly inhibitedBy: readonly string[];
  readonly source: string;
}

export interface Part {
  readonly name: string;
  /** Share in the ratio by weight, as printed (90 in 90:100). Always there: worked out from the volumes if it was left out. */
  readonly weightShare: number;
  /** Share in the ratio by volume; null where neither it nor the densities were given. */
  readonly volumeShare: number | null;
  readonly gramsPerMillilitre: number | null;
  readonly pascalSeconds: number | null;
}

/** Something stirred in beside the parts, within limits: a catalyst, a thickener, a pigment. */
export interface Additive {
  readonly name: string;
  /** The part whose weight its percentage refers to. */
  readonly of: string;
  readonly leastPercent: number;
  readonly mostPercent: number;
  readonly usualPercent: number | null;
}

export type CureLaw =
  | { readonly law: 'q10'; readonly q10: number }
  | { readonly law: 'arrhenius'; readonly joulesPerMole: number };

export const FAMILIES = ['urethane', 'silicone-tin', 'silicone-platinum', 'epoxy', 'polyester', 'gypsum', 'other'] as const;
export type Family = (typeof FAMILIES)[number];

export const USES = ['detail', 'skin', 'shell', 'casting'] as const;
export type Use = (typeof USES)[number];

export const HAZARDS = [
  'isocyanate',
  'amine',
  'epoxy',
  'peroxide',
  'styrene',
  'tin-catalyst',
  'dust',
  'hot-plaster',
  'flammable',
] as const;
export type Hazard = (typeof HAZARDS)[number];
