import type { Material } from '../../trade/material.ts';
import type { Kind } from './document.ts';
import { list, strict } from './fields.ts';
import { materialChecks } from './material-checks.ts';
import { type Entry, EXAMPLE, entry } from './material-entry.ts';

/** What a material forgives where its entry does not say, in percent. */
export const USUAL_TOLERANCE = 2;

/** A right entry as a domain value: the share that was left out is worked out from the densities. */
function toMaterial({ parts, ratio, reference, recoat, cure, usable, coat, ...entry }: Entry): Material {
  const [first] = parts;
  const known = parts.every(({ density }) => density !== undefined);
  const grams = (name: string, density = Number.NaN) => ratio.weight?.get(name) ?? Number(ratio.volume?.get(name)) * density;
  const millilitres = (name: string, density = Number.NaN) => grams(name, density) / density;
  /** Derived shares keep the first part's share at the ratio that was given: 1 for volume, as printed for weight. */
  const perFirst = first ? millilitres(first.part, first.density) : 1;
  return {
    id: entry.id,
    name: entry.name,
    family: entry.family,
    use: entry.use,
    parts: parts.map(({ part, density, viscosity, equivalent, group }) => ({
      name: part,
      weightShare: grams(part, density),
      volumeShare: ratio.volume?.get(part) ?? (known ? millilitres(part, density) / perFirst : null),
      gramsPerMillilitre: density ?? null,
      pascalSeconds: viscosity ?? null,
      equivalent: equivalent !== undefined && group !== undefined ? { grams: equivalent, group } : null,
    })),
    pourOrder: entry.pourOrder ?? null,
    tolerancePercent: entry.tolerance ?? USUAL_TOLERANCE,
    reference: { celsius: reference.temperature, massGrams: reference.mass ?? null },
    potLifeMinutes: entry.potLife,
    potLifeByMass: (entry.potLifeByMass ?? [])
      .map((point) => ({ massGrams: point.mass, potLifeMinutes: point.potLife }))
      .sort((a, b) => a.massGrams - b.massGrams),
    recoat: recoat ? { fromMinutes: recoat.from, untilMinutes: recoat.until ?? null } : null,
    demouldMinutes: entry.demould ?? null,
    cure: !cure
      ? null
      : cure.law === 'q10'
        ? { law: 'q10', q10: Number(cure.q10) }
        : { law: 'arrhenius', joulesPerMole: Number(cure.activationEnergy) },
    usable: usable ? { fromCelsius: usable.from, untilCelsius: usable.until } : null,
    coat: coat ? { thicknessMillimetres: coat.thickness, mostMillimetres: coat.most ?? null } : null,
    shrinkagePercent: entry.shrinkage ?? null,
    postShrinkagePercent: entry.postShrinkage ?? null,
    expansionPercent: entry.expansion ?? null,
    yieldPascals: entry.yieldStress ?? null,
    peakCelsius: entry.peak ?? null,
    standsCelsius: entry.stands ?? null,
    catalyst: entry.catalyst
      ? { part: entry.catalyst.part, leastPercent: entry.catalyst.least, mostPercent: entry.catalyst.most }
      : null,
    price: entry.price ?? null,
    mostGrams: entry.most ?? null,
    additives: (entry.additives ?? []).map(({ name, of, least, most, usual }) => ({
      name,
      of,
      leastPercent: least,
      mostPercent: most,
      usualPercent: usual ?? null,
    })),
    hazards: entry.hazards ?? [],
    inhibitedBy: entry.inhibitedBy ?? [],
    leaves: entry.leaves ?? [],
    release: { needed: entry.release?.needed ?? [], notNeeded: entry.release?.notNeeded ?? [] },
    source: entry.source,
  };
}

/** materials.yaml, as in the design, §8.4. */
export const materialsFile: Kind<Material[]> = {
  schema: strict({ materials: list(entry.check(...materialChecks).transform(toMaterial), 1) }).transform(
    ({ materials }) => materials,
  ),
  example: EXAMPLE,
  short: 'materials: [ { id: skin-x, name: An example rubber, … } ]',
  unique: ['materials'],
};
