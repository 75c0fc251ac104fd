import type { Cause } from '../bench/planning/cause.ts';
import type { Change } from '../bench/planning/changes.ts';
import { type JobPlan, type PlannedTime, slackMinutes } from '../bench/planning/plan.ts';
import type { Studio } from '../bench/studio.ts';
import { type Card, type CardFile, card } from '../chat/card.ts';
import type { Shopping } from '../job/shopping.ts';
import { minutesText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Way } from '../words/refusal.ts';
import { clock, plain, say, strong, type Text } from '../words/text.ts';
import { isoIn } from './iso.ts';
import { causeData, causeText, changeData, changeLabel } from './plan-trouble.ts';

export interface PlanView {
  readonly plan: JobPlan;
  /** As early as may be, or as late as is safe. */
  readonly towards: 'early' | 'late';
  /** So much before its time it is to be ready. */
  readonly reserveMinutes: number;
  /** What it counts on, and what else is to be minded. */
  readonly notes: readonly Text[];
  readonly buttons: readonly Way[];
  readonly files: readonly CardFile[];
  readonly studio: Studio;
  /** What it takes, where that is told along with it. */
  readonly shopping?: Shopping;
}

/** When to do what. */
export function planCard(view: PlanView): Card {
  const { plan, studio, notes, buttons, files, shopping } = view;
  return card(titleOf(view), [...plan.steps.map(stepLine), totalLine(plan), ...limitsLine(plan), ...notes], {
    data: { plan: planData(plan, studio), ...reserveData(view), ...(shopping ? { shopping } : {}) },
    buttons,
    files,
  });
}

function titleOf({ plan, towards }: PlanView): Text {
  const first = plan.steps[0];
  if (!first) return say`${plan.name}: ready ${clock(plan.readyAt)}`;
  if (towards === 'late' && plan.readyBy !== null)
    return say`${plan.name}: start by ${clock(first.startsAt)} to be ready by ${clock(plan.readyBy)}`;
  const next = plan.job === null ? say`start ${clock(first.startsAt)}` : say`${first.title} at ${clock(first.startsAt)}`;
  return say`${plan.name}: ${next}, ready ${clock(plan.readyAt)}`;
}

/** The steps of a plan that ends before the job does. */
export const partLines = ({ steps }: JobPlan): Text[] => steps.map(stepLine);

const handsOf = ({ startsAt, endsAt }: PlannedTime): number => Math.round((endsAt - startsAt) / MINUTE);

/** "08:00 Seal and release the model, 30 min; 1 h to spare". */
function stepLine(time: PlannedTime): Text {
  const hands = handsOf(time);
  const work = hands === 0 ? say`` : say`, ${plain(minutesText(hands))}`;
  return say`${strong(clock(time.startsAt))} ${time.title}${work}${spareText(time)}`;
}

function spareText(time: PlannedTime): Text {
  const slack = slackMinutes(time);
  if (slack === null) return say``;
  return slack === 0 ? say`, ${strong('no time to spare')}` : say`, no later than ${clock(time.latestAt ?? 0)}`;
}

function totalLine({ steps, readyAt, readyBy }: JobPlan): Text {
  const hands = steps.reduce((sum, step) => sum + handsOf(step), 0);
  const wanted = readyBy === null ? say`` : say`, wanted by ${clock(readyBy)}`;
  return say`${strong(clock(readyAt))} ready${wanted}. ${plain(minutesText(hands))} of work in all.`;
}

/** Where a later step seems to have to begin before an earlier one. */
function limitsLine({ steps }: JobPlan): Text[] {
  const limits = steps.flatMap(({ latestAt }) => latestAt ?? []);
  const isOdd = limits.some((at, index) => at < (limits[index - 1] ?? at));
  return isOdd ? [say`Each “no later than” counts on all before it as planned.`] : [];
}

const reserveData = ({ towards, reserveMinutes }: PlanView) =>
  towards === 'late' || reserveMinutes > 0 ? { reserveMinutes } : {};

export function planData({ job, name, steps, readyAt, readyBy }: JobPlan, { zone }: Studio) {
  const iso = isoIn(zone);
  const when = (at: number | null) => (at === null ? null : iso(at));
  return {
    job,
    name,
    startsAt: when(steps[0]?.startsAt ?? null),
    readyAt: iso(readyAt),
    readyBy: when(readyBy),
    steps: steps.map((time) => ({
      step: time.step,
      title: time.title,
      startsAt: iso(time.startsAt),
      endsAt: iso(time.endsAt),
      opensAt: iso(time.opensAt),
      closesAt: when(time.closesAt),
      latestAt: when(time.latestAt),
      slackMinutes: slackMinutes(time),
    })),
  };
}

export interface NoPlanView {
  readonly name: string;
  readonly step: { readonly id: string; readonly title: string };
  readonly cause: Cause;
  /** Whether it was to begin at a certain time, and no other was. */
  readonly isStartNamed: boolean;
  readonly changes: readonly Change[];
  readonly notes: readonly Text[];
  readonly buttons: readonly Way[];
  readonly studio: Studio;
  readonly now: number;
}

/** That it cannot be done, the proof, and what would make it possible. */
export function noPlanCard({ name, step, cause, isStartNamed, changes, notes, buttons, studio, now }: NoPlanView): Card {
  const iso = isoIn(studio.zone);
  const proof = causeText(step.title, cause, studio);
  return card(
    cause.kind === 'late'
      ? say`${name} cannot be ready by ${clock(cause.readyBy)}`
      : say`No plan for ${name}: ${step.title} does not fit`,
    [
      proof,
      changes.length === 0
        ? say`I found nothing that alone makes it possible: ${plain(isStartNamed ? 'no other start within a week, ' : '')}no one person for up to four hours, no other room temperature.`
        : say`Each of these alone makes it possible:`,
      ...changes.map((change) => say`· ${plain(changeLabel(change, studio, now))}`),
      ...notes,
    ],
    {
      data: {
        plan: null,
        misfit: {
          step: step.id,
          cause: causeData(cause, iso),
          changes: changes.map((change) => changeData(change, iso)),
        },
      },
      buttons,
      tone: 'soon',
    },
  );
}
