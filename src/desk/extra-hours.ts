import { staffedTime } from '../bench/staffing.ts';
import type { StudioEvent } from '../bench/studio-events.ts';
import type { Stretch } from '../cards/as-typed.ts';
import { dayText } from '../cards/day-text.ts';
import { handsText } from '../cards/shift-card.ts';
import { DAY, dateAt, hoursText, isoDate, nextWallClock, onDate, shiftAt, shiftsBetween } from '../trade/time/calendar.ts';
import { parseHours } from '../trade/time/calendar-text.ts';
import { exactStretch } from '../trade/time/coming-stretch.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, plain, say, type Text } from '../words/text.ts';
import { again, line } from './examples.ts';
import { type At, datesIn, stampOf, today } from './shift-days.ts';
import {
  daysBackFor,
  type Events,
  EXTRA,
  exampleFor,
  hoursOn,
  noShifts,
  offSaid,
  takeBackLine,
  takenBack,
  toldIn,
  wrongLength,
} from './told-hours.ts';

/** As typed: on which days, which hours or until when. */
export interface Extra {
  readonly on: string | undefined;
  readonly hours: string | undefined;
  readonly until: string | undefined;
  readonly hands: number | undefined;
}

const USUAL_EXTRA = '17:00-19:00';

const extraLine = ({ on, hours, until, hands }: Extra): string =>
  line('shift extra', { on, hours, until, hands: hands === undefined ? undefined : String(hands) });

/** Extra hours on each of the days; or `hours:off` for none on them any more, and `hours:17:00-19:00 off` for those alone. */
export function extraOn(at: At, asked: Extra): Events {
  const none = noShifts(at);
  if (none) return none;
  const extra = offSaid(asked);
  const usual = { ...extra, hours: USUAL_EXTRA, until: undefined };
  const dates =
    extra.on === undefined
      ? [dayMeant(at, extra)]
      : datesIn(
          at,
          extra.on,
          exampleFor(at, EXTRA, extra.hours, (on) => extraLine({ ...usual, on: / to |,/.test(on) ? 'tomorrow' : on })),
          daysBackFor(extra.hours),
        );
  if (isRefusal(dates)) return dates;
  const off = takenBack(at, EXTRA, dates, extra.hours);
  if (off) return off;
  const exact = exactStretch(extra.hours ?? '');
  const days = exact ? [isoDate(dateAt(exact.from, at.studio.zone))] : dates;
  if (extra.hands === 0)
    return new Refusal('no-hands', say`Extra hours need a pair of hands. To take them back, say off.`, {
      example: at.studio.extras.length > 0 ? takeBackLine(at, EXTRA, dates) : extraLine({ ...extra, hands: 1 }),
    });
  const events: StudioEvent[] = [];
  for (const date of days) {
    const ends = endsOf(at, date, extra, extraLine({ ...usual, on: date === today(at) ? 'tomorrow' : date }));
    if (isRefusal(ends)) return ends;
    events.push({ ...stampOf(at), type: 'ExtraHoursSet', ...ends, hands: extra.hands ?? 1 });
  }
  return events;
}

/** Whoever stays on after the shift that runs stays on after that one, also where it began yesterday. */
function dayMeant(at: At, { until }: Extra): string {
  const running = until === undefined ? null : shiftAt(at.studio.shifts, at.studio.zone, at.now);
  return running ? isoDate(dateAt(running.from, at.studio.zone)) : today(at);
}

/** From when to when; `example`: a line that would do. */
function endsOf(at: At, iso: string, extra: Extra, example: string): Stretch | Refusal {
  const ends = withinHours(at, iso, extra, example);
  if (isRefusal(ends)) return ends;
  const wrong = wrongLength(ends, example);
  if (wrong) return wrong;
  if (ends.until <= at.now)
    return new Refusal('past-day', say`Expected extra hours still to come, got ${clock(ends.from)} to ${clock(ends.until)}.`, {
      example,
    });
  return ends;
}

function withinHours(at: At, iso: string, extra: Extra, example: string): Stretch | Refusal {
  const { zone, shifts } = at.studio;
  const date = Date.parse(iso) / DAY;
  if ((extra.hours === undefined) === (extra.until === undefined))
    return new Refusal('which-hours', say`Say either the hours, or until when after the last shift.`, { example });
  if (extra.hours !== undefined) {
    const exact = exactStretch(extra.hours);
    if (exact) return exact;
    const hours = parseHours(extra.hours);
    if (isRefusal(hours)) return again(hours, { example });
    return hoursOn(at, iso, hours);
  }
  const end = parseHours(`0:00-${extra.until}`);
  if (isRefusal(end))
    return new Refusal('bad-time', say`Expected a time such as 19:00, got “${extra.until ?? ''}”.`, { example });
  const midnight = onDate(zone, date, 0);
  const last = shiftsBetween(shifts, zone, midnight, onDate(zone, date + 1, 0) - 1).filter(({ from }) => from >= midnight);
  if (last.length === 0)
    return new Refusal('no-shift', say`No shift begins on ${plain(dayText(iso, iso))}: say the hours.`, { example });
  const lastEnds = Math.max(...last.map(({ until }) => until));
  // Whoever works now stays on after this shift; whoever stays longer than the last one goes on is needed after that.
  const running = extra.on === undefined ? shiftAt(shifts, zone, at.now) : null;
  const staysUntil = running ? nextWallClock(zone, running.until, end.untilMinute) : Number.POSITIVE_INFINITY;
  const from = running && staysUntil <= lastEnds ? running.until : lastEnds;
  const until = nextWallClock(zone, from, end.untilMinute);
  if (!wrongLength({ from, until }, example)) return { from, until };
  return new Refusal(
    'bad-length',
    say`Expected a time after ${clock(lastEnds)}, when the last shift ends, got “${extra.until ?? ''}”.`,
    {
      example,
    },
  );
}

/** The shifts and the other extra hours that these come on top of, which may be a surprise; `studio`: as it was before. */
export function onTopOf({ studio }: At, events: readonly StudioEvent[]): Text[] {
  const extras = toldIn(events, EXTRA);
  const shifts = extras.flatMap(({ from, until }) =>
    (staffedTime(studio, from, until) ?? []).flatMap(({ hours }) => (hours === null ? [] : [hoursText(hours)])),
  );
  const others = studio.extras.filter((each) => extras.some((extra) => each.from < extra.until && each.until > extra.from));
  const beside = others.filter((each) => !extras.some(({ from, until }) => each.from === from && each.until === until));
  const replaced = others.length - beside.length;
  return [
    ...(shifts.length === 0 ? [] : [say`On top of the hands in ${plain([...new Set(shifts)].join(', '))}.`]),
    ...(replaced === 0 ? [] : [say`In place of the same extra hours told before.`]),
    ...beside
      .slice(0, 1)
      .map(
        ({ from, until, hands }) =>
          say`Beside the extra hours ${clock(from)} to ${clock(until)} (${plain(handsText(hands))})${plain(beside.length === 1 ? '' : ` and ${beside.length - 1} more`)}: hands add up.`,
      ),
  ];
}
