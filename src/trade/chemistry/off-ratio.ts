import { plain, say, type Text } from '../../words/text.ts';
import type { Material, Part, ReactingGroup } from '../material.ts';

/** What a part does in its material, as far as it can be told. */
type Role = ReactingGroup | 'catalyst' | 'water' | 'powder' | null;

/** By its equivalent where the entry gives one, else by what the trade calls it. */
function roleOf({ family, parts, catalyst }: Material, part: Part): Role {
  if (part.equivalent) return part.equivalent.group;
  const name = part.name.toLowerCase();
  const called = (words: RegExp) => words.test(name);
  switch (family) {
    case 'urethane':
      return called(/iso|nco|mdi|tdi/) ? 'isocyanate' : called(/polyol|resin/) ? 'polyol' : null;
    case 'epoxy':
      return called(/harden|amine|curing/) ? 'amine' : called(/resin|epoxy|base/) ? 'epoxy' : null;
    case 'silicone-tin':
    case 'polyester': {
      if (catalyst?.part === part.name || called(/catalyst|hardener|peroxide|tin/)) return 'catalyst';
      const least = Math.min(...parts.map(({ weightShare }) => weightShare));
      return part.weightShare === least && parts.length === 2 ? 'catalyst' : null;
    }
    case 'gypsum':
      if (called(/water/)) return 'water';
      if (called(/powder|plaster|gypsum|stone/)) return 'powder';
      // Gypsum is far denser than water, whatever the two are called.
      return part.gramsPerMillilitre === null ? null : part.gramsPerMillilitre > 1.5 ? 'powder' : 'water';
    default:
      return null;
  }
}

const ISOCYANATE_OVER = 'turns hard and brittle, and foams with any damp';
const POLYOL_OVER = 'stays soft, tacky and weak';
const AMINE_OVER = 'turns soft, blushes and takes up water';
const EPOXY_OVER = 'stays tacky or brittle, and never turns hard';
const CATALYST_SHORT = 'cures late, or stays tacky for ever';

/**
 * What becomes of a mix with too much of one part (`over`), or with either where which part does what is not known: "it
 * stays soft, tacky and weak". Null for families of which nothing general can be said. Common practice, no source.
 */
export function offRatioEffect(material: Material, over: Part): Text | null {
  const role = roleOf(material, over);
  const short = material.parts.length === 2 ? roleOf(material, material.parts.find((part) => part !== over) ?? over) : null;
  const effect = effectOf(material.family, role, short);
  return effect === null ? null : say`${plain(effect)}`;
}

function effectOf(family: Material['family'], over: Role, short: Role): string | null {
  switch (family) {
    case 'urethane':
      if (over === 'isocyanate' || short === 'polyol') return `it ${ISOCYANATE_OVER}`;
      if (over === 'polyol' || over === 'amine' || short === 'isocyanate') return `it ${POLYOL_OVER}`;
      return `with too much isocyanate it ${ISOCYANATE_OVER}; with too little it ${POLYOL_OVER}`;
    case 'epoxy':
      if (over === 'amine' || short === 'epoxy') return `it ${AMINE_OVER}`;
      if (over === 'epoxy' || short === 'amine') return `it ${EPOXY_OVER}`;
      return `with too much hardener it ${AMINE_OVER}; with too little it ${EPOXY_OVER}`;
    case 'silicone-tin':
      if (over === 'catalyst') return 'it sets sooner, shrinks more and turns brittle with time';
      return short === 'catalyst' ? `it ${CATALYST_SHORT}` : null;
    case 'silicone-platinum':
      return 'it stays soft or tacky, or turns hard and tears';
    case 'polyester':
      if (over === 'catalyst') return 'it gets hot, shrinks and cracks';
      return short === 'catalyst' ? `it ${CATALYST_SHORT}` : null;
    case 'gypsum':
      if (over === 'water' || short === 'powder') return 'it turns out weaker and more porous';
      return over === 'powder' || short === 'water' ? 'it is stiff to pour, traps air and sets sooner' : null;
    default:
      return null;
  }
}

/** The part of which there is most too much; null where the cup is on its ratio. `grams`: in the order of the material's parts. */
export function overPoured({ parts }: Material, grams: readonly number[]): Part | null {
  const fills = parts.map(({ weightShare }, i) => (grams[i] ?? 0) / weightShare);
  const [least, most] = [Math.min(...fills), Math.max(...fills)];
  return most - least <= 1e-9 * most ? null : (parts[fills.indexOf(most)] ?? null);
}
