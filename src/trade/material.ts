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
  /** Pot lives that the data sheet gives for other masses, at the reference temperature; the smallest mass first. */
  readonly potLifeByMass: readonly { readonly massGrams: number; readonly potLifeMinutes: number }[];
  readonly recoat: { readonly fromMinutes: number; readonly untilMinutes: number | null } | null;
  readonly demouldMinutes: number | null;
  /** How the speed of cure follows temperature; null where the data sheet does not say. */
  readonly cure: CureLaw | null;
  readonly usable: { readonly fromCelsius: number; readonly untilCelsius: number } | null;
  readonly coat: { readonly thicknessMillimetres: number; readonly mostMillimetres: number | null } | null;
  /** Linear, from the mould to the casting when it is taken out. */
  readonly shrinkagePercent: number | null;
  /** Linear, from then on (ISO 2577 calls it post-shrinkage). */
  readonly postShrinkagePercent: number | null;
  /** Linear growth while setting, of gypsum. */
  readonly expansionPercent: number | null;
  /** The stress, in pascal, below which the fresh mix does not flow: what holds it on a wall. */
  readonly yieldPascals: number | null;
  /** The highest temperature that it reaches by its own heat, in a layer or casting of the usual size. */
  readonly peakCelsius: number | null;
  /** The highest temperature that it stands once it is cured. */
  readonly standsCelsius: number | null;
  /** Its catalyst where that may vary within limits, in percent of the weight of the main part; null where the ratio is fixed. */
  readonly catalyst: Catalyst | null;
  readonly price: Price | null;
  /** Largest batch, in grams. */
  readonly mostGrams: number | null;
  readonly additives: readonly Additive[];
  readonly hazards: readonly Hazard[];
  /** What keeps it from curing where it touches it, in plain words: sulphur, amines, tin, latex, moisture. */
  readonly inhibitedBy: readonly string[];
  /** What its own surface gives off that may keep another from curing, in the same words. */
  readonly leaves: readonly string[];
  /** Families that it bonds to without a release, and those that it lets go of by itself; where neither says, the trade's usual. */
  readonly release: { readonly needed: readonly Family[]; readonly notNeeded: readonly Family[] };
  readonly source: string;
}

/** What is cast in a mould. */
export const isCastable = ({ use }: Pick<Material, 'use'>): boolean => use.includes('casting');
export const isGypsum = ({ family }: Pick<Material, 'family'>): boolean => family === 'gypsum';
/** Above this, in pascal-seconds, nothing wets out a fibre. Common practice, no source. */
const PASTE_PASCAL_SECONDS = 20;
export const isPaste = ({ parts }: Pick<Material, 'parts'>): boolean =>
  parts.every(({ pascalSeconds }) => (pascalSeconds ?? 0) > PASTE_PASCAL_SECONDS);
/** What wets out mats and cloth. */
export const isLaminatingResin = ({ family, use, parts }: Pick<Material, 'family' | 'use' | 'parts'>): boolean =>
  use.includes('shell') && (family === 'epoxy' || family === 'polyester') && !isPaste({ parts });

export const SHELL_KINDS = ['paste', 'laminate', 'plaster'] as const;
/** How a shell is built. */
export type ShellKind = (typeof SHELL_KINDS)[number];
/** How a shell of it is built. */
export const shellKindOf = (material: Pick<Material, 'family' | 'use' | 'parts'>): ShellKind =>
  isGypsum(material) ? 'plaster' : isLaminatingResin(material) ? 'laminate' : 'paste';

export interface Part {
  readonly name: string;
  /** Share in the ratio by weight, as printed (90 in 90:100). Always there: worked out from the volumes if it was left out. */
  readonly weightShare: number;
  /** Share in the ratio by volume; null where neither it nor the densities were given. */
  readonly volumeShare: number | null;
  readonly gramsPerMillilitre: number | null;
  readonly pascalSeconds: number | null;
  /** Grams for each mole of reacting groups, and which groups these are; null where the data sheet does not say. */
  readonly equivalent: { readonly grams: number; readonly group: ReactingGroup } | null;
}

export const REACTING_GROUPS = ['epoxy', 'amine', 'isocyanate', 'polyol'] as const;
export type ReactingGroup = (typeof REACTING_GROUPS)[number];

/** A part whose share may be chosen: peroxide in a resin. */
export interface Catalyst {
  readonly part: string;
  readonly leastPercent: number;
  readonly mostPercent: number;
}

/** What a kilogram costs; the currency is its ISO 4217 code. */
export interface Price {
  readonly perKilogram: number;
  readonly currency: string;
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
