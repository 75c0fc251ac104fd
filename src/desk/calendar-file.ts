import { createHash } from 'node:crypto';
import ical, { ICalAlarmType, type ICalCalendar, ICalEventTransparency } from 'ical-generator';
import { DateTime } from 'luxon';
import type { JobPlan, PlannedTime } from '../bench/planning/plan.ts';
import { plainText, whichOf } from '../chat/plain.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { plain, say, type Text } from '../words/text.ts';

interface Misfit {
  readonly title: string;
  /** A sentence. */
  readonly why: Text;
}

/** A job as planned, and who answers for it; null where nobody does yet. */
export interface CalendarPlan extends JobPlan {
  readonly holder: string | null;
  /** The step that does not fit, after which nothing has a time; null where all is planned. */
  readonly misfit: Misfit | null;
}

export interface CalendarAsk {
  readonly studioName: string;
  /** IANA zone in which times are told; the entries themselves are in UTC, which every calendar reads right. */
  readonly zone: string;
  /** The bench that the jobs are on: jobs of two benches may have the same id. */
  readonly channel: string;
  readonly plans: readonly CalendarPlan[];
  /** Milliseconds since the epoch. */
  readonly now: number;
}

/** How long the entry is that says when a job is ready. */
const READY_MINUTES = 15;

/**
 * An iCalendar file (RFC 5545) with an entry for each planned step and one for when each job is ready. An entry keeps its UID as long as
 * its job and step do, and a later file has a greater SEQUENCE, so that calendars move what they took in before.
 */
export function calendarOf({ plans, studioName, ...reader }: CalendarAsk): string {
  const calendar = ical({ name: nameText(say`Coatbell: ${studioName}`, reader), prodId: '//Coatbell//Coatbell//EN' });
  for (const plan of plans) {
    plan.steps.forEach((step, index) => {
      add(calendar, reader, {
        uid: uidOf(reader, plan, ['step', step.step]),
        title: say`${step.title}: ${plan.name}`,
        startsAt: step.startsAt,
        endsAt: step.endsAt,
        lines: [...windowLines(step, reader), nextLine(plan, index, reader), ...holderLine(plan)],
        busy: true,
        rings: step.closesAt !== null,
      });
    });
    // When it is ready is not known.
    if (plan.misfit !== null) continue;
    const by = plan.readyBy === null ? [] : [say`Wanted by ${when(plan.readyBy, reader)}.`];
    add(calendar, reader, {
      uid: uidOf(reader, plan, ['ready']),
      title: say`Ready: ${plan.name}`,
      startsAt: plan.readyAt,
      endsAt: plan.readyAt + READY_MINUTES * MINUTE,
      lines: [...by, ...holderLine(plan)],
      busy: false,
      rings: false,
    });
  }
  return `${calendar.toString()}\r\n`;
}

type Reader = Pick<CalendarAsk, 'zone' | 'channel' | 'now'>;

interface Entry {
  readonly uid: string;
  readonly title: Text;
  readonly startsAt: number;
  readonly endsAt: number;
  readonly lines: readonly Text[];
  /** Whether it takes hands. */
  readonly busy: boolean;
  /** Whether the telephone is to ring when it begins. */
  readonly rings: boolean;
}

function add(calendar: ICalCalendar, reader: Reader, { uid, title, startsAt, endsAt, lines, busy, rings }: Entry): void {
  const summary = wellFormed(plainText(title, reader));
  const told = [...lines, say`Times by the clock in ${reader.zone}. They move with the bench’s temperature: the channel counts.`];
  const event = calendar.createEvent({
    id: uid,
    stamp: new Date(reader.now),
    sequence: Math.floor(reader.now / MINUTE),
    start: new Date(startsAt),
    // RFC 5545: the end lies later than the start.
    end: new Date(Math.max(endsAt, startsAt + MINUTE)),
    summary,
    description: told.map((line) => wellFormed(plainText(line, reader))).join('\n'),
    transparency: busy ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
  });
  if (rings) event.createAlarm({ type: ICalAlarmType.display, trigger: 0, description: summary });
}

/** RFC 7986 wants one that tells nothing and is of use for ever. */
function uidOf({ channel }: Reader, { job, name }: JobPlan, what: readonly string[]): string {
  const of = job === null ? ['plan', name] : ['job', job];
  const hash = createHash('sha256').update(JSON.stringify([channel, ...of, ...what]));
  return `${hash.digest('hex').slice(0, 32)}@coatbell`;
}

function when(at: number, { zone }: Reader): Text {
  const time = DateTime.fromMillis(at, { zone, locale: 'en' });
  return say`${plain(time.toFormat('ccc d LLL HH:mm'))}${plain(whichOf(time))}`;
}

function windowLines({ opensAt, closesAt, latestAt }: PlannedTime, reader: Reader): Text[] {
  const window =
    closesAt === null
      ? say`Begin it from ${when(opensAt, reader)} on.`
      : say`Begin it between ${when(opensAt, reader)} and ${when(closesAt, reader)}.`;
  const tells = latestAt !== null && (closesAt === null || latestAt < closesAt);
  return [window, ...(tells ? [say`Begun by ${when(latestAt, reader)}, all that follows still fits.`] : [])];
}

function nextLine({ steps, readyAt, misfit }: CalendarPlan, index: number, reader: Reader): Text {
  const next = steps[index + 1];
  if (!next && misfit) return say`Then: ${misfit.title}, which does not fit yet.`;
  return next ? say`Then: ${next.title}, ${when(next.startsAt, reader)}.` : say`Then it is ready, ${when(readyAt, reader)}.`;
}

/** A number by which the platform knows somebody says nothing to whoever reads a calendar. */
const holderLine = ({ holder }: CalendarPlan): Text[] =>
  holder === null || /^&?\d+$/.test(holder) ? [] : [say`With ${holder}.`];

/** Half of a pair of code units is no character, and no file can hold it. */
const wellFormed = (text: string): string => text.replace(/\p{Cs}/gu, '\ufffd');

/** The library writes a calendar's name as it stands; RFC 5545 (3.3.11) has it escaped like any text. */
const nameText = (name: Text, reader: Reader): string => wellFormed(plainText(name, reader)).replace(/[\\;,]/g, '\\$&');
