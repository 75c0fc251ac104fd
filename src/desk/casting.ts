import type { JobState } from '../job/state.ts';
import { powderAndWater, setPiece } from '../trade/gypsum/plaster.ts';
import type { Material } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, line, type Typed } from './examples.ts';
import { materialFor, pick } from './resolve.ts';

const SAYS_HOW_MUCH = ['water', 'volume', 'area', 'shape', 'model', 'job'];

/** A line that would work: with those options, and with what a mould holds where none of them says it. */
const castLine = (options: Typed): string => {
  const given = givenOf(options);
  return line('cast', { ...given, ...(SAYS_HOW_MUCH.some((name) => name in given) ? {} : { water: '412 g' }) });
};

/** What is cast: the named material, else the job's, else the only one that there is. */
export function castingMaterial(desk: Desk, job: JobState | null, options: Typed): Material | Refusal {
  const lineOf = (id: string | undefined) => castLine({ ...options, material: id });
  const ofJob = job?.steps.find(({ plan }) => plan.kind === 'cast' && plan.material !== null)?.plan.material?.id;
  const typedId = options['material'] ?? (desk.materials.some(({ id }) => id === ofJob) ? ofJob : undefined);
  const found = materialFor(desk, 'casting', typedId);
  if (!isRefusal(found)) return found;
  const fit = desk.materials.filter(({ use }) => use.includes('casting'));
  if (found.code !== 'unknown-material') return again(found, { example: lineOf(fit[0]?.id) });
  return pick('material', typedId ?? '', fit, lineOf) as Refusal;
}

/** The skin of the mould: the named material, else the one of the job's coats; null where neither is known. */
export function skinOf(desk: Desk, job: JobState | null, options: Typed): Material | null | Refusal {
  const { mould } = options;
  const lineOf = (id: string | undefined) => castLine({ ...options, mould: id });
  const fit = desk.materials.filter(({ use }) => use.some((each) => each !== 'casting'));
  if (mould !== undefined) {
    const found = pick('material', mould, desk.materials, lineOf);
    if (isRefusal(found) || fit.includes(found)) return found;
    return new Refusal('wrong-use', say`${found.name} is a material for castings, not for a mould.`, {
      example: lineOf(fit[0]?.id),
    });
  }
  const ofJob = job?.steps.findLast(({ plan }) => plan.kind === 'coat' && plan.material !== null)?.plan.material?.id;
  return desk.materials.find(({ id }) => id === ofJob) ?? null;
}

/** What a gypsum casting weighs once it is dry; null for what does not dry out. */
export function dryGramsOf(material: Material, castingGrams: number): number | null {
  const parts = material.family === 'gypsum' ? powderAndWater(material) : null;
  if (parts === null || isRefusal(parts)) return null;
  const powderGrams = (castingGrams * parts.powder.weightShare) / (parts.powder.weightShare + parts.water.weightShare);
  return setPiece(powderGrams, castingGrams - powderGrams).dryGrams;
}
