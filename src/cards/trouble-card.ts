import type { Change } from '../bench/planning/changes.ts';
import { changesThatMend } from '../bench/planning/mending.ts';
import type { BenchPlan, Trouble } from '../bench/planning/plan-bench.ts';
import type { Studio } from '../bench/studio.ts';
import { plainText } from '../chat/plain.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, joined, plain, say, strong, type Text } from '../words/text.ts';
import { hoursOptions, momentTyped } from './as-typed.ts';
import { isoIn } from './iso.ts';
import { causeData, causeText, changeData, changeLabel, endText } from './plan-trouble.ts';

/** What does not fit any more, why, and what can be done about it. */
export interface Told {
  readonly lines: readonly Text[];
  readonly ways: readonly Way[];
  readonly data: readonly unknown[];
}

/** `studio`, `now`: as the plan was made. */
export function tellTroubles(troubles: readonly Trouble[], plan: BenchPlan, studio: Studio, now: number): Told {
  const told = troubles.map((trouble) => ({ trouble, changes: changesThatMend(trouble, plan) }));
  return {
    lines: told.flatMap(({ trouble, changes }) => [
      ...wordsOf(trouble, studio),
      ...(changes.length === 0
        ? []
        : [
            say`What would do: ${joined(
              changes.map((change) => say`${plain(lower(labelOf(change, studio, now)))}`),
              ', or ',
            )}.`,
          ]),
    ]),
    ways: unlike(told.flatMap(({ trouble, changes }) => changes.flatMap((change) => wayTo(change, trouble.job, studio, now)))),
    data: told.map(({ trouble, changes }) => ({
      ...dataOf(trouble, studio),
      changes: changes.map((change) => changeData(change, isoIn(studio.zone))),
    })),
  };
}

/** What does not fit, where that was told before: one line each, after `word`, and the likeliest of what would do. `studio`, `now`: as the plan was made. */
export function remindOf(
  word: string,
  troubles: readonly Trouble[],
  plan: BenchPlan,
  { studio, now }: { readonly studio: Studio; readonly now: number },
): Omit<Told, 'data'> {
  const told = troubles.flatMap((trouble) => {
    const text = reminder(trouble, studio);
    const [change] = text === null ? [] : changesThatMend(trouble, plan);
    const ways = change ? wayTo(change, trouble.job, studio, now) : [];
    return text === null ? [] : [{ line: say`${plain(word)}: ${text}`, ways }];
  });
  return { lines: told.map(({ line }) => line), ways: unlike(told.flatMap(({ ways }) => ways)) };
}

/** Null where each card says it as it is: that the bench is too cold, or too warm. */
function reminder({ name, title, cause, clash }: Trouble, studio: Studio): Text | null {
  const step = say`${title} of ${name}`;
  switch (cause.kind) {
    case 'nobody':
      return say`${strong(say`nobody is there for ${step}`)}${cause.goneAt === null ? say`` : say`, from ${clock(cause.goneAt)} on`}.`;
    case 'too-long':
      return say`${strong(say`no time for ${step}`)}${cause.goneAt === null ? say`` : say`, ${endText(cause.goneAt, studio)}`}.`;
    case 'busy':
      return say`${strong(say`no hands for ${step}`)}${clash[0] ? say`, beside ${clash[0].name}` : say``}.`;
    case 'outside':
      return null;
    case 'late':
      return say`${strong(say`${name} is ready ${clock(cause.readyAt)}`)}, and was to be ready by ${clock(cause.readyBy)}.`;
  }
}

/** What does not fit, and the proof. A broken promise needs no more words than the two times. */
function wordsOf(trouble: Trouble, studio: Studio): Text[] {
  const { name, cause, unfit } = trouble;
  const begun = unfit.demand.wish === null ? say`` : say`Begun as it was planned, `;
  if (cause.kind === 'late')
    return [
      say`${begun}${strong(say`${name} is ready ${clock(cause.readyAt)}`)}, and was to be ready by ${clock(cause.readyBy)}.`,
    ];
  return [headLine(trouble), causeText(trouble.title, cause, studio)];
}

