import { MINUTE } from '../trade/time/calendar.ts';
import type { Conditions } from '../trade/time/conditions.ts';
import { type JobState, nextIndex } from './state.ts';
import { atWork, beginsAt, lastCall, nextWindow, timesOf } from './window.ts';

export const PING_KINDS = [
  'pot-low',
  'pot-over',
  'recoat-open',
  'recoat-closing',
  'recoat-missed',
  'cure-done',
  'step-due',
  'plan-closing',
  'digest',
  'handover',
  'stock-low',
] as const;
/** Those that call for a step whose window opens. */
export const OPENINGS: ReadonlySet<PingKind> = new Set<PingKind>(['recoat-open', 'cure-done', 'step-due']);
export type PingKind = (typeof PING_KINDS)[number];

/** A message that a clock calls for: when, and about what. Its id is the same however often it is worked out. */
export interface DuePing {
  readonly id: string;
  readonly kind: PingKind;
  readonly job: string | null;
  readonly step: string | null;
  readonly dueAt: number;
  readonly to: readonly string[];
  /** From then on it makes no sense to repeat it; null where it always does. */
  readonly until: number | null;
}

/** A closing window is announced when a quarter of it is left, between these limits. */
const CLOSING = { shareOfWindow: 0.25, leastMinutes: 5, mostMinutes: 30 };

export const closingLead = (opensAt: number, closesAt: number): number =>
  Math.min(CLOSING.mostMinutes * MINUTE, Math.max(CLOSING.leastMinutes * MINUTE, (closesAt - opensAt) * CLOSING.shareOfWindow));

/** Everything that this job's next window calls for, sent or not, sooner or later. A job on hold is silent. */
export function pingsOf(job: JobState, conditions: Conditions): DuePing[] {
  const window = nextWindow(job, conditions);
  const index = nextIndex(job);
  const step = job.steps[index];
  const wait = job.steps[index - 1]?.plan.wait;
  if (job.status !== 'active' || window === null || !step) return [];
  if (!wait) return plannedStart(job, step.plan.id);
  // What a person touched or decided was answered with a card there and then.
  if (window.why === 'decided' || window.why === 'touched-past') return [];
  // A touch opens the window anew; when it closes, and that it is closing, depends on the step before alone, unless the
  // touch came after that.
  const waitSeq = window.why === 'touched-late' ? window.seq : (job.steps[index - 1]?.done?.seq ?? window.seq);
  const ping = (kind: PingKind, dueAt: number, seq = waitSeq): DuePing => ({
    id: `${job.id}/${step.plan.id}/${kind}/${seq}`,
    kind,
    job: job.id,
    step: step.plan.id,
    dueAt,
    to: [job.holder],
    until: kind === 'recoat-missed' ? null : timesOf(window).closesAt,
  });
  const pings: DuePing[] = [];
  const opened = { recoat: 'recoat-open', cure: 'cure-done', fixed: 'step-due' } as const;
  const opens = window.closesAt === null || window.opensAt < window.closesAt;
  if (opens && window.why !== 'touched-ready' && window.why !== 'touched-late' && wait.fromMinutes > 0)
    pings.push(ping(opened[wait.kind], window.opensAt, window.seq));
  const last = lastCall(job, window);
  if (window.closesAt !== null && last !== null) {
    const closing = window.closesAt - closingLead(window.opensAt, window.closesAt);
    // After a late touch there are some minutes only, of which the card has just told.
    if (closing > window.opensAt && window.why !== 'touched-late' && !atWork(job, closing))
      pings.push(ping('recoat-closing', closing));
    // Where no clock can say when it closes, none says that it has; that it is worth another touch it says all the same.
    if (timesOf(window).closesAt !== null) pings.push(ping('recoat-missed', last));
  }
  return told(pings, job);
}

/** A job that was entered ahead of its time rings when its first step is to begin, unless hands are at it. */
function plannedStart(job: JobState, step: string): DuePing[] {
  const dueAt = beginsAt(job);
  if (nextIndex(job) > 0 || dueAt <= job.enteredAt || atWork(job, dueAt)) return [];
  return [
    { id: `${job.id}/${step}/step-due/${dueAt}`, kind: 'step-due', job: job.id, step, dueAt, to: [job.holder], until: null },
  ];
}

/** Of what fell due during a hold only the last is rung: it says where the job stands now. */
function told(pings: readonly DuePing[], { resumedAt }: JobState): DuePing[] {
  const last = Math.max(...pings.map(({ dueAt }) => (resumedAt !== null && dueAt <= resumedAt ? dueAt : -Infinity)));
  return pings.filter(({ dueAt }) => dueAt >= last);
}
