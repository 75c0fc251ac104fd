import type { MissedChoice, PlannedStep, TackResult } from './events.ts';

/** One job as its events have left it. */
export interface JobState {
  readonly id: string;
  readonly name: string;
  readonly recipe: { readonly id: string; readonly name: string; readonly version: number | null };
  readonly areaSquareMetres: number | null;
  /** Of the model: what a casting from the mould will hold; null where only an area was given, or nothing. */
  readonly volumeLitres: number | null;
  /** What the model is of, in somebody's own words. */
  readonly surface: string | null;
  readonly startedAt: number;
  /** Where it follows a plan: when its first step is to begin, and when it is to be ready. */
  readonly planned: { readonly beginsAt: number; readonly readyBy: number | null } | null;
  readonly enteredAt: number;
  readonly holder: string;
  readonly status: 'active' | 'held' | 'finished' | 'closed';
  readonly heldFor: string | null;
  /** When it was last told that the job is taken up again, after a hold. */
  readonly resumedAt: number | null;
  readonly steps: readonly StepState[];
  readonly notes: readonly Remark[];
  /** What did not go by the recipe: a step too early, a missed window and what was decided. */
  readonly deviations: readonly Remark[];
  /** The number of the last event in which somebody told something of this job: what answers a ping. */
  readonly touchedSeq: number;
}

export interface StepState {
  readonly plan: PlannedStep;
  readonly done: Mark | null;
  /** The cups that were poured for it: since when, and until when hands are then taken to be at work. None discarded. */
  readonly poured: readonly { readonly at: number; readonly until: number }[];
  /** The last tack check since it was done. */
  readonly check: (Mark & { readonly result: TackResult }) | null;
  /** What was decided when its own window had been missed; it may then go on whenever it suits. */
  readonly decision: (Mark & { readonly choice: MissedChoice }) | null;
}

/** Who did something, when it happened, when it was told, and the number of the event that says so. */
export interface Mark {
  readonly at: number;
  readonly enteredAt: number;
  readonly by: string;
  readonly seq: number;
}

export interface Remark {
  readonly at: number;
  readonly by: string;
  readonly text: string;
}

/** Index of the step that comes next, or the number of steps when all are done. */
export function nextIndex(job: JobState): number {
  const index = job.steps.findIndex((step) => step.done === null);
  return index === -1 ? job.steps.length : index;
}

export const nextStep = (job: JobState): StepState | null => job.steps[nextIndex(job)] ?? null;
export const isOpen = (job: JobState): boolean => job.status === 'active' || job.status === 'held';
