import type { PlannedStep } from '../job/events.ts';
import type { JobState } from '../job/state.ts';
import { nextStep } from '../job/state.ts';
import { type Concern, type Contact, concernsOf } from '../trade/compatibility/concerns.ts';
import { NOT_ON_THE_LIVING } from '../trade/compatibility/living.ts';
import { surfaceOf } from '../trade/compatibility/surface.ts';
import type { Material } from '../trade/material.ts';
import { Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import type { Desk } from './desk.ts';

/** Refusal `living` where somebody's body, or an animal's, is named as the surface; null for all else. */
export const onLiving = (surface: string | undefined, example: string): Refusal | null =>
  surface !== undefined && surfaceOf(surface).living
    ? new Refusal('living', say`${NOT_ON_THE_LIVING} If it is a made thing, I expected what it is made of: “wooden hand”.`, {
        example,
      })
    : null;

type Laid = Pick<PlannedStep, 'id' | 'kind' | 'material'>;

interface Meeting {
  readonly step: string;
  readonly contact: Contact;
}

/**
 * What lies on what in a job: the first layer on the model, each coat on the one before, the shell on the last coat, and the
 * casting in the first layer. Materials that are not on the list any more, or not chosen yet, meet nothing.
 */
function meetingsOf(steps: readonly Laid[], surface: string | null, materials: readonly Material[]): Meeting[] {
  const meetings: Meeting[] = [];
  let [face, last]: (Laid | undefined)[] = [];
  const materialOf = (step: Laid | undefined) => materials.find(({ id }) => id === step?.material?.id);
  for (const step of steps) {
    const fresh = materialOf(step);
    const cast = step.kind === 'cast';
    if (!fresh || !(cast || step.kind === 'coat' || step.kind === 'shell')) continue;
    const under = materialOf(cast ? face : last);
    const built = !cast && (last === undefined || last.kind === step.kind);
    const contact = (): Contact | null => {
      if (under) return { on: built ? 'coat' : 'mould', fresh, under };
      return cast ? null : { on: 'surface', fresh, surface: surface === null ? null : surfaceOf(surface) };
    };
    const met = contact();
    if (met) meetings.push({ step: step.id, contact: met });
    if (cast) continue;
    face ??= step;
    last = step;
  }
  return meetings;
}

/** All that is to be minded on a job that begins. */
export const concernsOfJob = (
  job: Pick<JobState, 'surface'> & { steps: readonly Laid[] },
  desk: Pick<Desk, 'materials'>,
): Concern[] => concernsOf(meetingsOf(job.steps, job.surface, desk.materials).map(({ contact }) => contact));

/**
 * What is to be minded of the cup that is mixed now. `typed`: the surface that somebody named with it, which goes before the
 * job's. A job's own model was told of when it began, so nobody is asked for it again.
 */
export function concernsOfMix(
  fresh: Material,
  job: JobState | null,
  typed: string | null,
  desk: Pick<Desk, 'materials'>,
): Concern[] {
  const onTyped: Contact[] = typed === null ? [] : [{ on: 'surface', fresh, surface: surfaceOf(typed) }];
  const next = job ? nextStep(job) : null;
  if (job === null || next === null) return concernsOf(onTyped);
  // What is cast is often chosen only now.
  const steps = job.steps.map(({ plan }) => (plan === next.plan && plan.kind === 'cast' ? { ...plan, material: fresh } : plan));
  const met = meetingsOf(steps, job.surface, desk.materials).find(
    ({ step, contact }) => step === next.plan.id && contact.fresh.id === fresh.id,
  );
  const inJob = met && !(met.contact.on === 'surface' && typed !== null) ? [met.contact] : [];
  return concernsOf([...onTyped, ...inJob]).filter(({ kind }) => kind !== 'test-patch' || typed !== null);
}

/**
 * What is to be minded of a casting: against the face of the job's mould, its first layer, or against the named material of
 * the mould (`mould`), where one is known.
 */
export function concernsOfCast(
  fresh: Material,
  job: JobState | null,
  mould: Material | null,
  desk: Pick<Desk, 'materials'>,
): Concern[] {
  const face = job?.steps.find(({ plan }) => plan.kind === 'coat' && plan.material !== null)?.plan.material?.id;
  const under = mould ?? desk.materials.find(({ id }) => id === face);
  return under === undefined ? [] : concernsOf([{ on: 'mould', fresh, under }]);
}
