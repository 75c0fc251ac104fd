import { begunMinute, fullMinute, MINUTE } from '../trade/time/calendar.ts';
import type { Conditions } from '../trade/time/conditions.ts';
import { type JobState, nextIndex } from './state.ts';
import { type Outside, waitEnds } from './wait.ts';

/** From when a step can go on, until when, and what opened that window. Milliseconds since the epoch. */
export interface Window {
  readonly opensAt: number;
  /** Null: it stays open. */
  readonly closesAt: number | null;
  /** `touched-late`: the clock had closed it, and a finger found the coat still tacky. */
  readonly why: 'start' | 'wait' | 'not-yet' | 'touched-ready' | 'touched-late' | 'touched-past' | 'decided';
  /** The number of the event that opened it: a window that is opened anew is another one. */
  readonly seq: number;
  /** Why its times are none to rely on: a temperature that the material before it is not made for. */
  readonly outside: Outside | null;
}

/** After a touch, the next look is due when a quarter of the wait has passed again, but within these minutes. */
const LOOK_AGAIN = { shareOfWait: 0.25, leastMinutes: 5, mostMinutes: 60 };
const lookAgainMinutes = (waitMinutes: number): number =>
  Math.min(LOOK_AGAIN.mostMinutes, Math.max(LOOK_AGAIN.leastMinutes, waitMinutes * LOOK_AGAIN.shareOfWait));

/** When its first step is to begin. */
export const beginsAt = ({ startedAt, planned }: JobState): number => Math.max(startedAt, planned?.beginsAt ?? startedAt);

/** The window of the step at `index`, or null while the step before it is not done. */
export function windowOf(job: JobState, index: number, conditions: Conditions): Window | null {
  const step = job.steps[index];
  if (step?.decision) return { opensAt: step.decision.at, closesAt: null, why: 'decided', seq: step.decision.seq, outside: null };
  const before = job.steps[index - 1];
  if (index === 0) return { opensAt: beginsAt(job), closesAt: null, why: 'start', seq: 0, outside: null };
  if (!step || !before?.done) return null;
  const { done, check } = before;
  const wait = before.plan.wait;
  const { opensAt, closesAt, outside } = waitEnds(before.plan, conditions, done.at);
  if (wait === null) return { opensAt, closesAt, why: 'wait', seq: done.seq, outside };
  // The finger goes before the clock: still tacky, it takes the next coat. But not for long, since nobody knows how much is left.
  if (check?.result === 'ready' && closesAt !== null && check.at > closesAt) {
    const again = begunMinute(check.at + lookAgainMinutes(wait.fromMinutes) * MINUTE);
    return { opensAt, closesAt: again, why: 'touched-late', seq: check.seq, outside };
  }
  if (check?.result === 'ready')
    return { opensAt: Math.min(opensAt, check.at), closesAt, why: 'touched-ready', seq: check.seq, outside };
  if (check?.result === 'past')
    return { opensAt, closesAt: Math.min(check.at, closesAt ?? check.at), why: 'touched-past', seq: check.seq, outside };
  if (check?.result === 'not-yet') {
    const again = Math.max(opensAt, fullMinute(check.at + lookAgainMinutes(wait.fromMinutes) * MINUTE));
    return {
      opensAt: closesAt === null ? again : Math.min(again, Math.max(opensAt, closesAt)),
      closesAt,
      why: 'not-yet',
      seq: check.seq,
      outside,
    };
  }
  return { opensAt, closesAt, why: 'wait', seq: done.seq, outside };
}

/** The window of the step that comes next, or null when all is done. */
export const nextWindow = (job: JobState, conditions: Conditions): Window | null => windowOf(job, nextIndex(job), conditions);

/** Whether a finger or a decision opened it: then it is open, whatever can be told of its times. */
const openedByHand = ({ why }: Window): boolean => why === 'touched-ready' || why === 'touched-late' || why === 'decided';

/** Whether nobody can tell when it opens: somebody must touch what went through temperatures that it is not made for. */
export const needsTouch = (window: Window): boolean =>
  window.outside !== null && !openedByHand(window) && window.why !== 'touched-past';

/** Whether the next step may go on at `at`, as far as its opening is concerned. */
export const hasOpened = (window: Window, at: number): boolean => !needsTouch(window) && at >= window.opensAt;

/** Its times as far as they can be told. */
export function timesOf(window: Window): { readonly opensAt: number | null; readonly closesAt: number | null } {
  if (needsTouch(window)) return { opensAt: null, closesAt: null };
  const closes = window.outside === null || window.why === 'touched-late' || window.why === 'touched-past';
  return { opensAt: window.opensAt, closesAt: closes ? window.closesAt : null };
}

/**
 * Until when the next step may be logged without a decision: until its window closes or, where a cup was poured for it in
 * time, until that cup's hands-on time is over. Null: for ever.
 */
export function lastCall(job: JobState, window: Window): number | null {
  if (window.closesAt === null) return null;
  const { closesAt } = window;
  const inTime = job.steps[nextIndex(job)]?.poured.filter((cup) => cup.at <= closesAt) ?? [];
  return Math.max(closesAt, ...inTime.map((cup) => cup.until));
}

/** Whether the next step's window has closed with nobody at work on it. */
export function isMissed(job: JobState, conditions: Conditions, now: number): boolean {
  const window = nextWindow(job, conditions);
  if (window === null || window.closesAt === null) return false;
  // Where no time can be told, no clock can say that it is over; a finger can.
  if (timesOf(window).closesAt === null) return false;
  // The last moment of a wait still counts; the moment at which a finger found it past does not.
  if (window.why === 'touched-past') return now >= window.closesAt;
  return now > (lastCall(job, window) ?? now);
}

/** Whether a cup was poured for the next step and hands are taken to be at work on it. */
export function atWork(job: JobState, now: number): boolean {
  return job.steps[nextIndex(job)]?.poured.some((cup) => cup.at <= now && now <= cup.until) ?? false;
}

/** Whether a finger may still open a window that the clock has closed: after a coat that nobody has found past. */
export const fingerMayOpen = (job: JobState, window: Window | null): boolean =>
  job.steps[nextIndex(job) - 1]?.plan.wait?.kind === 'recoat' && window !== null && window.why !== 'touched-past';
