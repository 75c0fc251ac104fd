import { expect } from 'vitest';
import { type BenchEvent, benchEvent } from '../../src/bench/events.ts';
import { type BenchState, fold, type NumberedEvent } from '../../src/bench/fold.ts';
import type { Told } from '../../src/job/decide.ts';
import { type MissedChoice, type PlannedStep, plannedStep, type TackResult } from '../../src/job/events.ts';
import type { JobState } from '../../src/job/state.ts';
import { DAY } from '../../src/trade/time/calendar.ts';
import type { Speed } from '../../src/trade/time/cure.ts';
import { isRefusal, type Refusal } from '../../src/words/refusal.ts';
import { under } from './conditions.ts';

/** Monday, 2 March 2026, `clock` o'clock in UTC, or so many days later. */
export const t = (clock: string, day = 0): number => Date.parse(`2026-03-02T${clock}:00Z`) + day * DAY;

type Decide = (job: JobState, state: BenchState, log: readonly NumberedEvent[]) => readonly BenchEvent[] | Refusal;

/**
 * What happened, what is asked, and what comes of it:
 * `given(started(), did('seal', '08:30')).when((job) => done(job, …)).yields({ type: 'StepDone' })`.
 * The job that is asked about is `lion`, unless `of` names another one.
 */
export function given(...events: readonly BenchEvent[]) {
  const log = events.map((event, index): NumberedEvent => ({ ...benchEvent.parse(event), seq: index + 1 }));
  const state = fold(log);
  const of = (id: string): JobState => {
    const job = state.jobs.get(id);
    if (!job) throw new Error(`the given events start no job ${id}`);
    return job;
  };
  const when = (decide: Decide, id = 'lion') => {
    const decided = decide(of(id), state, log);
    return {
      /** Just these events, each at least with these fields; gives the history that they make. */
      yields: (...expected: readonly Partial<BenchEvent>[]) => {
        if (isRefusal(decided)) throw new Error(`refused: ${decided.code}`);
        expect(decided).toMatchObject(expected);
        return given(...events, ...decided);
      },
      /** A refusal with this code; gives it, for a look at its words and ways. */
      refuses: (code: string): Refusal => {
        if (!isRefusal(decided)) throw new Error(`not refused: ${JSON.stringify(decided)}`);
        expect(decided.code).toBe(code);
        return decided;
      },
    };
  };
  const and = (...more: readonly BenchEvent[]) => given(...events, ...more);
  return { log, state, of, job: state.jobs.get('lion') as JobState, when, and };
}

/** Asked at `now`, by dana, about what happens right then; all of it can be said otherwise. */
export const told = (now: string, more: Partial<Omit<Told, 'now' | 'at'>> & { day?: number; at?: string } = {}): Told => {
  const { day = 0, at = now, ...rest } = more;
  return { by: 'dana', conditions: under(), ...rest, at: t(at, day), now: t(now, day) };
};

export const step = (id: string, wait: PlannedStep['wait'] = null, more: Partial<PlannedStep> = {}): PlannedStep =>
  plannedStep.parse({
    id,
    title: id,
    kind: 'coat',
    handsMinutes: 15,
    advice: null,
    material: null,
    layerMillimetres: null,
    grams: null,
    wait,
    ...more,
  });

export const recoat = (fromMinutes: number, untilMinutes: number | null, speed: Speed | null = null): PlannedStep['wait'] => ({
  kind: 'recoat',
  fromMinutes,
  untilMinutes,
  speed,
});
export const cure = (fromMinutes: number, speed: Speed | null = null): PlannedStep['wait'] => ({
  kind: 'cure',
  fromMinutes,
  untilMinutes: null,
  speed,
});
export const fixed = (fromMinutes: number, untilMinutes: number | null = null): PlannedStep['wait'] => ({
  kind: 'fixed',
  fromMinutes,
  untilMinutes,
  speed: null,
});

export const RUBBER = { id: 'rubber', name: 'Rubber' };

/** Seal, three coats with a window of 45 min to 3 h, a cure of 16 h, then two steps without a wait. */
export const STEPS: readonly PlannedStep[] = [
  step('seal', fixed(15)),
  step('coat-1', recoat(45, 180), { material: RUBBER }),
  step('coat-2', recoat(45, 180), { material: RUBBER }),
  step('coat-3', cure(960), { material: RUBBER }),
  step('trim'),
  step('wax'),
];

