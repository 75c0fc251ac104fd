import type { JobPlan } from '../bench/planning/plan.ts';
import { type Card, type CardFile, card } from '../chat/card.ts';
import { clock, code, joined, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';

interface LeftOut {
  readonly name: string;
  /** A sentence. */
  readonly why: Text;
}

export interface CalendarView {
  readonly plans: readonly JobPlan[];
  /** Open jobs that are not in it, and why. */
  readonly leftOut: readonly LeftOut[];
  readonly file: CardFile;
  readonly zone: string;
}

/** So many entries are shown; the others are in the file. */
const SHOWN = 3;
const MOST_LEFT_OUT = 4;

/** A calendar as a file: what to do with it, what comes first, and what it does not know. */
export function calendarCard({ plans, leftOut, file, zone }: CalendarView): Card {
  const steps = plans
    .flatMap(({ name, steps: all }) => all.map((step) => ({ name, ...step })))
    .sort((one, other) => one.startsAt - other.startsAt);
  const ready = plans.map(({ readyAt }) => readyAt);
  const from = Math.min(...steps.map(({ startsAt }) => startsAt), ...ready);
  const until = Math.max(...ready);
  const entries = steps.length + plans.length;
  const rest = entries - Math.min(SHOWN, steps.length);
  return card(
    say`Open ${file.name}: ${plain(entries === 1 ? '1 entry' : `${entries} entries`)}, ${clock(from)} to ${clock(until)}`,
    [
      ...steps.slice(0, SHOWN).map(({ startsAt, title, name }) => say`${strong(clock(startsAt))}  ${title}: ${name}`),
      ...(rest > 0 ? [say`  and ${rest} more in the file, up to ${lastOf(plans)}.`] : []),
      ...(leftOut.length === 0 ? [] : [say`Not in it: ${whyNone(leftOut)}`]),
      say`Times move when the bench is colder: this channel counts. Take a new file then; it moves its entries.`,
    ],
    {
      data: {
        calendar: {
          file: file.name,
          entries,
          from: isoIn(zone)(from),
          until: isoIn(zone)(until),
          jobs: plans.map(({ job, name }) => job ?? name),
          leftOut: leftOut.map(({ name }) => name),
        },
      },
      files: [file],
      aside: true,
    },
  );
}

/** "Owl: On hold. Fox: Seal can only begin …" */
export const whyNone = (leftOut: readonly LeftOut[]): Text =>
  joined(
    leftOut.slice(0, MOST_LEFT_OUT).map(({ name, why }) => say`${strong(say`${name}`)}: ${why}`),
    ' ',
  ).concat(leftOut.length > MOST_LEFT_OUT ? say` And ${leftOut.length - MOST_LEFT_OUT} more: ${code('/board')}` : []);

function lastOf(plans: readonly JobPlan[]): Text {
  const last = plans.reduce((latest, plan) => (plan.readyAt > latest.readyAt ? plan : latest));
  return say`${last.name} ready at ${clock(last.readyAt)}`;
}
