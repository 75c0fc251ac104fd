import { conditionsOf } from '../bench/conditions.ts';
import type { PlannedTime } from '../bench/planning/plan.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { type TimelineState, timelineOf } from '../job/timeline.ts';
import { atWork, hasOpened, isMissed, needsTouch, nextWindow, timesOf } from '../job/window.ts';
import type { PictureBar, TimeSpan } from '../picture/models.ts';
import type { What } from '../picture/palette.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { BenchView } from './brief-card.ts';

const LOOK_OF: Readonly<Record<TimelineState, What>> = {
  done: 'done',
  open: 'go',
  waiting: 'hands',
  touch: 'touch',
  begun: 'begun',
  missed: 'missed',
  later: 'hands',
  held: 'held',
  dropped: 'done',
};

export function stateOf(job: JobState, { studio, state, now }: BenchView): What {
  if (job.status === 'held') return 'held';
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now)) return 'missed';
  if (atWork(job, now)) return 'begun';
  if (window && needsTouch(window)) return 'touch';
  return window === null || hasOpened(window, now) ? 'go' : 'hands';
}

/** The window in which what is due may begin. */
export function windowBar(job: JobState, view: BenchView): PictureBar | null {
  const { studio, state } = view;
  const window = job.status === 'active' ? nextWindow(job, conditionsOf(state, studio)) : null;
  if (window === null) return null;
  const { opensAt, closesAt } = timesOf(window);
  if (opensAt === null || closesAt === null || closesAt <= opensAt) return null;
  return { from: opensAt, until: closesAt, what: stateOf(job, view) === 'missed' ? 'missed' : 'window', title: '' };
}

/** What a job that has no plan is drawn with. */
export interface Unplanned {
  /** The step that finds no place; null where nothing is said of any. */
  readonly unfit: string | null;
  readonly staffed: readonly TimeSpan[] | null;
}

/** Steps as bars, with the waits between them. Past what does not fit, or lies where nobody is on shift, none is planned. */
export function timelineBars(job: JobState, view: BenchView, { unfit, staffed }: Unplanned): PictureBar[] {
  const { studio, state, now } = view;
  const conditions = conditionsOf(state, studio);
  const entries = timelineOf(job, conditions, now);
  const handsOf = (id: string) => (job.steps.find(({ plan }) => plan.id === id)?.plan.handsMinutes ?? 0) * MINUTE;
  const attended = (span: TimeSpan) => staffed === null || isWithin(staffed, span);
  let planned = true;
  const bars = entries.flatMap(({ step, startsAt, endsAt, title, state: at }): PictureBar[] => {
    if (startsAt === null || endsAt === null) return [];
    // Of what was begun and left, the cups are over: it begins anew.
    const anew = at === 'open' && startsAt < now;
    const span = anew ? { from: now, until: now + handsOf(step) } : { from: startsAt, until: endsAt };
    const bar = { ...span, what: LOOK_OF[at], title };
    if (step === unfit && (bar.what === 'hands' || bar.what === 'go')) {
      planned = false;
      return [{ ...bar, what: 'unfit' }];
    }
    // Until somebody decides, nothing after a missed window is planned.
    if (bar.what === 'missed') planned = false;
    if (bar.what !== 'hands') return [bar];
    planned = planned && attended(bar);
    return [planned ? bar : { ...bar, what: 'earliest' }];
  });
  const window = nextWindow(job, conditions);
  const touch = entries.find((entry) => entry.state === 'touch');
  if (!touch || !window) return bars;
  const last = job.steps[nextIndex(job) - 1]?.done?.at ?? now;
  return [...bars, { from: last, until: Math.max(now, window.opensAt) + 30 * MINUTE, what: 'touch', title: 'touch it' }];
}

/** Whether one after the other, or beside each other, they leave no gap in `span`. */
function isWithin(spans: readonly TimeSpan[], span: TimeSpan): boolean {
  let at = span.from;
  for (const { from, until } of [...spans].sort((a, b) => a.from - b.from)) if (from <= at) at = Math.max(at, until);
  return at >= span.until;
}

/** What could go on now but is planned for later is to come. */
export const plannedState = (first: PlannedTime | undefined, state: What, now: number): What =>
  state === 'go' && first !== undefined && first.startsAt > now ? 'hands' : state;

/** What is done, and what is planned; the first planned step is the one that is due. */
export function plannedBars(steps: readonly PlannedTime[], job: JobState, view: BenchView): PictureBar[] {
  const state = stateOf(job, view);
  const lookOf = (step: PlannedTime, index: number): What => {
    if (state === 'held') return 'held';
    return index > 0 || state === 'touch' ? 'hands' : plannedState(step, state, view.now);
  };
  return [
    ...timelineBars(job, view, { unfit: null, staffed: null }).filter(({ what }) => what === 'done'),
    ...steps.map((step, index) => ({ from: step.startsAt, until: step.endsAt, what: lookOf(step, index), title: step.title })),
  ];
}

/** In order of time, none over another, and what lies between two steps as a wait. */
export function chained(bars: readonly PictureBar[]): PictureBar[] {
  const chain: PictureBar[] = [];
  for (const bar of [...bars].sort((a, b) => a.from - b.from)) {
    const last = chain.at(-1);
    const from = Math.max(bar.from, last?.until ?? bar.from);
    if (last && from - last.until >= MINUTE) chain.push({ from: last.until, until: from, what: 'wait', title: '' });
    if (bar.until > from) chain.push({ ...bar, from });
  }
  return chain;
}
