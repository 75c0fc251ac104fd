import { MINUTE } from '../trade/time/calendar.ts';
import type { Conditions } from '../trade/time/conditions.ts';
import { isOpen, type JobState, nextIndex } from './state.ts';
import { waitEnds } from './wait.ts';
import { atWork, hasOpened, isMissed, needsTouch, nextWindow, timesOf } from './window.ts';

export type TimelineState = 'done' | 'open' | 'waiting' | 'touch' | 'begun' | 'missed' | 'later' | 'held' | 'dropped';

/**
 * One step on the timeline; instants in milliseconds since the epoch. `opensAt` and `closesAt` are the window in which the
 * step may begin; null where nobody can tell (`touch`: somebody must feel it). Of a step that is not done, `startsAt` and `endsAt` are the earliest it can be, hands always at the ready.
 */
export interface TimelineEntry {
  readonly step: string;
  readonly title: string;
  readonly state: TimelineState;
  readonly startsAt: number | null;
  readonly endsAt: number | null;
  readonly opensAt: number | null;
  readonly closesAt: number | null;
}

export function timelineOf(job: JobState, conditions: Conditions, now: number): TimelineEntry[] {
  const entries: TimelineEntry[] = [];
  const next = nextIndex(job);
  /** When the step at hand can begin; null where nobody can tell, and from there on. */
  let opens: number | null = 0;
  let closes: number | null = null;
  job.steps.forEach((step, index) => {
    const about = { step: step.plan.id, title: step.plan.title };
    const hands = step.plan.handsMinutes * MINUTE;
    if (step.done) {
      const startsAt = step.poured[0]?.at ?? step.done.at - hands;
      entries.push({ ...about, state: 'done', startsAt, endsAt: step.done.at, opensAt: null, closesAt: null });
      return;
    }
    if (!isOpen(job)) {
      entries.push({ ...about, state: 'dropped', startsAt: null, endsAt: null, opensAt: null, closesAt: null });
      return;
    }
    if (index === next) {
      const window = nextWindow(job, conditions);
      ({ opensAt: opens, closesAt: closes } = window ? timesOf(window) : { opensAt: now, closesAt: null });
    }
    const begun = step.poured[0]?.at ?? null;
    const startsAt: number | null = begun ?? (opens === null ? null : Math.max(now, opens));
    const endsAt: number | null = startsAt === null ? null : Math.max(now, startsAt + hands);
    entries.push({
      ...about,
      state: stateOf(job, conditions, now, index === next),
      startsAt,
      endsAt,
      opensAt: opens,
      closesAt: closes,
    });
    const wait = endsAt === null ? null : waitEnds(step.plan, conditions, endsAt);
    ({ opensAt: opens, closesAt: closes } = wait && !wait.outside ? wait : { opensAt: null, closesAt: null });
  });
  return entries;
}

function stateOf(job: JobState, conditions: Conditions, now: number, isNext: boolean): TimelineState {
  if (job.status === 'held') return 'held';
  if (!isNext) return 'later';
  const window = nextWindow(job, conditions);
  if (window === null) return 'later';
  if (isMissed(job, conditions, now)) return 'missed';
  if (atWork(job, now)) return 'begun';
  if (needsTouch(window)) return 'touch';
  return hasOpened(window, now) ? 'open' : 'waiting';
}
