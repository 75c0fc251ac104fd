import type { JobEvent, PlannedStep } from '../job/events.ts';
import { evolve as evolveJob, type Numbered } from '../job/fold.ts';
import { isOpen, type JobState, nextStep } from '../job/state.ts';
import type { Material } from '../trade/material.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Expectation, TemperatureReading } from '../trade/time/conditions.ts';
import type { Speed } from '../trade/time/cure.ts';
import type { TouchedCoat } from '../trade/time/pace.ts';
import type { BenchEvent } from './events.ts';

/** One bench as its events have left it. */
export interface BenchState {
  readonly jobs: ReadonlyMap<string, JobState>;
  readonly cups: ReadonlyMap<string, CupState>;
  /** In order of time. */
  readonly temperatures: readonly TemperatureReading[];
  readonly expectations: readonly Expectation[];
  /** The coats that somebody touched, by job, step and the event that finished them. */
  readonly touched: ReadonlyMap<string, TouchedCoat>;
  /** The handovers that wait to be taken; a job is in one of them at most. */
  readonly offers: readonly Offer[];
  /** When each ping went out. */
  readonly sent: ReadonlyMap<string, Sent>;
  readonly snoozes: readonly Snooze[];
  /** When somebody last told something, in milliseconds since the epoch. */
  readonly toldAt: number;
}

/** When a ping went out, and the number of the last event that was known by then: what comes after it may be an answer. */
export interface Sent {
  readonly at: number;
  readonly seq: number;
}

/** One mixed batch. */
export interface CupState {
  readonly id: string;
  readonly material: { readonly id: string; readonly name: string };
  readonly grams: number | null;
  readonly potLifeMinutes: number;
  readonly speed: Speed | null;
  /** The temperatures that it is made for; beyond them no clock can tell how long it is good. */
  readonly usable: Material['usable'];
  readonly job: string | null;
  /** The step of the job that it was poured for. */
  readonly step: string | null;
  readonly startedAt: number;
  readonly by: string;
  readonly ended: 'spent' | 'discarded' | null;
}

export interface Offer {
  /** Who gives: whoever said so, and those who had the jobs. */
  readonly from: readonly string[];
  readonly to: readonly string[];
  readonly jobs: readonly string[];
  readonly note: string | null;
  readonly at: number;
  readonly seq: number;
}

export interface Snooze {
  readonly ping: string;
  readonly until: number;
  readonly by: string;
  readonly seq: number;
}

export type NumberedEvent = Numbered<BenchEvent>;

export const EMPTY: BenchState = {
  jobs: new Map(),
  cups: new Map(),
  temperatures: [],
  expectations: [],
  touched: new Map(),
  offers: [],
  sent: new Map(),
  snoozes: [],
  toldAt: 0,
};

/**
 * The state that a whole log leads to. What was undone counts as never having been told; that a ping went out remains.
 */
export function fold(log: readonly NumberedEvent[]): BenchState {
  const undone = undoneIn(log);
  // Most of a long history is pings; one map for them all, instead of a copy for each.
  const sent = new Map<string, Sent>();
  let state = EMPTY;
  for (const event of log) {
    if (event.type === 'PingSent' && !sent.has(event.ping)) sent.set(event.ping, sentOf(event));
    if (event.type !== 'PingSent' && !undone.has(event.seq)) state = evolve(state, event);
  }
  // That something was taken back was told, too.
  return { ...state, sent, toldAt: log.findLast((event) => event.type !== 'PingSent')?.enteredAt ?? 0 };
}

/** More than this at once, and it is cheaper to begin anew. */
const A_FEW = 20;

/** `fold(log)`, worked out from the state before `fresh` where that is possible. */
export function advance(state: BenchState, fresh: readonly NumberedEvent[], log: readonly NumberedEvent[]): BenchState {
  if (fresh.length > A_FEW || fresh.some((event) => event.type === 'Undone')) return fold(log);
  return fresh.reduce(evolve, state);
}

