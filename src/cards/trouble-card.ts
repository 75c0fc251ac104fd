import { type Change, nearestChanges } from '../bench/planning/changes.ts';
import type { BenchPlan, Trouble } from '../bench/planning/plan-bench.ts';
import { withoutJob } from '../bench/planning/plan-bench.ts';
import type { Studio } from '../bench/studio.ts';
import type { Way } from '../words/refusal.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';
import { causeData, causeText, changeData, changeLabel, dayTyped, hoursTyped } from './plan-trouble.ts';

/** What does not fit any more, why, and what can be done about it. */
export interface Told {
  readonly lines: readonly Text[];
  readonly ways: readonly Way[];
  readonly data: readonly unknown[];
}

/** `studio`, `now`: as the plan was made. */
export function tellTroubles(troubles: readonly Trouble[], plan: BenchPlan, studio: Studio, now: number): Told {
  const told = troubles.map((trouble) => ({ trouble, changes: changesFor(trouble, plan) }));
  const iso = isoIn(studio.zone);
  return {
    lines: told.flatMap(({ trouble, changes }) => [
      headLine(trouble),
      causeText(trouble.title, trouble.cause, studio),
      ...(changes.length === 0
        ? []
        : [
            say`What would do: ${joined(
              changes.map((change) => say`${plain(lower(changeLabel(change, studio, now)))}`),
              ', or ',
            )}.`,
          ]),
    ]),
    // What helps two jobs is one button.
    ways: told
      .flatMap(({ changes }) => changes.flatMap((change) => wayTo(change, studio, now)))
      .filter((way, index, all) => all.findIndex(({ label }) => label === way.label) === index),
    data: told.map(({ trouble, changes }) => ({
      job: trouble.job,
      step: trouble.step,
      cause: causeData(trouble.cause, iso),
      clash: trouble.clash.map(({ job }) => job),
      changes: changes.map((change) => changeData(change, iso)),
    })),
  };
}

/** The same in few words, for boards and briefs: what does not fit, and why. */
export const shortTroubles = (troubles: readonly Trouble[], studio: Studio): Text[] =>
  troubles.slice(0, MOST_SHORT).map((trouble) => say`${headLine(trouble)} ${causeText(trouble.title, trouble.cause, studio)}`);

/** More of them than these are one trouble: too few hands. */
const MOST_SHORT = 3;

export const troubleData = (troubles: readonly Trouble[], studio: Studio) =>
  troubles.map(({ job, step, cause, clash }) => ({
    job,
    step,
    cause: causeData(cause, isoIn(studio.zone)),
    clash: clash.map((other) => other.job),
  }));

const lower = (label: string) => label.replace(/^./, (letter) => letter.toLowerCase());

function headLine({ name, title, cause, clash }: Trouble): Text {
  if (cause.kind === 'late') return say`${strong(say`${name} will not be ready in time`)}.`;
  if (clash.length === 0) return say`${strong(say`${title} of ${name} does not fit any more`)}.`;
  const others = joined(
    clash.slice(0, 3).map((other) => say`${other.name}`),
    ', ',
    ' and ',
  );
  return say`${strong(say`${title} of ${name} clashes with ${others}`)}: there are not hands enough for both.`;
}

/** Of a job under way the start and the promise stand; hands and the room can be changed. */
function changesFor(trouble: Trouble, plan: BenchPlan): Change[] {
  return nearestChanges(withoutJob(plan, trouble.job), trouble.unfit).filter(({ kind }) => kind === 'hands' || kind === 'room');
}

/** What can be pressed for it. */
function wayTo(change: Change, studio: Studio, now: number): Way[] {
  const label = changeLabel(change, studio, now);
  if (change.kind === 'hands')
    return [
      {
        label,
        command: 'shift extra',
        options: { on: dayTyped(change.from, studio.zone), hours: hoursTyped(change, studio.zone), hands: '1' },
      },
    ];
  return [];
}