interface When {
  readonly by?: string;
  readonly day?: number;
  /** When it was told, if not when it happened. */
  readonly entered?: string;
  readonly job?: string;
}

const stamp = (at: string, { by = 'dana', day = 0, entered = at }: When) => ({
  version: 1 as const,
  at: t(at, day),
  enteredAt: t(entered, day),
  by,
});
const ofJob = (at: string, when: When) => ({ ...stamp(at, when), job: when.job ?? 'lion' });

export const started = (
  at = '08:00',
  { steps = STEPS, ...when }: When & { steps?: readonly PlannedStep[] } = {},
): BenchEvent => ({
  ...ofJob(at, when),
  type: 'JobStarted',
  name: 'Lion head',
  recipe: { id: 'example', name: 'An example', version: null },
  steps: [...steps],
  areaSquareMetres: null,
  volumeLitres: null,
  surface: null,
  planned: null,
  extras: [],
  holder: when.by ?? 'dana',
});
export const did = (id: string, at: string, when: When = {}): BenchEvent => ({
  ...ofJob(at, when),
  type: 'StepDone',
  step: id,
  note: null,
  offPlan: null,
});
export const touched = (id: string, result: TackResult, at: string, when: When = {}): BenchEvent => ({
  ...ofJob(at, when),
  type: 'TackChecked',
  step: id,
  result,
});
export const decided = (id: string, choice: MissedChoice, at: string, when: When = {}): BenchEvent => ({
  ...ofJob(at, when),
  type: 'MissedWindowDecided',
  step: id,
  choice,
});
export const held = (at: string, when: When = {}): BenchEvent => ({ ...ofJob(at, when), type: 'JobHeld', reason: 'no material' });
export const resumed = (at: string, when: When = {}): BenchEvent => ({ ...ofJob(at, when), type: 'JobResumed' });
export const closed = (at: string, when: When = {}): BenchEvent => ({ ...ofJob(at, when), type: 'JobClosed', text: null });
export const noted = (text: string, at: string, when: When = {}): BenchEvent => ({
  ...ofJob(at, when),
  type: 'NoteAdded',
  text,
});
export const poured = (cup: string, id: string | null, at: string, when: When & { potLife?: number } = {}): BenchEvent => ({
  ...stamp(at, when),
  type: 'CupStarted',
  cup,
  material: RUBBER,
  grams: 200,
  potLifeMinutes: when.potLife ?? 20,
  speed: null,
  usable: null,
  job: id === null ? null : (when.job ?? 'lion'),
  step: id,
});
export const ended = (cup: string, how: 'spent' | 'discarded', at: string, when: When = {}): BenchEvent => ({
  ...ofJob(at, when),
  type: 'CupEnded',
  cup,
  how,
});
export const warmed = (celsius: number, at: string, when: When = {}): BenchEvent => ({
  ...stamp(at, when),
  type: 'TemperatureRead',
  celsius,
  humidityPercent: null,
});
export const offered = (to: string[], at: string, when: When & { jobs?: string[] } = {}): BenchEvent => ({
  ...stamp(at, when),
  type: 'HandoverOffered',
  to,
  jobs: when.jobs ?? ['lion'],
  note: null,
});
export const taken = (by: string, at: string, when: When & { jobs?: string[] } = {}): BenchEvent => ({
  ...stamp(at, { ...when, by }),
  type: 'HandoverTaken',
  jobs: when.jobs ?? ['lion'],
});
export const sent = (ping: { id: string; kind: string; dueAt: number }, at: string, when: When = {}): BenchEvent =>
  benchEvent.parse({
    ...stamp(at, { ...when, by: 'coatbell' }),
    type: 'PingSent',
    ping: ping.id,
    kind: ping.kind,
    job: when.job ?? 'lion',
    dueAt: ping.dueAt,
  });
export const snoozed = (ping: string, until: string, at: string, when: When = {}): BenchEvent => ({
  ...stamp(at, when),
  type: 'PingSnoozed',
  ping,
  until: t(until, when.day),
});
export const undid = (target: number, at: string, when: When = {}): BenchEvent => ({
  ...stamp(at, when),
  type: 'Undone',
  target,
});
