import type { JobEvent } from '../job/events.ts';
import { evolve as evolveJob, type Numbered } from '../job/fold.ts';
import { isOpen, type JobState, nextStep, type StepState } from '../job/state.ts';
import type { Speed, TemperatureRecord } from '../trade/cure.ts';
import type { BenchEvent } from './events.ts';

/** One bench as its events have left it. */
export interface BenchState {
  readonly jobs: ReadonlyMap<string, JobState>;
  readonly cups: ReadonlyMap<string, CupState>;
  readonly temperatures: TemperatureRecord;
  readonly humidityPercent: number | null;
  /** A handover that waits to be taken. */
  readonly offer: Offer | null;
  /** When each ping went out. */
  readonly sent: ReadonlyMap<string, number>;
  readonly snoozes: readonly Snooze[];
}

/** One mixed batch. */
export interface CupState {
  readonly id: string;
  readonly material: { readonly id: string; readonly name: string };
  readonly grams: number | null;
  readonly potLifeMinutes: number;
  readonly speed: Speed | null;
  readonly job: string | null;
  /** The step of the job that it was poured for. */
  readonly step: string | null;
  readonly startedAt: number;
  readonly by: string;
  readonly ended: 'spent' | 'discarded' | null;
}

export interface Offer {
  readonly from: string;
  readonly to: readonly string[];
  readonly jobs: readonly string[];
  readonly note: string | null;
  readonly at: number;
  readonly seq: number;
}

export interface Snooze {
  readonly ping: string;
  readonly until: number;
  readonly seq: number;
}

export type NumberedEvent = Numbered<BenchEvent>;

export const EMPTY: BenchState = {
  jobs: new Map(),
  cups: new Map(),
  temperatures: [],
  humidityPercent: null,
  offer: null,
  sent: new Map(),
  snoozes: [],
};

/**
 * The state that a whole log leads to. What was undone counts as never having been told; that a ping went out remains.
 */
export function fold(log: readonly NumberedEvent[]): BenchState {
  const undone = undoneIn(log);
  return log.reduce((state, event) => (undone.has(event.seq) ? state : evolve(state, event)), EMPTY);
}

export const undoneIn = (log: readonly NumberedEvent[]): ReadonlySet<number> =>
  new Set(log.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));

export function evolve(state: BenchState, event: NumberedEvent): BenchState {
  switch (event.type) {
    case 'CupStarted':
      return withJob({ ...state, cups: new Map(state.cups).set(event.cup, cupOf(event)) }, event.job, (job) => ({
        ...job,
        touchedAt: event.enteredAt,
        steps: job.steps.map((step) => (step.plan.id === event.step ? { ...step, begunAt: step.begunAt ?? event.at } : step)),
      }));
    case 'CupEnded': {
      const cup = state.cups.get(event.cup);
      if (!cup) return state;
      const cups = new Map(state.cups).set(event.cup, { ...cup, ended: event.how });
      return withJob({ ...state, cups }, cup.job, (job) => ({
        ...job,
        touchedAt: event.enteredAt,
        steps: event.how === 'discarded' ? job.steps.map((step) => withoutCup(step, cup, cups)) : job.steps,
      }));
    }
    case 'HandoverOffered':
      return {
        ...state,
        offer: { from: event.by, to: event.to, jobs: event.jobs, note: event.note, at: event.enteredAt, seq: event.seq },
      };
    case 'HandoverTaken': {
      const jobs = new Map(state.jobs);
      for (const id of event.jobs) {
        const job = jobs.get(id);
        if (job) jobs.set(id, { ...job, holder: event.by, touchedAt: event.enteredAt });
      }
      const left = state.offer?.jobs.filter((id) => !event.jobs.includes(id) && jobs.get(id)?.holder !== event.by) ?? [];
      return { ...state, jobs, offer: state.offer && left.length > 0 ? { ...state.offer, jobs: left } : null };
    }
    case 'TemperatureRead':
      return {
        ...state,
        temperatures: [...state.temperatures, { at: event.at, celsius: event.celsius }].sort((a, b) => a.at - b.at),
        humidityPercent: event.humidityPercent ?? state.humidityPercent,
      };
    case 'PingSnoozed':
      return { ...state, snoozes: [...state.snoozes, { ping: event.ping, until: event.until, seq: event.seq }] };
    case 'PingSent':
      return state.sent.has(event.ping) ? state : { ...state, sent: new Map(state.sent).set(event.ping, event.enteredAt) };
    case 'CautionShown':
    case 'Undone':
      return state;
    default: {
      const job = evolveJob(state.jobs.get(event.job), event satisfies JobEvent);
      if (!job) return state;
      const cups = event.type === 'StepDone' ? usedUp(state.cups, event.job, event.step) : state.cups;
      return { ...state, cups, jobs: new Map(state.jobs).set(event.job, job) };
    }
  }
}

/** A step that is done has used up the cups that were poured for it: nobody wants to hear of their pot life any more. */
function usedUp(cups: BenchState['cups'], job: string, step: string): BenchState['cups'] {
  const used = [...cups.values()].filter((cup) => cup.ended === null && cup.job === job && cup.step === step);
  return used.length === 0
    ? cups
    : new Map([...cups, ...used.map((cup) => [cup.id, { ...cup, ended: 'spent' as const }] as const)]);
}

const cupOf = (event: Extract<NumberedEvent, { type: 'CupStarted' }>): CupState => ({
  id: event.cup,
  material: event.material,
  grams: event.grams,
  potLifeMinutes: event.potLifeMinutes,
  speed: event.speed,
  job: event.job,
  step: event.step,
  startedAt: event.at,
  by: event.by,
  ended: null,
});

/** A step that only a discarded cup had begun has not been begun; one that has another cup was begun by that one. */
function withoutCup(step: StepState, gone: CupState, cups: ReadonlyMap<string, CupState>): StepState {
  if (step.done || step.plan.id !== gone.step || step.begunAt !== gone.startedAt) return step;
  const others = [...cups.values()].filter(
    (cup) => cup.job === gone.job && cup.step === gone.step && cup.ended !== 'discarded' && cup.startedAt >= gone.startedAt,
  );
  return { ...step, begunAt: others.length > 0 ? Math.min(...others.map((cup) => cup.startedAt)) : null };
}

function withJob(state: BenchState, id: string | null, change: (job: JobState) => JobState): BenchState {
  const job = id === null ? undefined : state.jobs.get(id);
  return job ? { ...state, jobs: new Map(state.jobs).set(job.id, change(job)) } : state;
}

export const openJobs = (state: BenchState): JobState[] => [...state.jobs.values()].filter(isOpen);
export const openCups = (state: BenchState): CupState[] => [...state.cups.values()].filter((cup) => cup.ended === null);

/** The step for which a cup of this material is poured, or null. */
export function stepForCup(job: JobState, materialId: string): string | null {
  const step = nextStep(job);
  return step?.plan.material?.id === materialId ? step.plan.id : null;
}
