import type { Family, Material } from '../material.ts';

const isSilicone = (family: Family) => family === 'silicone-tin' || family === 'silicone-platinum';

/**
 * Whether a fresh mix must be kept from bonding to what it lies on. Silicone bonds to silicone alone, and nothing else to
 * silicone; gypsum lets go of silicone and locks into anything else; urethane, epoxy and polyester bond to anything else.
 * Null for a family of which nothing general can be said. Common practice, no source.
 */
export function usualRelease(fresh: Family, under: Family): 'needed' | 'not-needed' | null {
  if (fresh === 'other' || under === 'other') return null;
  return isSilicone(fresh) === isSilicone(under) ? 'needed' : 'not-needed';
}

type Releasing = Pick<Material, 'family' | 'release'>;

/** The same of two materials: what their entries say goes before the usual rule, and needed before not needed. */
export function releaseBetween(fresh: Releasing, under: Releasing): 'needed' | 'not-needed' | null {
  const listed = (which: 'needed' | 'notNeeded') =>
    fresh.release[which].includes(under.family) || under.release[which].includes(fresh.family);
  if (listed('needed')) return 'needed';
  return listed('notNeeded') ? 'not-needed' : usualRelease(fresh.family, under.family);
}

/** Whether a coat bonds to a coat of another family under it. Common practice, no source. */
export function coatsBond(fresh: Family, under: Family): boolean {
  if (fresh === under) return true;
  if (fresh === 'other' || under === 'other') return true;
  if (isSilicone(fresh) || isSilicone(under)) return isSilicone(fresh) && isSilicone(under);
  if (fresh === 'gypsum' || under === 'gypsum') return false;
  // Fresh polyester is kept from curing by the amines of an epoxy; epoxy on polyester holds.
  return !(fresh === 'polyester' && under === 'epoxy');
}