const sentOf = (event: Extract<NumberedEvent, { type: 'PingSent' }>): Sent => ({
  at: event.enteredAt,
  seq: event.seenSeq ?? event.seq,
});

const undoneIn = (log: readonly NumberedEvent[]): ReadonlySet<number> =>
  new Set(log.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));

function evolve(state: BenchState, event: NumberedEvent): BenchState {
  const after = changed(state, event);
  return event.type === 'PingSent' ? after : { ...after, toldAt: event.enteredAt };
}

function changed(state: BenchState, event: NumberedEvent): BenchState {
  switch (event.type) {
    case 'CupStarted':
      return withCup(state, cupOf(event), event.seq);
    case 'CupEnded': {
      const cup = state.cups.get(event.cup);
      return cup ? withCup(state, { ...cup, ended: event.how }, event.seq) : state;
    }
    case 'HandoverOffered': {
      const holders = event.jobs.flatMap((id) => state.jobs.get(id)?.holder ?? []);
      const from = [...new Set([event.by, ...holders])].filter((who) => !event.to.includes(who));
      const offer = { from, to: event.to, jobs: event.jobs, note: event.note, at: event.enteredAt, seq: event.seq };
      return { ...state, offers: [...without(state.offers, event.jobs), offer] };
    }
    case 'HandoverTaken': {
      const jobs = new Map(state.jobs);
      for (const id of event.jobs) {
        const job = jobs.get(id);
        const offer = state.offers.find((each) => each.jobs.includes(id));
        if (!job) continue;
        // What was said with it is for whoever has the job, not only for the moment in which they took it.
        const note = offer?.note == null ? [] : [{ at: offer.at, by: offer.from[0] ?? event.by, text: offer.note }];
        jobs.set(id, { ...job, holder: event.by, touchedSeq: event.seq, notes: [...job.notes, ...note] });
      }
      // What whoever took over has anyway is not waiting for anybody.
      const theirs = [...jobs.values()].filter((job) => job.holder === event.by).map((job) => job.id);
      return { ...state, jobs, offers: without(state.offers, theirs) };
    }
    case 'TemperatureRead':
      return {
        ...state,
        temperatures: [
          ...state.temperatures,
          { at: event.at, celsius: event.celsius, humidityPercent: event.humidityPercent, seq: event.seq },
        ].sort((a, b) => a.at - b.at),
      };
    case 'TemperatureExpected': {
      const { at, dayCelsius, nightCelsius, day, zone, seq } = event;
      return { ...state, expectations: [...state.expectations, { at, dayCelsius, nightCelsius, day, zone, seq }] };
    }
    case 'PingSnoozed':
      return { ...state, snoozes: [...state.snoozes, { ping: event.ping, until: event.until, by: event.by, seq: event.seq }] };
    case 'PingSent':
      return state.sent.has(event.ping) ? state : { ...state, sent: new Map(state.sent).set(event.ping, sentOf(event)) };
    case 'MixWeighed':
      return withJob(state, event.job, (job) => ({ ...job, touchedSeq: event.seq }));
    case 'Undone':
      return state;
    default: {
      const job = evolveJob(state.jobs.get(event.job), event satisfies JobEvent);
      if (!job) return state;
      const cups = event.type === 'StepDone' ? usedUp(state.cups, event.job, event.step) : state.cups;
      const touched = event.type === 'TackChecked' ? withTouch(state, event) : state.touched;
      return { ...state, cups, touched, jobs: new Map(state.jobs).set(event.job, job) };
    }
  }
}

/** Only the last coats of a material are learned from, so that no more need to be kept. */
const MOST_TOUCHED = 200;

/**
 * What a finger found is kept with its coat, also once that coat is scrapped: it is what the pace is learned from. A cure
 * teaches nothing: nobody stands by it when it comes to its end.
 */
