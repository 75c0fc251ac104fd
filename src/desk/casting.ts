import { type BenchState, openJobs } from '../bench/fold.ts';
import { MOST_BUTTONS } from '../chat/card.ts';
import { type JobState, nextStep } from '../job/state.ts';
import { powderAndWater, setPiece } from '../trade/gypsum/plaster.ts';
import { isCastable, isGypsum, type Material } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { joined, plain, quoted, say } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, line, type Typed } from './examples.ts';
import { type Asked, jobIfAny, job as jobNamed, materialFor, pick } from './resolve.ts';

const SIZES = ['water', 'volume', 'area', 'shape', 'model'];
const SAYS_HOW_MUCH = [...SIZES, 'job'];

/** A line that would work: with those options, and with what a mould holds where none of them says it. */
const castLine = (options: Typed): string => {
  const given = givenOf(options);
  return line('cast', { ...given, ...(SAYS_HOW_MUCH.some((name) => name in given) ? {} : { water: '412 g' }) });
};

/**
 * The job whose mould is cast: the named one; else the only open one, where its casting comes next or nothing else says how
 * much the mould holds; else, where none is open, the only finished one, since its mould is what castings come from. Null
 * where none is meant. Refusals: `unknown-job`, and `which-job` where nothing but one of several could say how much.
 */
export function castJob(state: BenchState, asked: Asked & { readonly options: Typed }): JobState | null | Refusal {
  const { job: named } = asked.options;
  const only = jobIfAny(state, named, asked);
  if (isRefusal(only)) return only;
  const sizeless = SIZES.every((name) => asked.options[name] === undefined);
  if (only) return named !== undefined || sizeless || nextStep(only)?.plan.kind === 'cast' ? only : null;
  const [first] = openJobs(state);
  const which = first && sizeless ? jobNamed(state, undefined, asked) : null;
  if (isRefusal(which)) return which;
  const finished = [...state.jobs.values()].filter(({ status }) => status === 'finished');
  if (first === undefined && finished.length > 1 && sizeless) return whichFinished(finished, asked);
  return (first === undefined && finished.length === 1 ? finished[0] : undefined) ?? null;
}

/** The last first: its mould is the one that somebody wants to see filled. */
function whichFinished(finished: readonly JobState[], { options, command }: Asked & { readonly options: Typed }): Refusal {
  const offered = finished.toReversed().slice(0, MOST_BUTTONS);
  const names = joined(
    offered.map(({ id }) => [quoted(id)]),
    ', ',
    ' or ',
  );
  return new Refusal(
    'which-job',
    say`From which mould? Finished are ${names}${plain(finished.length > offered.length ? ', and others' : '')}.`,
    {
      example: castLine({ ...options, job: offered[0]?.id }),
      ways: offered.map((job) => ({
        label: offered.filter(({ name }) => name === job.name).length === 1 && job.name.length <= 80 ? job.name : job.id,
        command,
        options: givenOf({ ...options, job: job.id }),
      })),
    },
  );
}

/** What is cast: the named material, else the job's, else the only one that there is. */
export function castingMaterial(desk: Desk, job: JobState | null, options: Typed): Material | Refusal {
  const lineOf = (id: string | undefined) => castLine({ ...options, material: id });
  const ofJob = job?.steps.find(({ plan }) => plan.kind === 'cast' && plan.material !== null)?.plan.material?.id;
  const fit = desk.materials.filter(isCastable);
  if (fit.length === 0) return nothingToCast();
  const typedId = options['material'] ?? (desk.materials.some(({ id }) => id === ofJob) ? ofJob : undefined);
  const found = materialFor(desk, 'casting', typedId);
  if (!isRefusal(found)) return found;
  if (found.code !== 'unknown-material') return again(found, { example: lineOf(fit[0]?.id) });
  return pick('material', typedId ?? '', fit, lineOf) as Refusal;
}

const nothingToCast = (): Refusal =>
  new Refusal(
    'no-casting',
    say`This studio’s list has no material with the use casting, so nothing can be cast. /material save gives the list as a file: add one there, and give it back with /material load.`,
    { example: '/material save' },
  );

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
  const parts = isGypsum(material) ? powderAndWater(material) : null;
  if (parts === null || isRefusal(parts)) return null;
  const powderGrams = (castingGrams * parts.powder.weightShare) / (parts.powder.weightShare + parts.water.weightShare);
  return setPiece(powderGrams, castingGrams - powderGrams).dryGrams;
}
