import { celsiusOn, conditionsOf } from '../bench/conditions.ts';
import { type BenchState, type CupState, laidFor, openCups, openJobs } from '../bench/fold.ts';
import { potOverAt } from '../bench/pings.ts';
import { planNow } from '../bench/planning/standing.ts';
import type { Studio } from '../bench/studio.ts';
import { type JobState, nextIndex, type Remark } from '../job/state.ts';
import { needsTouch, nextWindow, timesOf } from '../job/window.ts';
import { temperatureText } from '../trade/measures/format.ts';
import { HOUR } from '../trade/time/calendar.ts';
import { away, clock, code, joined, person, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';
import { nextLines, progress } from './job-card.ts';
import { missingLines } from './shift-card.ts';
import { shortTroubles } from './trouble-card.ts';
import { goodUntil } from './usable.ts';
import { gramsLeft, mass, roundTo } from './words.ts';

export interface BenchView {
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
}

/** Open jobs, the one whose clock runs out first at the head. */
export function byUrgency({ state, studio, now }: BenchView): JobState[] {
  const rank = (job: JobState) => {
    const window = nextWindow(job, conditionsOf(state, studio));
    if (job.status === 'held' || window === null) return Number.POSITIVE_INFINITY;
    if (needsTouch(window)) return Math.min(window.opensAt, now);
    return now < window.opensAt ? window.opensAt : Math.min(window.closesAt ?? now, now);
  };
  return openJobs(state).sort((a, b) => rank(a) - rank(b) || a.startedAt - b.startedAt);
}

/** Grams still to mix on a job, by material, for the steps that are not done, as weighed out; what is poured already is off. */
function stillToMix(job: JobState, { state, studio, now }: BenchView): { material: string; title: string; grams: number }[] {
  const left = new Map<string, { material: string; title: string; grams: number }>();
  for (const { plan } of job.steps.slice(nextIndex(job))) {
    if (!plan.material) continue;
    const before = left.get(plan.material.id)?.grams ?? 0;
    const grams = before + gramsLeft(plan, studio, laidFor(state, job, plan, now));
    left.set(plan.material.id, { material: plan.material.id, title: plan.material.name, grams });
  }
  return [...left.values()].filter(({ grams }) => grams >= 0.5);
}

/** What whoever takes over must know: each job, the cups, what is still to mix, what went differently, the temperature. */
export function briefLines(view: BenchView, only?: readonly string[]): Text[] {
  const jobs = byUrgency(view).filter((job) => only === undefined || only.includes(job.id));
  if (jobs.length === 0) return [say`No open job on this bench.`];
  const { troubles } = planNow(view.state, view.studio, view.now);
  const theirs = troubles.filter((trouble) => jobs.some(({ id }) => id === trouble.job));
  return [
    ...jobs.flatMap((job) => ofJob(job, view, jobs)),
    ...sharedNotes(jobs),
    ...shortTroubles(theirs, view.studio),
    ...cupLines(view),
    ...missingLines(view.studio, view.now),
    temperatureLine(view),
  ];
}

/** With whom a note is shared: it is told to each job that was handed over with it. */
const jobsWith = (note: Remark, jobs: readonly JobState[]): JobState[] =>
  jobs.filter(({ notes }) => notes.some(({ at, by, text }) => at === note.at && by === note.by && text === note.text));

/** "Note of 17:40, @dana, for Lion and Bear: left ears run thin". Read once, however many jobs it was told to. */
function sharedNotes(jobs: readonly JobState[]): Text[] {
  const all = jobs.flatMap(({ notes }) => notes);
  return all.flatMap((note, index) => {
    const theirs = jobsWith(note, jobs);
    const first = all.findIndex(({ at, by, text }) => at === note.at && by === note.by && text === note.text);
    if (theirs.length < 2 || first !== index) return [];
    const names = joined(
      theirs.map(({ name }) => say`${name}`),
      ', ',
      ' and ',
    );
    return [say`${remarkHead(note)}, for ${names}: ${note.text}`];
  });
}

const remarkHead = ({ at, by }: Remark): Text => say`Note of ${clock(at)}, ${person(by)}`;

function ofJob(job: JobState, view: BenchView, jobs: readonly JobState[]): Text[] {
  const { studio } = view;
  const left = stillToMix(job, view);
  const own = job.notes.filter((note) => jobsWith(note, jobs).length === 1);
  const remarks = [...job.deviations, ...own].sort((a, b) => a.at - b.at);
  return [
    say`${strong(say`${job.name}`)} (${progress(job)}), with ${person(job.holder)}.`,
    ...nextLines({ job, ...view }).map((line) => say`  ${line}`),
    ...(left.length > 0
      ? [
          say`  Still to mix: ${joined(
            left.map((each) => say`${mass(each.grams, studio)} of ${each.title}`),
            ', ',
          )}.`,
        ]
      : []),
    ...remarks.map((remark) => say`  ${remarkHead(remark)}: ${remark.text}`),
  ];
}

/** A cup that has been over for so long is a matter of the bin, and of nobody's next step. */
const FORGOTTEN = 6 * HOUR;
export const isForgotten = (state: BenchState, cup: CupState, now: number): boolean => potOverAt(state, cup) + FORGOTTEN < now;

export function cupLines({ state, studio, now }: BenchView): Text[] {
  const open = openCups(state);
  const forgotten = open.filter((cup) => isForgotten(state, cup, now));
  const lines = open
    .filter((cup) => !forgotten.includes(cup))
    .map((cup) => {
      const over = goodUntil(state, cup, now);
      const amount = cup.grams === null ? say`` : say`${mass(cup.grams, studio)} of `;
      return say`${cup.id}: ${amount}${cup.material.name}, mixed at ${clock(cup.startedAt)}${stateOf(over, now)}.`;
    });
  if (forgotten.length === 0) return lines;
  const names = joined(
    forgotten.map((cup) => say`${cup.id}`),
    ', ',
    ' and ',
  );
  return [
    ...lines,
    say`Over for hours, and not called spent: ${names}. ${code(`/cup discard cup:${forgotten[0]?.id}`)} tidies up.`,
  ];
}

function stateOf(over: number | null, now: number): Text {
  if (over === null) return say`; ${strong(say`no clock can tell`)} how long it is good: look at it`;
  if (over <= now) return say`, over since ${strong(clock(over))}: do not brush it on`;
  return say`, good until ${strong(clock(over))} (${away(over)})`;
}

export function temperatureLine({ state, studio, now }: BenchView): Text {
  const read = state.temperatures.findLast((reading) => reading.at <= now);
  const celsius = celsiusOn(state, now);
  if (!read && celsius === null) return say`No temperature is logged: the clocks run at the data sheet's speed.`;
  const shown = (value: number) => plain(temperatureText(value, studio.units));
  if (!read) return say`Bench at ${shown(celsius ?? 0)}, as expected; nobody has read it.`;
  const damp = dampAt(state, now);
  const together = damp === read ? say`, ${damp.humidityPercent ?? 0} % humidity` : say``;
  const apart = damp && damp !== read ? say` Humidity ${damp.humidityPercent ?? 0} %, read at ${clock(damp.at)}.` : say``;
  if (celsius !== null && celsius !== read.celsius)
    return say`Bench at ${shown(celsius)}, as expected; read last: ${shown(read.celsius)}${together} at ${clock(read.at)}.${apart}`;
  return say`Bench at ${shown(read.celsius)}${together}, read at ${clock(read.at)}.${apart}`;
}

/** The last reading that says how damp it is. */
const dampAt = ({ temperatures }: BenchState, now: number) =>
  temperatures.findLast((reading) => reading.at <= now && reading.humidityPercent != null);

/** The brief in numbers. */
export function briefData(view: BenchView, only?: readonly string[]) {
  const { state, studio, now } = view;
  const iso = isoIn(studio.zone);
  const jobs = byUrgency(view).filter((job) => only === undefined || only.includes(job.id));
  return {
    jobs: jobs.map((job) => {
      const window = nextWindow(job, conditionsOf(state, studio));
      const times = window ? timesOf(window) : { opensAt: null, closesAt: null };
      return {
        id: job.id,
        name: job.name,
        holder: job.holder,
        status: job.status,
        step: job.steps[nextIndex(job)]?.plan.id ?? null,
        opensAt: times.opensAt === null ? null : iso(times.opensAt),
        closesAt: times.closesAt === null ? null : iso(times.closesAt),
        stillToMix: stillToMix(job, view).map(({ material, grams }) => ({
          material,
          grams: roundTo(grams, studio.scale.stepGrams),
        })),
        deviations: job.deviations.map((remark) => remark.text),
        notes: job.notes.map((remark) => remark.text),
      };
    }),
    cups: openCups(state).map((cup) => {
      const over = goodUntil(state, cup, now);
      return {
        cup: cup.id,
        material: cup.material.id,
        grams: cup.grams,
        job: cup.job,
        startedAt: iso(cup.startedAt),
        /** Null where no clock can tell. */
        goodUntil: over === null ? null : iso(over),
        over: over !== null && over <= now,
      };
    }),
    temperature:
      celsiusOn(state, now) === null
        ? null
        : { celsius: celsiusOn(state, now), humidityPercent: dampAt(state, now)?.humidityPercent ?? null },
  };
}
