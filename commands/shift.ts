import { MOST_HANDS, type Studio } from '../src/bench/studio.ts';
import type { StudioEvent } from '../src/bench/studio-events.ts';
import { daysText } from '../src/cards/day-text.ts';
import { handsText, shiftCard } from '../src/cards/shift-card.ts';
import { text, typed, whole } from '../src/chat/options.ts';
import { type Desk, group, part } from '../src/desk/desk.ts';
import { again, inLine, inMinutes, type Kept, kept, line } from '../src/desk/examples.ts';
import { extraOn, onTopOf } from '../src/desk/extra-hours.ts';
import { leftThere, missingHands, missingOn, toldBefore } from '../src/desk/missing-hands.ts';
import { closedOn, datesIn, openOn } from '../src/desk/shift-days.ts';
import { EXTRA, hoursTitle, hoursWays, MISSING } from '../src/desk/told-hours.ts';
import { parseDuration } from '../src/trade/measures/quantity.ts';
import { dateAt, type Hours, hoursText, isoDate } from '../src/trade/time/calendar.ts';
import { parseDays, parseHours, parseHoursList, parsePeople, parseZone } from '../src/trade/time/calendar-text.ts';
import { datesText } from '../src/trade/time/days.ts';
import { named } from '../src/words/nearest.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { people, plain, say, type Text } from '../src/words/text.ts';

/** Minutes. */
const LEAST_GRACE = 1;
const MOST_GRACE = 24 * 60;

async function change(
  desk: Desk,
  title: Text,
  decide: (studio: Studio) => readonly StudioEvent[] | Refusal,
  more: More | ((studio: Studio) => More) = {},
) {
  const studio = await desk.house.changeStudio(decide);
  if (isRefusal(studio)) return studio;
  return shiftCard(title, studio, desk.now, typeof more === 'function' ? more(studio) : more);
}

type More = NonNullable<Parameters<typeof shiftCard>[3]>;

const oneOf = (event: StudioEvent | Refusal) => (isRefusal(event) ? event : [event]);
const todayOf = ({ now, studio }: Desk) => isoDate(dateAt(now, studio.zone));
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

/** As many as are on duty, or a number. */
const hands = inLine(
  (typedText: string): number | 'duty' | Refusal => {
    const words = typedText.trim().toLowerCase();
    if (/^(?:duty|on duty|auto)$/.test(words)) return 'duty';
    const count = Number(/^(\d{1,4})(?:\s*(?:hands?|pairs?|people|persons?))?$/.exec(words)?.[1]);
    if (count >= 1 && count <= MOST_HANDS) return count;
    return new Refusal('bad-hands', say`Expected 1 to ${MOST_HANDS} pairs of hands, or duty, got “${typedText}”.`);
  },
  () => line('shift hands', { count: '2' }),
);

/** Nobody: off duty. */
const peopleOrNobody = (typedText: string): string[] | Refusal =>
  /^(?:nobody|no ?one|none|off|-+|–|—)$/i.test(typedText.trim()) ? [] : parsePeople(typedText);

/** `who` on duty in a shift, or whatever the hours; nobody at all takes those of all shifts off duty too. */
function dutySet(desk: Desk, { duty }: Studio, who: readonly string[], hours: Hours | null): StudioEvent[] {
  const set = (of: Hours | null): StudioEvent => ({ ...stampOf(desk), type: 'DutySet', people: [...who], hours: of });
  if (hours !== null || who.length > 0) return [set(hours)];
  const others = Object.keys(duty.byShift).map((each) => parseHours(each));
  return [set(null), ...others.flatMap((each) => (isRefusal(each) ? [] : [set(each)]))];
}

/** A shift's hours as typed: which there are, only the studio tells. */
const ofShift = (about: string) =>
  typed((typedText): Kept<Hours | Refusal> => ({ typed: typedText, value: parseHours(typedText) }), { about }).optional();

