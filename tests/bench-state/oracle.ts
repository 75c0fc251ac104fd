import type { NumberedEvent } from '../../src/bench/fold.ts';
import type { Ping } from '../../src/bench/pings.ts';
import type { PlannedStep } from '../../src/job/events.ts';

/**
 * What must be rung, worked out from a history in another way than the program does: one pass over the events, clocks and
 * rules written out anew. It knows jobs and cups; shifts, handovers and what is repeated are not its business.
 */
export interface Reason {
  readonly kind: string;
  /** The cup, or `job/step`. */
  readonly about: string;
  readonly dueAt: number;
  /** The moment at which what it rests on was told. */
  readonly since: number;
}

/** The same step once more, when it is planned: where begun sooner what follows would be lost. */
export const isAgain = ({ base }: Ping): boolean => base.endsWith('/planned');

export const matches = (reason: Reason, ping: Ping): boolean =>
  reason.kind === ping.kind && reason.about === (ping.cup ?? `${ping.job}/${ping.step}`);

type Event<T extends NumberedEvent['type']> = Extract<NumberedEvent, { type: T }>;
interface Job {
  readonly plan: readonly PlannedStep[];
  /** How many steps are done, and the events that say so. */
  done: Event<'StepDone'>[];
  touch: Event<'TackChecked'> | null;
  /** Cups poured for the step that comes next, as long as they count. */
  cups: Event<'CupStarted'>[];
  freed: boolean;
  awake: boolean;
  over: boolean;
  /** When its last hold was said to be over. */
  resumed: number;
}

const MIN = 60_000;

/** The whole minutes inside a window, where there are any. */
function wholeMinutes(opens: number, closes: number, done: number): [number, number] {
  const first = opens > done ? Math.ceil(opens / MIN) * MIN : opens;
  const last = Math.floor(closes / MIN) * MIN;
  return first > last ? [opens, closes] : [first, last];
}

