import type { BenchState } from '../bench/fold.ts';
import { type JobState, nextStep } from '../job/state.ts';
import type { Material } from '../trade/material.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { type Asked, job as jobNamed, material as materialNamed } from './resolve.ts';

/** How a command asks for its material. */
interface Asking extends Asked {
  readonly desk: Desk;
  /** What was typed. */
  readonly material: string | undefined;
  /** A whole line with that material. */
  readonly lineOf: (id: string) => string;
  /** Shown where nothing says which it is. */
  readonly example: string;
  readonly question?: Text;
}

/** What the next step of a job takes, by its id. */
export const nextMaterialId = (job: JobState | null): string | undefined => (job ? nextStep(job)?.plan.material?.id : undefined);

/**
 * The named material, else what the job's next step takes. Refusals: `unknown-material`, `which-job` where one of several jobs
 * must be meant, and `material-missing`.
 */
export function materialOrNext(state: BenchState, job: JobState | null, asking: Asking): Material | Refusal {
  const id = asking.material ?? nextMaterialId(job);
  if (id !== undefined) return materialNamed(asking.desk, id, asking.lineOf);
  const which = job === null ? jobNamed(state, undefined, asking) : null;
  if (isRefusal(which) && which.code === 'which-job') return which;
  const { question = say`Which material? No job on this bench says what comes next.`, example } = asking;
  return new Refusal('material-missing', question, { example });
}
