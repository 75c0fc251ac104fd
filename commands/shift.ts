import type { Studio } from '../src/bench/studio.ts';
import { onDuty } from '../src/bench/studio.ts';
import type { StudioEvent } from '../src/bench/studio-events.ts';
import { card } from '../src/chat/card.ts';
import { typed } from '../src/chat/options.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { again, inLine, inMinutes, type Kept, kept, line } from '../src/desk/examples.ts';
import { minutesText } from '../src/trade/measures/format.ts';
import { parseDuration } from '../src/trade/measures/quantity.ts';
import { type Hours, hoursText, shiftAt } from '../src/trade/time/calendar.ts';
import { parseDays, parseHours, parseHoursList, parsePeople, parseZone } from '../src/trade/time/calendar-text.ts';
import { named } from '../src/words/nearest.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { clock, people, plain, say, type Text } from '../src/words/text.ts';

/** Minutes. */
const LEAST_GRACE = 1;
const MOST_GRACE = 24 * 60;
const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

function shiftCard(title: Text, studio: Studio, now: number, aside = false) {
  const duty = onDuty(studio, now);
  const running = shiftAt(studio.shifts, studio.zone, now);
  const hours = studio.shifts.hours.map(hoursText);
  return card(
    title,
    [
      hours.length === 0
        ? say`No shift hours are set.`
        : say`Shifts ${plain(hours.join(', '))} on ${plain(studio.shifts.days.map((day) => DAY_NAMES[day - 1]).join(', '))}.`,
      running
        ? say`Now running: ${plain(hoursText(running.hours))}, until ${clock(running.until)}.`
        : say`No shift is running now.`,
      duty.length === 0 ? say`Nobody is on duty: /shift duty who:kim` : say`On duty now: ${people(duty)}.`,
      ...Object.entries(studio.duty.byShift).map(([key, who]) => say`In the shift ${plain(key)}: ${people(who)}.`),
      say`Zone ${plain(studio.zone)}. A ping that stays unanswered for ${plain(minutesText(studio.graceMinutes))} goes to everybody on duty.`,
      studio.quiet === null
        ? say`No quiet hours.`
        : say`Quiet hours ${plain(hoursText(studio.quiet))}: digests wait; a pot life or a window never does.`,
    ],
    {
      aside,
      data: {
        shift: {
          zone: studio.zone,
          hours,
          days: studio.shifts.days,
          onDuty: duty,
          duty: studio.duty,
          graceMinutes: studio.graceMinutes,
          quiet: studio.quiet === null ? null : hoursText(studio.quiet),
        },
      },
    },
  );
}

async function change(desk: Desk, title: Text, decide: (studio: Studio) => readonly StudioEvent[] | Refusal) {
  const studio = await desk.house.changeStudio(decide);
  return isRefusal(studio) ? studio : shiftCard(title, studio, desk.now);
}

const stampOf = (desk: Desk) => ({ version: 1 as const, at: desk.now, by: desk.who });
const quietHours = (text: string) =>
  ['off', 'none', 'no'].includes(text.trim().toLowerCase()) ? ('off' as const) : parseHours(text);

const setting = <T>(name: string, parse: (text: string) => T | Refusal) =>
  inLine(parse, (value) => line('shift set', { [name]: value }));

/** How long a ping waits for an answer, in minutes: never so short that it would go to everybody at once. */
const grace = inLine(
  (typedText: string): number | Refusal => {
    const minutes = parseDuration(typedText);
    if (isRefusal(minutes) || (minutes >= LEAST_GRACE && minutes <= MOST_GRACE)) return minutes;
    return new Refusal('bad-grace', say`Expected a grace from 1 min to 24 h, got “${typedText}”.`);
  },
  (_, typedText) => line('shift set', { grace: inMinutes(typedText, '10 min') }),
);

export default group({
  name: 'shift',
  summary: 'When this studio works, and who is on duty',
  commands: {
    set: part({
      summary: 'Set hours, days, zone, grace and quiet hours; what is left out stays as it is',
      manage: true,
      options: {
        hours: typed(setting('hours', parseHoursList), { about: 'One or more shifts: 06:00-14:00, 14:00-22:00' }).optional(),
        days: typed(setting('days', parseDays), { about: 'mon-fri, daily, mon,wed,fri' }).optional(),
        zone: typed(setting('zone', parseZone), { about: 'Time zone: Europe/Berlin' }).optional(),
        grace: typed(grace, { about: 'How long a ping may stay unanswered: 10 min' }).optional(),
        quiet: typed(setting('quiet', quietHours), { about: 'Hours without digests: 22:00-06:00, or off' }).optional(),
      },
      examples: ['hours:06:00-14:00, 14:00-22:00 days:mon-fri zone:Europe/Berlin', 'grace:5 min quiet:22:00-06:00'],
      run: async ({ hours, days, zone, grace, quiet }, desk) => {
        if ([hours, days, zone, grace, quiet].every((each) => each === undefined))
          return new Refusal('nothing-to-set', say`Say what to set: hours, days, zone, grace or quiet.`, {
            example: '/shift set hours:06:00-14:00 days:mon-fri',
          });
        return change(desk, say`Shifts are set`, () => [
          {
            ...stampOf(desk),
            type: 'ShiftsSet',
            hours: hours ?? null,
            days: days ?? null,
            zone: zone ?? null,
            graceMinutes: grace ?? null,
            quiet: quiet ?? null,
          },
        ]);
      },
    }),
    duty: part({
      summary: 'Say who is on duty, always or in one shift',
      options: {
        who: typed(kept(inLine(parsePeople, (who) => line('shift duty', { who }))), {
          about: 'Who: dana, kim',
          complete: 'person',
        }),
        hours: typed(
          (typedText): Kept<Hours | Refusal> => ({ typed: typedText, value: parseHours(typedText) }),
          // Which shifts there are, only the studio tells.
          { about: 'Only in this shift: 06:00-14:00' },
        ).optional(),
      },
      examples: ['who:dana, kim', 'who:kim hours:14:00-22:00'],
      run: async (input, desk) => {
        const who = input.who.value;
        const hours = input.hours?.value ?? null;
        return change(desk, say`${people(who)} on duty`, (studio) => {
          const shifts = studio.shifts.hours.map(hoursText);
          const [shift] = shifts;
          const example =
            shift === undefined ? '/shift set hours:06:00-14:00' : line('shift duty', { who: input.who.typed, hours: shift });
          if (isRefusal(hours)) return again(hours, { example });
          if (hours && named(hoursText(hours), shifts) === undefined)
            return new Refusal(
              'unknown-shift',
              say`Expected one of the shifts (${plain(shifts.join(', ') || 'none are set')}), got ${plain(hoursText(hours))}.`,
              { example },
            );
          return [{ ...stampOf(desk), type: 'DutySet', people: who, hours }];
        });
      },
    }),
    show: part({
      summary: 'The shifts, and who is on duty now',
      options: {},
      examples: [],
      run: async (_, desk) => shiftCard(say`Shifts`, desk.studio, desk.now, true),
    }),
  },
});
