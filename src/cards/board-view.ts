import { DateTime } from 'luxon';
import { conditionsOf } from '../bench/conditions.ts';
import { openCups } from '../bench/fold.ts';
import type { JobPlan } from '../bench/planning/plan.ts';
import { slackMinutes } from '../bench/planning/plan.ts';
import { plainText, type Reader } from '../chat/plain.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { nextWindow, timesOf } from '../job/window.ts';
import type { BoardPicture, PictureRow, TimeSpan } from '../picture/models.ts';
import { HOUR } from '../trade/time/calendar.ts';
import { away, clock, type Sayable, say } from '../words/text.ts';
import { chained, plannedBars, plannedState, stateOf, timelineBars, windowBar } from './bars-view.ts';
import { type BenchView, byUrgency } from './brief-card.ts';
import { nightsBetween } from './nights.ts';
import { goodUntil } from './usable.ts';

/** What a picture shows besides the bench itself. */
export interface Beside {
  /** What is planned, by the job's id; where a job has a plan, its planned times are shown. */
  readonly plans?: ReadonlyMap<string, JobPlan>;
  /** What does not fit any more: the step that finds no place, and why, in words. */
  readonly troubles?: readonly { readonly job: string; readonly step: string; readonly words: string }[];
  /** When somebody is on shift; null where no shifts are kept. */
  readonly staffed: readonly TimeSpan[] | null;
  /** What to call a person; nothing where that is not known. */
  readonly names?: Reader['names'];
}

/** A picture stays in the chat for days, and says of which moment it is: "Mon 2 Mar, 10:10". */
export const momentText = (at: number, zone: string): string =>
  DateTime.fromMillis(at, { zone, locale: 'en' }).toFormat('ccc d LLL, HH:mm');

/** Every open job of the bench, the one whose clock runs out first at the head. */
export function boardModel(view: BenchView, beside: Beside): BoardPicture {
  const { studio, now, state } = view;
  const jobs = byUrgency(view);
  const rows = jobs.map((job) => rowOf(job, view, beside));
  const first = rows[0];
  const troubled = rows.length > 1 ? rows.find(({ trouble }) => trouble !== '') : undefined;
  return {
    now,
    zone: studio.zone,
    title: `Board, ${momentText(now, studio.zone)}${jobs.length > 1 ? `, ${jobs.length} open jobs` : ''}`,
    headline: first ? `${first.name}: ${first.due || first.trouble}` : 'Nothing is going on here',
    lines: first ? [] : ['Start with /job start.'],
    trouble: troubled && (troubled !== first || first.due !== '') ? `${troubled.name}: ${troubled.trouble}` : '',
    rows,
    marks: [],
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

function rowOf(job: JobState, view: BenchView, { plans, troubles, names, staffed }: Beside): PictureRow {
  const plan = plans?.get(job.id);
  const trouble = troubles?.find((each) => each.job === job.id);
  const unfit = plan ? null : (trouble?.step ?? null);
  const stuck = unfit !== null && unfit === job.steps[nextIndex(job)]?.plan.id;
  return {
    name: job.name,
    who: named(job.holder, names),
    // When what is due could be begun at the earliest helps nobody where it finds no place.
    due: stuck ? '' : dueWords(job, view, plan),
    state: stuck ? 'unfit' : plan ? plannedState(plan.steps[0], stateOf(job, view), view.now) : stateOf(job, view),
    trouble: trouble?.words ?? '',
    bars: chained(plan ? plannedBars(plan.steps, job, view) : timelineBars(job, view, { unfit, staffed })),
    window: windowBar(job, view),
  };
}

/** A person's id that is a bare number says nothing to anybody. */
function named(id: string, names: Reader['names']): string {
  const name = names?.(id) ?? id;
  return /^\d+$/.test(name) ? '' : name;
}

/** How far off something is, is said where it is no farther off than this. */
const SOON = 2 * HOUR;

/** What is due next of one job, in as few words as are needed: "Coat 3 at 10:45 (in 35 min), by 13:00". */
export function dueWords(job: JobState, view: BenchView, plan?: JobPlan): string {
  const { studio, state, now } = view;
  const words = (ours: TemplateStringsArray, ...theirs: Sayable[]) => plainText(say(ours, ...theirs), { zone: studio.zone, now });
  if (job.status === 'held') return job.heldFor === null ? 'on hold' : `on hold: ${job.heldFor}`;
  const title = job.steps[nextIndex(job)]?.plan.title;
  const window = nextWindow(job, conditionsOf(state, studio));
  if (title === undefined || window === null) return 'all steps done';
  const { closesAt } = timesOf(window);
  const until = (at: number | null) => (at === null ? '' : words`, by ${clock(at)}`);
  const planned = plan?.steps[0];
  const by = planned && slackMinutes(planned) === 0 ? ', no time to spare' : until(planned?.latestAt ?? closesAt);
  switch (plannedState(planned, stateOf(job, view), now)) {
    case 'missed':
      return `${title} missed its window, decide`;
    case 'begun':
      return `${title} at work${cupWords(job, view) || until(closesAt)}`;
    case 'touch':
      return now < window.opensAt
        ? words`touch it at ${clock(window.opensAt)}, before ${title}`
        : `touch it now, before ${title}`;
    case 'go':
      return `${title} now${by}`;
    default: {
      const at = planned?.startsAt ?? window.opensAt;
      return at - now > SOON ? words`${title} at ${clock(at)}${by}` : words`${title} at ${clock(at)} (${away(at)})${by}`;
    }
  }
}

/** How long what is in the cup of the step at work is good; of several, the one that is over first. Empty without a cup. */
function cupWords(job: JobState, { studio, state, now }: BenchView): string {
  const step = job.steps[nextIndex(job)]?.plan.id;
  const cups = openCups(state)
    .filter((cup) => cup.job === job.id && cup.step === step)
    .map((cup) => ({ id: cup.id, until: goodUntil(state, cup, now) }));
  const untold = cups.find(({ until }) => until === null);
  if (untold) return `, look at ${untold.id}`;
  const ends = cups.flatMap(({ id, until }) => (until === null ? [] : [{ id, until }])).sort((a, b) => a.until - b.until);
  const next = ends.find(({ until }) => until > now) ?? ends.at(-1);
  if (!next) return '';
  const words =
    next.until > now ? say`, ${next.id} good until ${clock(next.until)}` : say`, ${next.id} over since ${clock(next.until)}`;
  return plainText(words, { zone: studio.zone, now });
}
