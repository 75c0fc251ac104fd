import { named } from '../../words/nearest.ts';
import { Refusal } from '../../words/refusal.ts';
import { joined, quoted, say } from '../../words/text.ts';
import { isWater } from '../gypsum/powder.ts';
import { isGypsum, type Material, type Part } from '../material.ts';

/** The part that `typed` names, whatever its case; "part A" is A too. Refusal: `unknown-part`, naming the parts there are. */
export function partNamed(material: Material, typed: string): Part | Refusal {
  const names = material.parts.map((part) => part.name);
  const name = named(typed, names) ?? named(typed.replace(/^\s*(?:the )?(?:part|component)\s+/i, ''), names);
  const part = material.parts.find((one) => one.name === name);
  if (part) return part;
  const known = joined(
    names.map((one) => [quoted(one)]),
    ', ',
    ' and ',
  );
  const example = names[0] === undefined ? {} : { example: `150 g of ${names[0]}` };
  return new Refusal('unknown-part', say`${material.name} has no part “${typed}”; its parts are ${known}.`, example);
}

/**
 * The parts in the order in which to pour: as the material says, else water before the powder that is sifted into it, else
 * thickest first, unknown thickness after, as declared.
 */
export function pourOrder(material: Material): Part[] {
  const order = material.pourOrder ?? (isGypsum(material) ? material.parts.filter(isWater).map(({ name }) => name) : null);
  const place = (part: Part) => {
    const index = order?.findIndex((name) => name.toLowerCase() === part.name.toLowerCase()) ?? -1;
    return index < 0 ? Number.MAX_SAFE_INTEGER : index;
  };
  const byThickness = (a: Part, b: Part) => (b.pascalSeconds ?? -1) - (a.pascalSeconds ?? -1);
  return [...material.parts].sort((a, b) => (order ? place(a) - place(b) : byThickness(a, b)));
}

/** The part with the largest share by weight, the first of them where several have it: what parts per hundred refer to. */
export const mainPart = (material: Material): Part | undefined =>
  material.parts.reduce<Part | undefined>(
    (most, part) => (most && most.weightShare >= part.weightShare ? most : part),
    undefined,
  );

/** Density of the mix in g/mL by volume additivity, Σw / Σ(w/ρ); null where a part's density is not known. */
export function mixedDensity(material: Material): number | null {
  let [grams, millilitres] = [0, 0];
  for (const { weightShare, gramsPerMillilitre } of material.parts) {
    if (gramsPerMillilitre === null) return null;
    grams += weightShare;
    millilitres += weightShare / gramsPerMillilitre;
  }
  return grams / millilitres;
}

/** The ratio by volume, as printed, else from the weights and densities; null where it cannot be known. */
export function volumeShares(material: Material): number[] | null {
  const printed = material.parts.map((part) => part.volumeShare);
  const known = (shares: (number | null)[]): shares is number[] => !shares.includes(null);
  if (known(printed)) return printed;
  const derived = material.parts.map(({ weightShare, gramsPerMillilitre: density }) =>
    density === null ? null : weightShare / density,
  );
  return known(derived) ? derived : null;
}