/** `paces`: how many times as long as its sheet each material takes, as the studio has learned by then. */
export function reasonsOf(whole: readonly NumberedEvent[], paces: ReadonlyMap<string, { factor: number }> = new Map()): Reason[] {
  const undone = new Set(whole.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));
  const log = whole.filter((event) => !undone.has(event.seq));
  const readings = log
    .flatMap((event) => (event.type === 'TemperatureRead' ? [event] : []))
    .sort((a, b) => a.at - b.at || a.seq - b.seq);
  const expected = log.flatMap((event) => (event.type === 'TemperatureExpected' ? [event] : []));
  const later = (one: { at: number; seq: number }, other: { at: number; seq: number }) =>
    one.at > other.at || (one.at === other.at && one.seq > other.seq);
  /** Days from 07:00 to 19:00 in UTC. */
  const isDay = (at: number) => (at / MIN) % 1440 >= 420 && (at / MIN) % 1440 < 1140;
  const nextTurn = (at: number) => {
    for (let turn = (Math.floor(at / (12 * 60 * MIN)) - 1) * 12 * 60 * MIN + 420 * MIN; ; turn += 12 * 60 * MIN)
      if (turn > at) return turn;
  };
  const celsiusAt = (at: number) => {
    const read = readings.filter((reading) => reading.at <= at).at(-1);
    const told = expected.filter((each) => each.at <= at).at(-1);
    const foreseen = told ? (isDay(at) ? told.dayCelsius : told.nightCelsius) : null;
    const stillHolds = read && told && later(read, told) && at < nextTurn(read.at);
    return (stillHolds ? null : foreseen) ?? read?.celsius ?? 23;
  };
  /** Walks from change to change; each of the waits here doubles its pace with ten degrees, at 23 °C it is one. */
  const after = (begun: number, minutes: number, warm: boolean) => {
    if (!warm) return begun + minutes * MIN;
    let [at, left] = [begun, minutes * MIN];
    for (;;) {
      const celsius = celsiusAt(at);
      const coming = [...readings, ...expected].map((each) => each.at).filter((each) => each > at);
      const next = Math.min(...coming, expected.length > 0 ? nextTurn(at) : Number.POSITIVE_INFINITY);
      const pace = 2 ** ((celsius - 23) / 10);
      if (at + left / pace <= next) return at + left / pace;
      left -= (next - at) * pace;
      at = next;
    }
  };

  const jobs = new Map<string, Job>();
  const cups = new Map<string, Event<'CupStarted'>>();
  for (const event of log) {
    const job = 'job' in event && event.job !== null ? jobs.get(event.job) : undefined;
    if (event.type === 'JobStarted')
      jobs.set(event.job, {
        plan: event.steps,
        done: [],
        touch: null,
        cups: [],
        freed: false,
        awake: true,
        over: false,
        resumed: 0,
      });
    if (event.type === 'CupStarted') {
      cups.set(event.cup, event);
      if (job && event.step !== null && event.step === job.plan[job.done.length]?.id) job.cups.push(event);
    }
    if (event.type === 'CupEnded') {
      cups.delete(event.cup);
      if (job && event.how === 'discarded') job.cups = job.cups.filter((cup) => cup.cup !== event.cup);
    }
    if (!job) continue;
    if (event.type === 'StepDone') {
      job.done.push(event);
      Object.assign(job, { touch: null, cups: [], freed: false });
      for (const cup of cups.values()) if (cup.job === event.job && cup.step === event.step) cups.delete(cup.cup);
    }
    // Of a coat that was taken back after it was touched, the touch is of nothing.
    if (event.type === 'TackChecked' && event.step === job.plan[job.done.length - 1]?.id) job.touch = event;
    if (event.type === 'MissedWindowDecided') {
      if (event.choice === 'scrap') job.done.pop();
      Object.assign(job, { touch: event.choice === 'scrap' ? null : job.touch, cups: [], freed: true });
    }
    if (event.type === 'JobHeld') job.awake = false;
    if (event.type === 'JobResumed') Object.assign(job, { awake: true, resumed: event.enteredAt });
    if (event.type === 'JobClosed') job.over = true;
  }

  const reasons: Reason[] = [];
  for (const cup of cups.values()) {
    const life = after(cup.at, cup.potLifeMinutes, cup.speed !== null) - cup.at;
    const lead = Math.min(5 * MIN, Math.max(MIN, life / 4));
    const about = { about: cup.cup, since: cup.enteredAt };
    reasons.push(
      { ...about, kind: 'pot-low', dueAt: cup.at + life - lead },
      { ...about, kind: 'pot-over', dueAt: cup.at + life },
    );
  }
  for (const [id, job] of jobs) {
    const last = job.done.at(-1);
    const next = job.plan[job.done.length];
    const wait = job.plan[job.done.length - 1]?.wait;
    if (!last || !next || !wait || !job.awake || job.over || job.freed || job.touch?.result === 'past') continue;
    const warm = wait.speed !== null;
    const material = job.plan[job.done.length - 1]?.material?.id ?? '';
    const learned = paces.get(material)?.factor ?? 1;
    const pace = { fixed: 1, recoat: learned, cure: Math.max(1, learned) }[wait.kind];
    const told = (minutes: number | null) =>
      minutes === null ? Number.POSITIVE_INFINITY : Math.round(after(last.at, minutes * pace, warm));
    let [opens, closes] = wholeMinutes(told(wait.fromMinutes), told(wait.untilMinutes), last.at);
    const late = job.touch?.result === 'ready' && job.touch.at > closes ? job.touch : null;
    if (late) closes = Math.floor((late.at + Math.min(60, Math.max(5, wait.fromMinutes / 4)) * MIN) / MIN) * MIN;
    const about = { about: `${id}/${next.id}`, since: (late ?? last).enteredAt };
    const before = reasons.length;
    const kind = { recoat: 'recoat-open', cure: 'cure-done', fixed: 'step-due' }[wait.kind];
    let opened = opens;
    if (job.touch?.result === 'ready') opened = Math.min(opens, job.touch.at);
    if (job.touch?.result === 'not-yet') {
      const look = Math.min(60, Math.max(5, wait.fromMinutes / 4));
      opened = Math.min(Math.max(opens, Math.ceil((job.touch.at + look * MIN) / MIN) * MIN), closes);
    }
    if (job.touch?.result !== 'ready' && opened < closes)
      reasons.push({ ...about, kind, dueAt: opened, since: job.touch?.enteredAt ?? last.enteredAt });
    // Of several that a hold kept back, the latest speaks for all.
    const onlyLatest = () => {
      const ofJob = reasons.splice(before).sort((a, b) => a.dueAt - b.dueAt);
      const kept = ofJob.filter((each, at) => each.dueAt > job.resumed || !((ofJob[at + 1]?.dueAt ?? Infinity) <= job.resumed));
      reasons.push(...kept);
    };
    if (closes === Number.POSITIVE_INFINITY) continue;
    // A cup stands for somebody at work, for its pot life and the time that the hands need.
    const atWork = job.cups.map((cup) => ({ from: cup.at, to: cup.at + (cup.potLifeMinutes + next.handsMinutes) * MIN }));
    const closing = closes - Math.min(30 * MIN, Math.max(5 * MIN, (closes - opened) / 4));
    if (!late && closing > opened && !atWork.some(({ from, to }) => from <= closing && closing <= to))
      reasons.push({ ...about, kind: 'recoat-closing', dueAt: closing });
    const lastCall = Math.max(closes, ...atWork.flatMap(({ from, to }) => (from <= closes ? [to] : [])));
    reasons.push({ ...about, kind: 'recoat-missed', dueAt: lastCall });
    onlyLatest();
  }
  return reasons;
}
