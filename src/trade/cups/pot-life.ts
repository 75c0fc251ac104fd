import type { Material } from '../material.ts';

/** A pot life at the data sheet's temperature, and how it comes from what the data sheet gives. */
export interface PotLife {
  readonly minutes: number;
  /** The mass that it is the value of; null where the data sheet names none. */
  readonly massGrams: number | null;
  /**
   * `sheet`: given for just this mass. `between`: read between the two nearest that are given. `held`: given for one mass
   * only, which is not this one. `smallest`, `largest`: this mass lies outside of all that are given, and it is the nearest.
   */
  readonly how: 'sheet' | 'between' | 'held' | 'smallest' | 'largest';
}

type Sheet = Pick<Material, 'potLifeMinutes' | 'potLifeByMass' | 'reference'>;

/**
 * The pot life of a cup of `grams` (null: nobody said how much), in minutes at the data sheet's temperature. A larger mass
 * keeps more of its own heat and goes off sooner, which is why ASTM D2471 (withdrawn in 2008) stores the volume with each gel
 * time. How much sooner no general law says, so only what the data sheet gives is used: between two of its masses a straight
 * line, which is our choice; beyond them, or where there is one, the nearest value as it stands.
 */
export function potLifeOf({ potLifeMinutes, potLifeByMass, reference }: Sheet, grams: number | null): PotLife {
  const { massGrams } = reference;
  const points = [...(massGrams === null ? [] : [{ massGrams, potLifeMinutes }]), ...potLifeByMass].sort(
    (one, other) => one.massGrams - other.massGrams,
  );
  const [smallest] = points;
  const largest = points.at(-1);
  if (grams === null || !smallest || !largest) return { minutes: potLifeMinutes, massGrams, how: 'sheet' };
  const at = (point: typeof smallest, how: PotLife['how']): PotLife => ({
    minutes: point.potLifeMinutes,
    massGrams: point.massGrams,
    how,
  });
  const given = points.find((point) => point.massGrams === grams);
  if (given) return at(given, 'sheet');
  if (points.length === 1) return at(smallest, 'held');
  if (grams < smallest.massGrams) return at(smallest, 'smallest');
  if (grams > largest.massGrams) return at(largest, 'largest');
  const above = points.find((point) => point.massGrams > grams) ?? largest;
  const below = points.findLast((point) => point.massGrams < grams) ?? smallest;
  const along = (grams - below.massGrams) / (above.massGrams - below.massGrams);
  const minutes = below.potLifeMinutes + along * (above.potLifeMinutes - below.potLifeMinutes);
  return { minutes, massGrams: grams, how: 'between' };
}
