import { MINUTE } from '../trade/calendar.ts';
import type { TemperatureRecord } from '../trade/cure.ts';
import { waitOver } from '../trade/cure.ts';
import { isOpen, type JobState, nextIndex } from './state.ts';
import { atWork, isMissed, nextWindow } from './window.ts';

export type TimelineState = 'done' | 'open' | 'waiting' | 'begun' | 'missed' | 'later' | 'held' | 'dropped';

/**
 * One step on the timeline; instants in milliseconds since the epoch. `opensAt` and `closesAt` are the window in which the
 * step may begin. Of a step that is not done, `startsAt` and `endsAt` are the earliest it can be, hands always at the ready.
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

export function timelineOf(job: JobState, record: TemperatureRecord, now: number): TimelineEntry[] {
  const entries: TimelineEntry[] = [];
  const next = nextIndex(job);
  let opens = 0;
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
      const window = nextWindow(job, record);
      opens = window?.opensAt ?? now;
      closes = window?.closesAt ?? null;
    }
    const startsAt: number = step.poured[0]?.at ?? Math.max(now, opens);
    const endsAt: number = Math.max(now, startsAt + hands);
    entries.push({
      ...about,
      state: stateOf(job, record, now, index === next),
      startsAt,
      endsAt,
      opensAt: opens,
      closesAt: closes,
    });
    const wait = step.plan.wait;
    opens = wait ? waitOver(record, wait.speed, endsAt, wait.fromMinutes) : endsAt;
    closes = wait && wait.untilMinutes !== null ? waitOver(record, wait.speed, endsAt, wait.untilMinutes) : null;
  });
  return entries;
}

function stateOf(job: JobState, record: TemperatureRecord, now: number, isNext: boolean): TimelineState {
  if (job.status === 'held') return 'held';
  if (!isNext) return 'later';
  const window = nextWindow(job, record);
  if (window === null) return 'later';
  if (isMissed(job, record, now)) return 'missed';
  if (atWork(job, now)) return 'begun';
  return now < window.opensAt ? 'waiting' : 'open';
}
