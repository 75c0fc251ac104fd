import { DateTime } from 'luxon';
import type { Studio } from '../../src/bench/studio.ts';
import type { PlannedStep } from '../../src/job/events.ts';
import { type JobState, nextIndex } from '../../src/job/state.ts';
import { waitEnds } from '../../src/job/wait.ts';
import { atWork, isMissed, lastCall, needsTouch, nextWindow } from '../../src/job/window.ts';
import { DAY, HOUR, type Hours, hoursText, MINUTE } from '../../src/trade/time/calendar.ts';
import type { Conditions } from '../../src/trade/time/conditions.ts';
import type { GridAsk } from '../support/grid.ts';
import { type Bench, DAYS_STAFFED } from './planning-benches.ts';

/** How many pairs of hands are there during the whole minute, by the wall clock alone. */
export function handsAt({ shifts, hands, duty, extras, missing, zone }: Studio, minute: number): number {
  const time = DateTime.fromMillis(minute * MINUTE, { zone });
  const clock = time.hour * 60 + time.minute;
  const isKept = (date: DateTime) =>
    shifts.days.includes(date.weekday) && !(shifts.closed ?? []).includes(date.toISODate() ?? '');
  const runs = ({ fromMinute, untilMinute }: Hours) =>
    fromMinute < untilMinute
      ? fromMinute <= clock && clock < untilMinute && isKept(time)
      : (clock >= fromMinute && isKept(time)) || (clock < untilMinute && isKept(time.minus({ days: 1 })));
  const usual = hands.all ?? Math.max(1, duty.always.length);
  // Where shifts are not kept, any time will do.
  const inShifts =
    shifts.hours.length === 0
      ? usual
      : shifts.hours
          .filter(runs)
          .reduce((sum, shift) => sum + Math.max(0, (hands.byShift[hoursText(shift)] ?? usual) - goneIn(missing, minute)), 0);
  return extras
    .filter(({ from, until }) => from <= minute * MINUTE && (minute + 1) * MINUTE <= until)
    .reduce((sum, extra) => sum + extra.hands, inShifts);
}

const goneIn = (missing: Studio['missing'], minute: number): number =>
  missing
    .filter(({ from, until }) => from <= minute * MINUTE && (minute + 1) * MINUTE <= until)
    .reduce((sum, { hands }) => sum + hands, 0);

/** What is left of a job, read off its state anew: how its next step stands, and the rest as plain minutes. */
export function leftOf(
  job: JobState,
  conditions: Conditions,
  now: number,
):
  | 'held'
  | 'missed'
  | 'touch'
  | { readonly steps: readonly PlannedStep[]; readonly from: number; readonly until: number; readonly atHand: number | null } {
  if (job.status !== 'active') return 'held';
  const window = nextWindow(job, conditions);
  const index = nextIndex(job);
  const next = job.steps[index];
  if (window === null || !next) throw new Error('an active job has a next step');
  if (isMissed(job, conditions, now)) return 'missed';
  if (needsTouch(window)) return 'touch';
  const plans = job.steps.map(({ plan }) => plan);
  if (!atWork(job, now))
    return {
      steps: plans.slice(index),
      // What has not begun may begin sooner than it was to.
      from: Math.max(now, index === 0 ? job.startedAt : window.opensAt),
      until: lastCall(job, window) ?? Number.POSITIVE_INFINITY,
      atHand: null,
    };
  // A cup goes on no sooner than its window opens.
  const goesOn = Math.max(next.poured[0]?.at ?? now, index === 0 ? 0 : window.opensAt);
  const ends = Math.max(now, goesOn + next.plan.handsMinutes * MINUTE);
  const after = waitEnds(next.plan, conditions, Math.ceil(ends / MINUTE) * MINUTE);
  return { steps: plans.slice(index + 1), from: after.opensAt, until: after.closesAt ?? Number.POSITIVE_INFINITY, atHand: ends };
}

/** The same job as the search over all minutes takes it, with nobody else on the bench. */
export function gridOf(
  left: Exclude<ReturnType<typeof leftOf>, string>,
  { studio: kept, now }: Bench,
  conditions: Conditions,
  readyBy: number | null,
): GridAsk {
  const first = Math.floor(now / MINUTE);
  const last = first + ((DAYS_STAFFED + 1) * DAY) / MINUTE;
  const staffed =
    kept.shifts.hours.length === 0 ? null : runs(first, last, (minute) => handsAt(kept, minute) > 0 && minute * MINUTE >= now);
  return {
    steps: left.steps.map((plan, index) => ({
      handsMinutes: Math.ceil(plan.handsMinutes),
      wait:
        plan.wait === null
          ? null
          : {
              fromMinutes: plan.wait.fromMinutes,
              untilMinutes: plan.wait.untilMinutes,
              speed: plan.wait.speed,
              // After the last step it matters only where somebody is to be told by when it is ready.
              ...(index < left.steps.length - 1 || readyBy !== null
                ? { blind: runs(first, last, (minute) => waitEnds(plan, conditions, minute * MINUTE).outside !== null) }
                : {}),
            },
    })),
    begin: {
      from: Math.ceil(left.from / MINUTE),
      until: Number.isFinite(left.until) ? Math.floor(left.until / MINUTE) : Number.POSITIVE_INFINITY,
    },
    staffed,
    busy: [],
    readyBy: readyBy === null ? null : Math.floor(readyBy / MINUTE),
    conditions,
  };
}

/** A grid that goes on for so long past the staffed days. */
export const gridEnd = (now: number): number => Math.floor(now / MINUTE) + (DAYS_STAFFED * DAY + 12 * HOUR) / MINUTE;

function runs(first: number, last: number, is: (minute: number) => boolean) {
  const found: { from: number; until: number }[] = [];
  for (let minute = first; minute <= last; minute += 1) {
    if (!is(minute)) continue;
    const run = found.at(-1);
    if (run && run.until === minute - 1) found[found.length - 1] = { from: run.from, until: minute };
    else found.push({ from: minute, until: minute });
  }
  return found;
}