/** The same in few words, for boards and briefs: what does not fit, and why. */
export const shortTroubles = (troubles: readonly Trouble[], studio: Studio): Text[] =>
  troubles.slice(0, MOST_SHORT).map((trouble) => joined(wordsOf(trouble, studio), ' '));

/** More of them than these are one trouble: too few hands. */
const MOST_SHORT = 3;

export const troubleData = (troubles: readonly Trouble[], studio: Studio) => troubles.map((trouble) => dataOf(trouble, studio));

const dataOf = ({ job, step, cause, clash }: Trouble, studio: Studio) => ({
  job,
  step,
  cause: causeData(cause, isoIn(studio.zone)),
  clash: clash.map((other) => other.job),
});

/** For pictures, which hold plain words, and few. */
export const troubleWords = (trouble: Trouble, studio: Studio, now: number) => ({
  job: trouble.job,
  step: trouble.step,
  words: plainText(trouble.cause.kind === 'late' ? joined(wordsOf(trouble, studio), ' ') : briefly(trouble, studio), {
    zone: studio.zone,
    now,
  }),
});

function briefly({ title, cause }: Trouble, studio: Studio): Text {
  const until = (at: number | null) => (at === null ? say`` : say` until ${clock(at)}`);
  switch (cause.kind) {
    case 'nobody':
      return say`${title} does not fit: nobody on shift${until(cause.backAt)}`;
    case 'busy':
      return say`${title} does not fit: all hands are at work`;
    case 'too-long':
      return say`${title} does not fit: ${cause.goneAt === null ? say`too long for the shift` : endText(cause.goneAt, studio)}`;
    default:
      return say`${title} cannot be told: too cold or too warm`;
  }
}

const lower = (label: string) => label.replace(/^./, (letter) => letter.toLowerCase());

function headLine({ name, title, clash, unfit }: Trouble): Text {
  if (unfit.demand.wish !== null) return say`${strong(say`${name} does not fit as it was planned`)}.`;
  if (clash.length === 0) return say`${strong(say`${title} of ${name} does not fit any more`)}.`;
  const others = joined(
    clash.slice(0, 3).map((other) => say`${other.name}`),
    ', ',
    ' and ',
  );
  return say`${strong(say`${title} of ${name} clashes with ${others}`)}: I find no order in which the hands do for both.`;
}

/** Two troubles may be mended by the same. */
const unlike = (ways: readonly Way[]): Way[] =>
  ways.filter((way, index) => ways.findIndex(({ label }) => label === way.label) === index);

/** Where no shifts are kept there is no time at which somebody could stay on. */
const labelOf = (change: Change, studio: Studio, now: number): string =>
  change.kind === 'hands' && studio.shifts.hours.length === 0 ? 'One more pair of hands' : changeLabel(change, studio, now);

/** What can be pressed for it. */
function wayTo(change: Change, job: string, studio: Studio, now: number): Way[] {
  const label = labelOf(change, studio, now);
  switch (change.kind) {
    case 'hands': {
      if (studio.shifts.hours.length === 0) {
        const count = String((studio.hands.all ?? Math.max(1, studio.duty.always.length)) + 1);
        return [{ label, command: 'shift hands', options: { count } }];
      }
      const there = studio.extras.find(({ from, until }) => from === change.from && until === change.until)?.hands ?? 0;
      const hands = String(there + 1);
      const options = { ...hoursOptions(change, studio.zone, now), hands };
      return [{ label, command: 'shift extra', options }];
    }
    case 'start':
      return [{ label, command: 'job plan', options: { job, start: momentTyped(change.at, studio.zone) } }];
    case 'ready-by':
      return [
        {
          label,
          command: 'job plan',
          options: { job, 'ready-by': momentTyped(Math.ceil(change.at / MINUTE) * MINUTE, studio.zone) },
        },
      ];
    case 'room': {
      // Whoever presses it sees to the room; the thermometer, once it is read, has the last word.
      const kept = `${change.celsius} C`;
      return [{ label, command: 'temp expect', options: { day: kept, night: kept } }];
    }
  }
}
