import { conditionsOf } from '../bench/conditions.ts';
import { openCups } from '../bench/fold.ts';
import type { JobPlan } from '../bench/planning/plan.ts';
import { plannedLater } from '../bench/planning/planned-later.ts';
import { planNow } from '../bench/planning/standing.ts';
import { type Card, card } from '../chat/card.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { type TimelineEntry, timelineOf } from '../job/timeline.ts';
import { hasOpened, isMissed, nextWindow, timesOf } from '../job/window.ts';
import type { Way } from '../words/refusal.ts';
import { clock, joined, person, plain, say, strong, type Text } from '../words/text.ts';
import { type BenchView, briefData, byUrgency, cupLines, isForgotten, temperatureLine } from './brief-card.ts';
import { isoIn } from './iso.ts';
import { waysOn } from './job-card.ts';
import { movedLately } from './moved.ts';
import { shortTroubles, troubleData } from './trouble-card.ts';
import { goodUntil, usableLine } from './usable.ts';
import { jobData, timelineData, windowText } from './words.ts';

/** How much of the past and of the future one board shows, so that it can be read at arm's length. */
const PAST_ENTRIES = 3;
const COMING_ENTRIES = 10;
/** The longest label of a button, in characters. */
const MOST_LABEL = 80;

/** Every job of the bench: first what is due first, then one common timeline with now marked on it. */
export function boardCard(view: BenchView): Card {
  const { state, studio, now } = view;
  const jobs = byUrgency(view);
  const conditions = conditionsOf(state, studio);
  const timelines = jobs.map((job) => ({ job, entries: timelineOf(job, conditions, now) }));
  const first = jobs[0];
  const { troubles, plans, world } = planNow(state, studio, now);
  const late =
    jobs.some((job) => isMissed(job, conditions, now)) ||
    openCups(state).some(
      (cup) => (goodUntil(state, cup, now) ?? Number.POSITIVE_INFINITY) <= now && !isForgotten(state, cup, now),
    );
  return card(
    say`Board at ${clock(now)}: ${plain(jobs.length === 1 ? '1 open job' : `${jobs.length} open jobs`)}`,
    [
      ...(jobs.length === 0
        ? [say`Nothing is going on here. Start with /job start.`]
        : jobs.flatMap((job, index) => [say`${index + 1}. ${dueLine(job.id, view)}`, ...warning(job, view)])),
      ...shortTroubles(troubles, studio),
      ...cupLines(view),
      ...(jobs.length === 0
        ? []
        : [
            say``,
            ...common(world.staffed === null ? timelines : timelines.map((each) => asPlanned(each, plans.get(each.job.id))), now),
          ]),
      temperatureLine(view),
      ...movedLately(state, studio, now),
    ],
    {
      data: {
        board: briefData(view),
        timeline: timelines.flatMap(({ job, entries }) =>
          timelineData(entries, isoIn(studio.zone)).map((entry) => ({ job: job.id, ...entry })),
        ),
        jobs: jobs.map(jobData),
        troubles: troubleData(troubles, studio),
      },
      buttons: first ? waysOn({ job: first, ...view }).map((way) => (jobs.length === 1 ? way : ofJob(way, first.name))) : [],
      tone: late ? 'late' : 'calm',
    },
  );
}

/** Among several jobs a button says whose it is, in as many characters as a button has. */
const ofJob = (way: Way, name: string): Way => ({ ...way, label: shortened(`${way.label}: ${name}`) });

const shortened = (label: string) => (label.length <= MOST_LABEL ? label : `${label.slice(0, MOST_LABEL - 1).trimEnd()}…`);

const warning = (job: JobState, { state, studio, now }: BenchView): Text[] =>
  job.status === 'active' ? usableLine(job, state, now, studio.units).map((line) => say`   ${line}`) : [];

/** One job in one line: what to do, by when, who. */
export function dueLine(id: string, { state, studio, now }: BenchView): Text {
  const job = state.jobs.get(id);
  if (!job) return say``;
  const step = job.steps[nextIndex(job)]?.plan;
  const who = say`, with ${person(job.holder)}`;
  if (job.status === 'held')
    return say`${strong(say`${job.name}`)}: on hold${job.heldFor === null ? say`` : say` (${job.heldFor})`}${who}`;
  if (!step) return say`${strong(say`${job.name}`)}: ${plain(job.status)}${who}`;
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now)) return say`${strong(say`${job.name}`)}: window for ${step.title} missed, decide${who}`;
  const later = plannedLater(planNow(state, studio, now), job);
  if (later !== null) return say`${strong(say`${job.name}`)}: ${step.title}, planned for ${clock(later.at)}${who}`;
  const when =
    window && (!hasOpened(window, now) || timesOf(window).closesAt !== null) ? say`, ${windowText(window, now)}` : say`, now`;
  return say`${strong(say`${job.name}`)}: ${step.title}${when}${who}`;
}

interface JobEntries {
  readonly job: JobState;
  readonly entries: readonly TimelineEntry[];
}
type Entries = readonly JobEntries[];

/** Its steps to come at the times at which they are planned, with somebody there; what cannot be planned has none. */
function asPlanned({ job, entries }: JobEntries, plan: JobPlan | undefined): JobEntries {
  const planned = new Map(plan?.steps.map((time) => [time.step, time]));
  return {
    job,
    entries: entries.map((entry) => {
      const time = planned.get(entry.step);
      if (entry.state === 'done') return entry;
      return time
        ? { ...entry, startsAt: time.startsAt, endsAt: time.endsAt, closesAt: time.latestAt }
        : { ...entry, startsAt: entry.state === 'later' ? null : entry.startsAt };
    }),
  };
}

/** What was and what comes, of all jobs in one order of time. */
function common(timelines: Entries, now: number): Text[] {
  const all = timelines.flatMap(({ job, entries }) => entries.map((entry) => ({ name: job.name, status: job.status, entry })));
  const past = all.filter(({ entry }) => entry.state === 'done').sort((a, b) => (a.entry.endsAt ?? 0) - (b.entry.endsAt ?? 0));
  const coming = all
    .filter(({ entry, status }) => entry.state !== 'done' && entry.startsAt !== null && status !== 'held')
    .sort((a, b) => (a.entry.startsAt ?? 0) - (b.entry.startsAt ?? 0));
  const line = (mark: string, at: number | null, { name, entry }: (typeof all)[number]) =>
    say`${plain(mark)} ${clock(at ?? now)}  ${name}: ${entry.title}${stateNote(entry)}`;
  const rest = coming.length - COMING_ENTRIES;
  return [
    ...past.slice(-PAST_ENTRIES).map((each) => line('✓', each.entry.endsAt, each)),
    say`▶ ${clock(now)}  now`,
    ...coming.slice(0, COMING_ENTRIES).map((each) => line('·', each.entry.startsAt, each)),
    ...(rest > 0 ? [say`  and ${rest} more`] : []),
  ];
}

function stateNote({ state, closesAt }: TimelineEntry): Text {
  const words: Text[] = state === 'done' || state === 'later' ? [] : [say`${plain(state)}`];
  if (state !== 'done' && closesAt !== null) words.push(say`by ${clock(closesAt)}`);
  return words.length === 0 ? say`` : say` (${joined(words, ', ')})`;
}
