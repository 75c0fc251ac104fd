import type { JobEvent } from './events.ts';
import type { JobState, Mark, StepState } from './state.ts';

/** An event with its number in the channel's log: the number names it for good. */
export type Numbered<E> = E & { readonly seq: number };

const markOf = ({ at, enteredAt, by, seq }: Numbered<JobEvent>): Mark => ({ at, enteredAt, by, seq });

const pending = (step: StepState): StepState => ({ ...step, done: null, poured: [], check: null });

/** `job` after `event`; a job begins with its `JobStarted`. */
export function evolve(job: JobState | undefined, event: Numbered<JobEvent>): JobState | undefined {
  if (event.type === 'JobStarted')
    return {
      id: event.job,
      name: event.name,
      recipe: event.recipe,
      areaSquareMetres: event.areaSquareMetres,
      volumeLitres: event.volumeLitres,
      surface: event.surface,
      startedAt: event.at,
      planned: event.planned,
      enteredAt: event.enteredAt,
      holder: event.holder,
      status: 'active',
      heldFor: null,
      resumedAt: null,
      steps: event.steps.map((plan) => ({ plan, done: null, poured: [], check: null, decision: null })),
      notes: [],
      deviations: [],
      touchedSeq: event.seq,
    };
  return job && { ...changed(job, event), touchedSeq: event.seq };
}

function changed(job: JobState, event: Exclude<Numbered<JobEvent>, { type: 'JobStarted' }>): JobState {
  const remark = (text: string) => ({ at: event.at, by: event.by, text });
  switch (event.type) {
    case 'StepDone': {
      const steps = withStep(job, event.step, (step) => ({ ...step, done: markOf(event), check: null }));
      const title = titleOf(job, event.step);
      return {
        ...job,
        steps,
        status: steps.every((step) => step.done) ? 'finished' : job.status,
        notes: event.note === null ? job.notes : [...job.notes, remark(`${title}: ${event.note}`)],
        deviations:
          event.offPlan === null ? job.deviations : [...job.deviations, remark(`${title} logged before its window opened`)],
      };
    }
    case 'TackChecked':
      return {
        ...job,
        steps: withStep(job, event.step, (step) => ({ ...step, check: { ...markOf(event), result: event.result } })),
      };
    case 'MissedWindowDecided': {
      const index = job.steps.findIndex((step) => step.plan.id === event.step);
      const decision = { ...markOf(event), choice: event.choice };
      // Scrapping takes off the coat that cured too far: the one before the step whose window was missed.
      const redone = event.choice === 'scrap' ? Math.max(0, index - 1) : index;
      return {
        ...job,
        steps: job.steps.map((step, at) =>
          // A cup that was poured for the missed step went nowhere: it must not count as begun when its turn comes again.
          at === redone ? { ...pending(step), decision } : at === index ? pending(step) : step,
        ),
        deviations: [
          ...job.deviations,
          remark(
            event.choice === 'abrade'
              ? `${titleOf(job, event.step)} missed its window: abraded, and on`
              : `${titleOf(job, job.steps[redone]?.plan.id ?? '')} scrapped after a missed window`,
          ),
        ],
      };
    }
    case 'JobPlanned':
      return { ...job, planned: { beginsAt: event.beginsAt, readyBy: event.readyBy } };
    case 'HandsAsked':
      return job;
    case 'NoteAdded':
      return { ...job, notes: [...job.notes, remark(event.text)] };
    case 'JobHeld':
      return { ...job, status: 'held', heldFor: event.reason };
    case 'JobResumed':
      return { ...job, status: 'active', heldFor: null, resumedAt: event.enteredAt };
    case 'JobClosed':
      return { ...job, status: 'closed', notes: event.text === null ? job.notes : [...job.notes, remark(event.text)] };
  }
}

const withStep = (job: JobState, id: string, change: (step: StepState) => StepState) =>
  job.steps.map((step) => (step.plan.id === id ? change(step) : step));

const titleOf = (job: JobState, id: string): string => job.steps.find((step) => step.plan.id === id)?.plan.title ?? id;
