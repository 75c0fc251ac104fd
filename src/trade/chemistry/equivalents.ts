import type { Part, ReactingGroup } from '../material.ts';

/** What the chemistry needs to know of a part; `weightShare` is its share in the ratio by weight. */
type Reacting = Pick<Part, 'weightShare' | 'equivalent'>;

/**
 * The chemistry behind a mixing ratio. An equivalent weight is grams of a part for each mole of its reacting groups: molar
 * mass over the number of epoxy groups, of hydrogens on amine nitrogen, of isocyanate groups or of hydroxyls.
 */

/** Which groups harden which: isocyanates harden polyols and amines, amines harden epoxies. */
const HARDENS: readonly (readonly [hardening: ReactingGroup, hardened: readonly ReactingGroup[]])[] = [
  ['isocyanate', ['polyol', 'amine']],
  ['amine', ['epoxy']],
];

/** Tells the hardening parts from the others; null where the equivalents do not name both sides, or name a third. */
function sidesOf(parts: readonly Reacting[]): { hardens(part: Reacting): boolean } | null {
  const groups = new Set(parts.flatMap(({ equivalent }) => equivalent?.group ?? []));
  for (const [hardening, hardened] of HARDENS) {
    const others = [...groups].filter((group) => group !== hardening);
    if (groups.has(hardening) && others.length > 0 && others.every((group) => hardened.includes(group)))
      return { hardens: ({ equivalent }) => equivalent?.group === hardening };
  }
  return null;
}

/**
 * The index of a pour: equivalents that harden over equivalents that are hardened, 1 where they balance; for isocyanates as
 * ASTM D7997-15, 3.2.4 has it, and for amine on epoxy alike. `grams` are in the order of the parts. Null where the
 * equivalents are not known, and where one of the sides is missing from the cup.
 */
export function indexOf(parts: readonly Reacting[], grams: readonly number[]): number | null {
  const sides = sidesOf(parts);
  if (sides === null) return null;
  let [hardening, hardened] = [0, 0];
  for (const [i, part] of parts.entries()) {
    if (part.equivalent === null) continue;
    const equivalents = (grams[i] ?? 0) / part.equivalent.grams;
    if (sides.hardens(part)) hardening += equivalents;
    else hardened += equivalents;
  }
  return hardening > 0 && hardened > 0 ? hardening / hardened : null;
}

export interface Stoichiometry {
  /** The index of the ratio as printed. */
  readonly printedIndex: number;
  /** The ratio by weight at which the index is 1: the hardening parts' shares changed, the others' as printed. */
  readonly shares: readonly number[];
  /** Grams of what hardens to 100 g of what is hardened, at index 1. */
  readonly partsPerHundred: number;
}

/** What a material's equivalents say of its ratio; null where they are not known. */
export function stoichiometryOf(parts: readonly Reacting[]): Stoichiometry | null {
  const sides = sidesOf(parts);
  const printed = parts.map(({ weightShare }) => weightShare);
  const index = indexOf(parts, printed);
  if (sides === null || index === null) return null;
  const shares = parts.map((part, i) => (printed[i] ?? 0) / (sides.hardens(part) ? index : 1));
  const sum = (hardening: boolean) =>
    shares.reduce((total, share, i) => {
      const part = parts[i];
      return part?.equivalent && sides.hardens(part) === hardening ? total + share : total;
    }, 0);
  return {
    printedIndex: index,
    shares,
    partsPerHundred: (100 * sum(true)) / sum(false),
  };
}

/**
 * An equivalent weight as data sheets print it. Isocyanates: percent of isocyanate groups, of 42.02 g/mol. Polyols: hydroxyl
 * value in mg KOH/g, potassium hydroxide being 56.1 g/mol (Polyurethane Manufacturers Association, library, §5). Null for
 * the others, of which the equivalent weight itself is printed.
 */
export function printedAs({ grams, group }: NonNullable<Part['equivalent']>): number | null {
  if (group === 'isocyanate') return 4202 / grams;
  return group === 'polyol' ? 56_100 / grams : null;
}