/** The hours, if a shift has them; `lineOf`: the line with the hours of a shift that there is. */
function shiftNamed(studio: Studio, hours: Hours | Refusal | null, lineOf: (hours: string) => string): Hours | null | Refusal {
  const shifts = studio.shifts.hours.map(hoursText);
  const [shift] = shifts;
  const example = shift === undefined ? '/shift set hours:06:00-14:00' : lineOf(shift);
  if (isRefusal(hours)) return again(hours, { example });
  if (hours === null || named(hoursText(hours), shifts) !== undefined) return hours;
  return new Refusal(
    'unknown-shift',
    say`Expected one of the shifts (${plain(shifts.join(', ') || 'none are set')}), got ${plain(hoursText(hours))}.`,
    { example },
  );
}

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
        who: typed(kept(inLine(peopleOrNobody, (who) => line('shift duty', { who }))), {
          about: 'Who: dana, kim; or nobody',
          complete: 'person',
        }),
        hours: ofShift('Only in this shift: 06:00-14:00'),
      },
      examples: ['who:dana, kim', 'who:kim hours:14:00-22:00'],
      run: async (input, desk) => {
        const who = input.who.value;
        const where = input.hours && !isRefusal(input.hours.value) ? ` in ${hoursText(input.hours.value)}` : '';
        const title = who.length === 0 ? say`Nobody is on duty any more${plain(where)}` : say`${people(who)} on duty`;
        return change(desk, title, (studio) => {
          const hours = shiftNamed(studio, input.hours?.value ?? null, (each) =>
            line('shift duty', { who: input.who.typed, hours: each }),
          );
          return isRefusal(hours) ? hours : dutySet(desk, studio, who, hours);
        });
      },
    }),
    hands: part({
      summary: 'How many can work at once, for planning; unless set, as many as are on duty',
      options: {
        count: typed(kept(hands), { about: 'Pairs of hands: 2; or duty, for as many as are on duty' }),
        hours: ofShift('Only in this shift: 14:00-22:00; left out, in all'),
      },
      examples: ['count:2', 'count:1 hours:14:00-22:00'],
      run: async ({ count: { typed: typedText, value }, hours: asked }, desk) => {
        const where = asked && !isRefusal(asked.value) ? `for ${hoursText(asked.value)}` : 'in each shift';
        const title = `${value === 'duty' ? 'As many hands as are on duty' : handsText(value)} ${where}`;
        return change(
          desk,
          say`${plain(title)}`,
          (studio) => {
            const hours = shiftNamed(studio, asked?.value ?? null, (each) =>
              line('shift hands', { count: typedText, hours: each }),
            );
            return isRefusal(hours)
              ? hours
              : [{ ...stampOf(desk), type: 'HandsSet', hours, count: value === 'duty' ? null : value }];
          },
          { short: true },
        );
      },
    }),
    holiday: part({
      summary: 'Close on some days: no shift begins on them, and nothing is planned there',
      manage: true,
      options: { days: text({ about: 'Which days: 24 Dec to 26 Dec, tomorrow, 2026-12-31, next fri' }) },
      examples: ['days:24 Dec to 26 Dec', 'days:tomorrow, next fri'],
      run: async ({ days: typedText }, desk) => {
        const days = datesIn(desk, typedText, (example) => line('shift holiday', { days: example }));
        if (isRefusal(days)) return days;
        const buttons = [{ label: 'Take back', command: 'shift workday', options: { days: datesText(days) } }];
        return change(
          desk,
          say`Closed ${plain(daysText(days, todayOf(desk)))}`,
          (studio) => [closedOn({ ...desk, studio }, days)],
          { short: true, buttons },
        );
      },
    }),
    workday: part({
      summary: 'Take holidays back: the shifts of those days happen',
      manage: true,
      options: { days: text({ about: 'Which days: 24 Dec to 26 Dec, tomorrow' }) },
      examples: ['days:24 Dec to 26 Dec'],
      run: async ({ days: typedText }, desk) => {
        const days = datesIn(desk, typedText, (example) => line('shift workday', { days: example }));
        if (isRefusal(days)) return days;
        const first = openOn(desk, days);
        if (isRefusal(first)) return first;
        const title = say`No holiday any more: ${plain(daysText(first.drop, todayOf(desk)))}`;
        return change(desk, title, (studio) => oneOf(openOn({ ...desk, studio }, days)), { short: true });
      },
    }),
    extra: part({
      summary: 'Staffed hours beside the shifts, on some days only',
      options: {
        on: text({ about: 'Which days: today, sat, 24 Dec; left out, today' }).optional(),
        hours: text({ about: 'From when to when: 17:00-19:00; off for none any more, 17:00-19:00 off for those' }).optional(),
        until: text({ about: 'Instead of hours: from the end of the last shift until 19:00' }).optional(),
        hands: whole({ about: 'Pairs of hands; left out, 1', emptied: '1', least: 0, most: MOST_HANDS }).optional(),
      },
      examples: ['on:tomorrow hours:17:00-19:00 hands:1', 'on:sat hours:8-12'],
      run: async ({ on, hours, until, hands }, desk) => {
        const asked = { on, hours, until, hands };
        const first = extraOn(desk, asked);
        if (isRefusal(first)) return first;
        return change(desk, hoursTitle(first, EXTRA), (studio) => extraOn({ ...desk, studio }, asked), {
          short: true,
          told: onTopOf(desk, first),
          buttons: hoursWays(desk.studio, desk.now, { events: first, kind: EXTRA, hours }),
        });
      },
    }),
    missing: part({
      summary: 'Fewer hands than usual, on some days only: somebody is ill, or a shift is dropped',
      options: {
        on: text({ about: 'Which days: today, fri, 24 Dec; left out, the shift that runs or comes next' }).optional(),
        hours: text({ about: 'In which hours: 14:00-22:00; off for nobody missing any more, 14:00-22:00 off' }).optional(),
        hands: typed(missingHands, { about: 'Pairs of hands: 2, or all; left out, 1' }).optional(),
      },
      examples: ['on:tomorrow hours:14:00-22:00', 'on:fri hours:06:00-14:00 hands:all'],
      run: async ({ on, hours, hands }, desk) => {
        const asked = { on, hours, hands };
        const first = missingOn(desk, asked);
        if (isRefusal(first)) return first;
        const before = toldBefore(desk.studio, desk.now, first, asked);
        return change(
          desk,
          hoursTitle(first, MISSING),
          (studio) => missingOn({ ...desk, studio }, asked),
          (studio) => ({
            short: true,
            told: [...leftThere(studio, first), ...before],
            buttons: hoursWays(studio, desk.now, { events: first, kind: MISSING, hours }),
          }),
        );
      },
    }),
    show: part({
      summary: 'The shifts, and who is on duty now',
      options: {},
      examples: [],
      run: async (_, desk) => shiftCard(say`Shifts`, desk.studio, desk.now, { aside: true }),
    }),
  },
});
