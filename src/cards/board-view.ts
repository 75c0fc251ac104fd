import { DateTime } from 'luxon';
import { conditionsOf } from '../bench/conditions.ts';
import type { JobPlan, PlannedTime } from '../bench/planning/plan.ts';
import { plainText, type Reader } from '../chat/plain.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { type TimelineEntry, type TimelineState, timelineOf } from '../job/timeline.ts';
import { atWork, hasOpened, isMissed, needsTouch, nextWindow, timesOf } from '../job/window.ts';
import type { BoardPicture, PictureBar, PictureRow, TimeSpan } from '../picture/models.ts';
import type { What } from '../picture/palette.ts';
import { HOUR, MINUTE } from '../trade/time/calendar.ts';
import { away, clock, type Sayable, say } from '../words/text.ts';
import { type BenchView, byUrgency } from './brief-card.ts';
import { nightsBetween } from './nights.ts';

/** What a picture shows besides the bench itself. */
export interface Beside {
  /** What is planned, by the job's id; where a job has a plan, its planned times are shown. */
  readonly plans?: ReadonlyMap<string, JobPlan>;
  /** When somebody is on shift; null where no shifts are kept. */
  readonly staffed: readonly TimeSpan[] | null;
  /** What to call a person; nothing where that is not known. */
  readonly names?: Reader['names'];
}

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

/** A picture stays in the chat for days, and says of which moment it is: "Mon 2 Mar, 10:10". */
export const momentText = (at: number, zone: string): string =>
  DateTime.fromMillis(at, { zone, locale: 'en' }).toFormat('ccc d LLL, HH:mm');

/** Every open job of the bench, the one whose clock runs out first at the head. */
export function boardModel(view: BenchView, beside: Beside): BoardPicture {
  const { studio, now, state } = view;
  const jobs = byUrgency(view);
  const rows = jobs.map((job) => rowOf(job, view, beside));
  const first = rows[0];
  return {
    now,
    zone: studio.zone,
    title: `Board, ${momentText(now, studio.zone)}${jobs.length > 1 ? `, ${jobs.length} open jobs` : ''}`,
    headline: first ? `${first.name}: ${first.due}` : 'Nothing is going on here',
    lines: first ? [] : ['Start with /job start.'],
    rows,
    staffed: beside.staffed,
    nights: nightsBetween(state, studio, reach(rows, now)),
    scale: 'near-first',
  };
}

/** From the first to the last instant that any row shows. */
export const reach = (rows: readonly PictureRow[], now: number): TimeSpan => {
  const bars = rows.flatMap((row) => row.bars);
  return {
    from: Math.min(now - HOUR, ...bars.map(({ from }) => from)),
    until: Math.max(now + 3 * HOUR, ...bars.map(({ until }) => until)),
  };
};

function rowOf(job: JobState, view: BenchView, { plans, names }: Beside): PictureRow {
  const { studio, state, now } = view;
  const conditions = conditionsOf(state, studio);
  const plan = plans?.get(job.id);
  const entries = timelineOf(job, conditions, now);
  const bars = plan
    ? [
        ...barsOf(
          entries.filter((entry) => entry.state === 'done'),
          job,
          view,
        ),
        ...plannedBars(plan.steps, job, view),
      ]
    : barsOf(entries, job, view);
  return {
    name: job.name,
    who: named(job.holder, names),
    due: dueWords(job, view, plan),
    state: stateOf(job, view),
    bars: chained(bars),
    window: windowBar(job, view),
  };
}

/** A person's id that is a bare number says nothing to anybody. */
function named(id: string, names: Reader['names']): string {
  const name = names?.(id) ?? id;
  return /^\d+$/.test(name) ? '' : name;
}

export function stateOf(job: JobState, { studio, state, now }: BenchView): What {
  if (job.status === 'held') return 'held';
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now)) return 'missed';
  if (atWork(job, now)) return 'begun';
  if (window && needsTouch(window)) return 'touch';
  return window === null || hasOpened(window, now) ? 'go' : 'hands';
}

/** What is due next of one job, in as few words as are needed: "Coat 3 at 10:45 (in 35 min), by 13:00". */
export function dueWords(job: JobState, view: BenchView, plan?: JobPlan): string {
  const { studio, state, now } = view;
  const words = (ours: TemplateStringsArray, ...theirs: Sayable[]) => plainText(say(ours, ...theirs), { zone: studio.zone, now });
  if (job.status === 'held') return job.heldFor === null ? 'on hold' : `on hold: ${job.heldFor}`;
  const title = job.steps[nextIndex(job)]?.plan.title;
  const window = nextWindow(job, conditionsOf(state, studio));
  if (title === undefined || window === null) return 'all steps done';
  const { closesAt } = timesOf(window);
  const by = closesAt === null ? '' : words`, by ${clock(closesAt)}`;
  switch (stateOf(job, view)) {
    case 'missed':
      return `${title} missed its window, decide`;
    case 'begun':
      return `${title} at work${by}`;
    case 'touch':
      return now < window.opensAt
        ? words`touch it at ${clock(window.opensAt)}, before ${title}`
        : `touch it now, before ${title}`;
    case 'go': {
      const planned = plan?.steps[0];
      return planned && planned.startsAt > now ? words`${title} at ${clock(planned.startsAt)}${by}` : `${title} now${by}`;
    }
    default: {
      const at = plan?.steps[0]?.startsAt ?? window.opensAt;
      return words`${title} at ${clock(at)} (${away(at)})${by}`;
    }
  }
}

/** The window in which what is due may begin. */
function windowBar(job: JobState, view: BenchView): PictureBar | null {
  const { studio, state } = view;
  const window = job.status === 'active' ? nextWindow(job, conditionsOf(state, studio)) : null;
  if (window === null) return null;
  const { opensAt, closesAt } = timesOf(window);
  if (opensAt === null || closesAt === null || closesAt <= opensAt) return null;
  return { from: opensAt, until: closesAt, what: stateOf(job, view) === 'missed' ? 'missed' : 'window', title: '' };
}

/** Steps as bars, with the waits between them. */
function barsOf(entries: readonly TimelineEntry[], job: JobState, view: BenchView): PictureBar[] {
  const { studio, state, now } = view;
  const window = nextWindow(job, conditionsOf(state, studio));
  const bars = entries.flatMap(({ startsAt, endsAt, title, state: at }): PictureBar[] => {
    if (startsAt === null || endsAt === null) return [];
    return [{ from: startsAt, until: endsAt, what: LOOK_OF[at], title }];
  });
  const touch = entries.find((entry) => entry.state === 'touch');
  if (!touch || !window) return bars;
  const last = job.steps[nextIndex(job) - 1]?.done?.at ?? now;
  return [...bars, { from: last, until: Math.max(now, window.opensAt) + 30 * MINUTE, what: 'touch', title: 'touch it' }];
}

/** The first planned step is the one that is due. */
function plannedBars(steps: readonly PlannedTime[], job: JobState, view: BenchView): PictureBar[] {
  const state = stateOf(job, view);
  const lookOf = ({ startsAt }: PlannedTime, index: number): What => {
    if (state === 'held') return 'held';
    if (index > 0 || state === 'touch' || (state === 'go' && startsAt > view.now)) return 'hands';
    return state;
  };
  return steps.map((step, index) => ({ from: step.startsAt, until: step.endsAt, what: lookOf(step, index), title: step.title }));
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