function withTouch(state: BenchState, event: Extract<NumberedEvent, { type: 'TackChecked' }>): BenchState['touched'] {
  const step = state.jobs.get(event.job)?.steps.find(({ plan }) => plan.id === event.step);
  const wait = step?.plan.wait;
  if (!step?.done || !step.plan.material || wait?.kind !== 'recoat') return state.touched;
  const key = `${event.job}/${event.step}/${step.done.seq}`;
  const coat = state.touched.get(key) ?? {
    material: step.plan.material.id,
    begun: step.done.at,
    fromMinutes: wait.fromMinutes,
    untilMinutes: wait.untilMinutes,
    speed: wait.speed,
    touches: [],
  };
  const touch = { at: event.at, enteredAt: event.enteredAt, result: event.result };
  const touched = new Map(state.touched).set(key, { ...coat, touches: [...coat.touches, touch] });
  const [oldest] = touched.keys();
  if (touched.size > MOST_TOUCHED && oldest !== undefined) touched.delete(oldest);
  return touched;
}

/** A step that is done has used up the cups that were poured for it: nobody wants to hear of their pot life any more. */
function usedUp(cups: BenchState['cups'], job: string, step: string): BenchState['cups'] {
  const used = [...cups.values()].filter((cup) => cup.ended === null && cup.job === job && cup.step === step);
  return used.length === 0
    ? cups
    : new Map([...cups, ...used.map((cup) => [cup.id, { ...cup, ended: 'spent' as const }] as const)]);
}

/** The offers less these jobs: one that is offered anew, or taken, is in no older offer any more. */
const without = (offers: readonly Offer[], jobs: readonly string[]): Offer[] =>
  offers
    .map((offer) => ({ ...offer, jobs: offer.jobs.filter((id) => !jobs.includes(id)) }))
    .filter((offer) => offer.jobs.length > 0);

const cupOf = (event: Extract<NumberedEvent, { type: 'CupStarted' }>): CupState => ({
  id: event.cup,
  material: event.material,
  grams: event.grams,
  potLifeMinutes: event.potLifeMinutes,
  speed: event.speed,
  usable: event.usable,
  job: event.job,
  step: event.step,
  startedAt: event.at,
  by: event.by,
  ended: null,
});

/** The bench with this cup on it, and its step with all the cups that were poured for it and not thrown away. */
function withCup(state: BenchState, cup: CupState, seq: number): BenchState {
  const cups = new Map(state.cups).set(cup.id, cup);
  const kept = [...cups.values()].filter((each) => each.job === cup.job && each.step === cup.step && each.ended !== 'discarded');
  const poured = (hands: number) =>
    kept.map(({ startedAt, potLifeMinutes }) => ({ at: startedAt, until: startedAt + (potLifeMinutes + hands) * MINUTE }));
  return withJob({ ...state, cups }, cup.job, (job) => ({
    ...job,
    touchedSeq: seq,
    steps: job.steps.map((step) =>
      step.plan.id === cup.step && !step.done ? { ...step, poured: poured(step.plan.handsMinutes) } : step,
    ),
  }));
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

/**
 * What was poured for a job's step and is on it, or in somebody's hands: a cup that nobody has called spent, and that is over,
 * went nowhere.
 */
export function laidFor(state: BenchState, job: JobState, step: PlannedStep, now: number): CupState[] {
  const until = ({ startedAt, potLifeMinutes }: CupState) => startedAt + (potLifeMinutes + step.handsMinutes) * MINUTE;
  return pouredFor(state, job, step.id).filter((cup) => cup.ended === 'spent' || until(cup) >= now);
}

/** The cups of a job's step, in the order of their logging, but for those that were thrown away. */
export const pouredFor = (state: BenchState, job: JobState | null, step: string | null): CupState[] =>
  job === null || step === null
    ? []
    : [...state.cups.values()].filter((cup) => cup.job === job.id && cup.step === step && cup.ended !== 'discarded');
