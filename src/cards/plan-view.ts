import type { JobPlan, PlannedTime } from '../bench/planning/plan.ts';
import { slackMinutes } from '../bench/planning/plan.ts';
import { plainText } from '../chat/plain.ts';
import type { BoardPicture, PictureRow } from '../picture/models.ts';
import { minutesText } from '../trade/measures/format.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, plain, type Sayable, say, type Text } from '../words/text.ts';
import { chained } from './bars-view.ts';
import { type Beside, momentText, reach } from './board-view.ts';
import type { BenchView } from './brief-card.ts';
import { nightsBetween } from './nights.ts';

/** A plan of one job: each of its steps a row, with the time at which it is to be done. */
export function planModel(plan: JobPlan, view: BenchView, staffed: Beside['staffed']): BoardPicture {
  const { studio, state, now } = view;
  const words = (ours: TemplateStringsArray, ...theirs: Sayable[]) => plainText(say(ours, ...theirs), { zone: studio.zone, now });
  const rows = plan.steps.map((step, index): PictureRow => {
    const next = plan.steps[index + 1]?.startsAt ?? plan.readyAt;
    return {
      name: step.title,
      who: '',
      due: words`${clock(step.startsAt)}${spareOf(step)}`,
      state: null,
      trouble: '',
      bars: chained([
        { from: step.startsAt, until: step.endsAt, what: 'hands', title: '' },
        ...(next > step.endsAt ? [{ from: step.endsAt, until: next, what: 'wait' as const, title: '' }] : []),
      ]),
      window:
        step.closesAt === null || step.closesAt <= step.opensAt
          ? null
          : { from: step.opensAt, until: step.closesAt, what: 'window', title: '' },
    };
  });
  const late = plan.readyBy === null ? 0 : plan.readyAt - plan.readyBy;
  return {
    now,
    zone: studio.zone,
    title: `Plan, ${momentText(now, studio.zone)}: ${plan.name}`,
    headline: words`${beginOf(plan)}ready ${clock(plan.readyAt)}`,
    lines: plan.readyBy === null || late > 0 ? [] : [words`Wanted by ${clock(plan.readyBy)}.`],
    trouble:
      plan.readyBy === null || late <= 0
        ? ''
        : words`Wanted by ${clock(plan.readyBy)}: ${plain(minutesText(late / MINUTE))} too late`,
    rows,
    marks: plan.readyBy === null ? [] : [{ at: plan.readyBy, word: 'wanted' }],
    staffed,
    nights: nightsBetween(state, studio, reach(rows, plan.steps[0]?.startsAt ?? now)),
    scale: 'even',
  };
}

/** How late a step may begin. */
function spareOf(step: PlannedTime): Text {
  if (step.latestAt === null) return say``;
  return slackMinutes(step) === 0 ? say`, no time to spare` : say`, by ${clock(step.latestAt)}`;
}

/** What is to be done first, and when: a job that has not begun starts. */
function beginOf({ job, steps: [first] }: JobPlan): Text {
  if (first === undefined) return say``;
  return job === null ? say`Start ${clock(first.startsAt)}, ` : say`${first.title} at ${clock(first.startsAt)}, `;
}
