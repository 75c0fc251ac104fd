import type { JobPlan } from '../bench/planning/plan.ts';
import { type Card, type CardFile, card } from '../chat/card.ts';
import { clock, code, joined, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';

interface LeftOut {
  readonly name: string;
  /** A sentence. */
  readonly why: Text;
}

/** A job in the file. */
interface Shown extends JobPlan {
  /** What of it has no time, and why; null where all has. */
  readonly misfit: Misfit | null;
}

interface Misfit {
  readonly title: string;
  /** A sentence. */
  readonly why: Text;
}

export interface CalendarView {
  readonly plans: readonly Shown[];
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
  const whole = plans.filter(({ misfit }) => misfit === null);
  const ready = whole.map(({ readyAt }) => readyAt);
  const from = Math.min(...steps.map(({ startsAt }) => startsAt), ...ready);
  const until = Math.max(...ready, ...steps.map(({ endsAt }) => endsAt));
  const entries = steps.length + whole.length;
  const rest = entries - Math.min(SHOWN, steps.length);
  return card(
    say`Open ${file.name}: ${plain(entries === 1 ? '1 entry' : `${entries} entries`)}, ${clock(from)} to ${clock(until)}`,
    [
      ...steps.slice(0, SHOWN).map(({ startsAt, title, name }) => say`${strong(clock(startsAt))}  ${title}: ${name}`),
      ...(rest > 0 ? [say`  and ${rest} more in the file, up to ${lastOf(whole, until)}.`] : []),
      ...plans.flatMap(({ name, misfit }) => (misfit === null ? [] : [shortLine(name, misfit)])),
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
          /** Of these the file has no step from the one on that does not fit. */
          inPart: plans.flatMap(({ job, name, misfit }) => (misfit === null ? [] : [job ?? name])),
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

const shortLine = (name: string, { title, why }: Misfit): Text => say`${strong(say`${name} only up to ${title}`)}: ${why}`;

/** The last entry, by what it is where a job is ready with it. */
function lastOf(plans: readonly JobPlan[], until: number): Text {
  const last = plans.find(({ readyAt }) => readyAt === until);
  return last ? say`${last.name} ready at ${clock(until)}` : say`${clock(until)}`;
}
