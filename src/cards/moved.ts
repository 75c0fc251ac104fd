import { conditionsOf } from '../bench/conditions.ts';
import { type BenchState, type CupState, openCups } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import { type JobState, nextIndex, nextStep } from '../job/state.ts';
import { needsTouch, nextWindow, timesOf, type Window } from '../job/window.ts';
import { minutesText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, joined, plain, say, strong, type Text } from '../words/text.ts';
import { byUrgency } from './brief-card.ts';
import { isoIn } from './iso.ts';
import { goodUntil, outsideLine } from './usable.ts';

/** The bench before and after somebody said something of its temperature. */
interface Change {
  readonly before: BenchState;
  readonly after: BenchState;
  readonly studio: Studio;
  readonly now: number;
  /** What was begun only after this was told has been reckoned with it from the start; left out, it was told just now. */
  readonly told?: { readonly at: number; readonly seq: number };
}

interface MovedJob {
  readonly job: JobState;
  readonly before: Window;
  readonly after: Window;
}

interface MovedCup {
  readonly cup: CupState;
  readonly before: number | null;
  readonly after: number | null;
}

/** Less than a minute is nothing that anybody could act upon. */
const apart = (one: number | null, other: number | null) =>
  one === null || other === null ? one !== other : Math.abs(one - other) >= MINUTE;

export function movedJobs({ before, after, studio, now, told }: Change): MovedJob[] {
  return byUrgency({ state: after, studio, now }).flatMap((job) => {
    const last = job.steps[nextIndex(job) - 1]?.done;
    if (told && last && last.seq > told.seq) return [];
    const was = nextWindow(job, conditionsOf(before, studio));
    const is = nextWindow(job, conditionsOf(after, studio));
    if (!was || !is) return [];
    const [from, to] = [timesOf(was), timesOf(is)];
    return apart(from.opensAt, to.opensAt) || apart(from.closesAt, to.closesAt) ? [{ job, before: was, after: is }] : [];
  });
}

const movedCups = ({ before, after, now, told }: Change): MovedCup[] =>
  openCups(after)
    .filter(({ startedAt }) => !told || startedAt < told.at)
    .map((cup) => ({ cup, before: goodUntil(before, cup, now), after: goodUntil(after, cup, now) }))
    .filter((each) => apart(each.before, each.after));

/** "opens at 09:50, 35 min later": the new time first, then by how much it moved. */
function shift(word: string, was: number | null, is: number | null): Text[] {
  if (is === null || !apart(was, is)) return [];
  const by =
    was === null ? say`` : say`, ${plain(minutesText(Math.abs(is - was) / MINUTE))} ${plain(is > was ? 'later' : 'earlier')}`;
  return [say`${plain(word)} ${strong(clock(is))}${by}`];
}

function jobLines({ job, before, after }: MovedJob, { studio }: Change): Text[] {
  const [from, to] = [timesOf(before), timesOf(after)];
  const title = nextStep(job)?.plan.title ?? '';
  const moves = [...shift('opens at', from.opensAt, to.opensAt), ...shift('closes at', from.closesAt, to.closesAt)];
  if (moves.length > 0) return [say`${strong(say`${job.name}`)}: ${title} ${joined(moves, '; ')}.`];
  return [say`${strong(say`${job.name}`)}: ${title} has no time any more.`, ...outsideLine(job, after, studio.units)];
}

/** Every open wait, window and pot life that moved, and by how much; empty where none did. */
const linesOf = (change: Change): Text[] => [
  ...cupLines(change),
  ...movedJobs(change).flatMap((moved) => jobLines(moved, change)),
];

const cupLines = (change: Change): Text[] =>
  movedCups(change).map(
    ({ cup, before, after }) =>
      say`${strong(say`${cup.id}`)} (${cup.material.name}): ${after === null ? say`no clock can tell any more how long it is good; watch it` : joined(shift('good until', before, after), '; ')}.`,
  );

/** The same, for whoever has just said something of the temperature. */
export function movedLines(change: Change): Text[] {
  const lines = linesOf(change);
  return lines.length === 0 ? [say`No open wait, window or pot life moves.`] : lines;
}

/** What was told last of the bench's temperature, as a change. */
export function lastChange(state: BenchState, studio: Studio, now: number): Change {
  const all = [...state.temperatures, ...state.expectations].map(({ at, seq = 0 }) => ({ at, seq }));
  const told = all.reduce((last, each) => (each.seq > last.seq ? each : last), { at: 0, seq: 0 });
  const others = <T extends { readonly seq?: number }>(list: readonly T[]) => list.filter(({ seq }) => seq !== told.seq);
  const before = { ...state, temperatures: others(state.temperatures), expectations: others(state.expectations) };
  return { before, after: state, studio, now, told };
}

/** It has moved these, as they still are to come. */
export function movedLately(state: BenchState, studio: Studio, now: number): Text[] {
  const change = lastChange(state, studio, now);
  // What has no time any more says so by itself, and why.
  const lines = [
    ...cupLines(change),
    ...movedJobs(change).flatMap((moved) => (needsTouch(moved.after) ? [] : jobLines(moved, change))),
  ];
  return lines.length === 0 ? [] : [say`Moved by what was read or expected last:`, ...lines.map((line) => say`  ${line}`)];
}

/** The same in numbers; instants as ISO text, null where nobody can tell. */
export function movedData(change: Change) {
  const isoOf = isoIn(change.studio.zone);
  const iso = (at: number | null) => (at === null ? null : isoOf(at));
  return {
    moved: movedJobs(change).map(({ job, before, after }) => {
      const [from, to] = [timesOf(before), timesOf(after)];
      return {
        job: job.id,
        step: nextStep(job)?.plan.id ?? null,
        opensAtBefore: iso(from.opensAt),
        opensAt: iso(to.opensAt),
        closesAtBefore: iso(from.closesAt),
        closesAt: iso(to.closesAt),
      };
    }),
    movedCups: movedCups(change).map(({ cup, before, after }) => ({
      cup: cup.id,
      goodUntilBefore: iso(before),
      goodUntil: iso(after),
    })),
  };
}
