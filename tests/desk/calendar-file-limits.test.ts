import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import type { PlannedTime } from '../../src/bench/planning/plan.ts';
import { type CalendarAsk, type CalendarPlan, calendarOf } from '../../src/desk/calendar-file.ts';

const at = (clock: string) => Date.parse(`2026-03-02T${clock}Z`);
const coat: PlannedTime = {
  step: 'coat-1',
  title: 'First coat',
  kind: 'coat',
  startsAt: at('08:00'),
  endsAt: at('08:15'),
  opensAt: at('07:45'),
  closesAt: at('10:00'),
  latestAt: null,
};
const plan = (more: Partial<CalendarPlan> = {}, time: Partial<PlannedTime> = {}): CalendarPlan => ({
  job: 'owl',
  name: 'Owl',
  holder: 'dana',
  misfit: null,
  steps: [{ ...coat, ...time }],
  readyAt: at('09:00'),
  readyBy: null,
  ...more,
});
const file = (plans: readonly CalendarPlan[], more: Partial<CalendarAsk> = {}) =>
  calendarOf({ studioName: 'Harbour', zone: 'Etc/UTC', channel: 'bench', now: at('07:00'), plans, ...more });
const parsed = (text: string) => new ICAL.Component(ICAL.parse(text) as unknown[]);
const entries = (text: string) => parsed(text).getAllSubcomponents('vevent');
const value = (entry: ICAL.Component | undefined, name: string) => String(entry?.getFirstPropertyValue(name));
const uids = (...plans: CalendarPlan[]) => entries(file(plans)).map((entry) => value(entry, 'uid'));

describe('what an entry tells', () => {
  const description = (more: Partial<CalendarPlan>, time: Partial<PlannedTime> = {}, index = 0) =>
    value(entries(file([plan(more, time)]))[index], 'description');
  it('is the last moment where it comes sooner than the end of the window, or where that stays open', () => {
    const told = 'Begun by Mon 2 Mar 09:30, all that follows still fits.';
    expect(description({}, { latestAt: at('09:30') })).toContain(told);
    expect(description({}, { latestAt: at('09:30'), closesAt: null })).toContain(told);
    expect(description({}, { latestAt: at('09:30'), closesAt: at('09:30') })).not.toContain('Begun by');
    expect(description({})).not.toContain('Begun by');
  });
  it('is by when it is wanted, and with whom, also at its end', () => {
    expect(description({ readyBy: at('16:00') }, {}, 1)).toContain('Wanted by Mon 2 Mar 16:00.');
    expect(description({}, {}, 1)).not.toContain('Wanted');
    expect(description({}, {}, 1)).toContain('With dana.');
  });
});

// RFC 5545, 3.8.2.2: the end lies later than the start.
it('gives work that takes no hands a minute', () => {
  const [entry] = entries(file([plan({}, { endsAt: at('08:00') })])) as [ICAL.Component];
  const instant = (name: string) => (entry.getFirstPropertyValue(name) as ICAL.Time).toJSDate().getTime();
  expect([instant('dtstart'), instant('dtend')]).toEqual([at('08:00'), at('08:01')]);
});

describe('an entry is the same one', () => {
  it('of a job whatever its name; of a plan by its name', () => {
    expect(uids(plan({ name: 'Barn owl' }))).toEqual(uids(plan()));
    expect(uids(plan({ job: null, name: 'Barn owl' }))).not.toEqual(uids(plan({ job: null })));
    expect(uids(plan({ job: null, name: 'owl' }))).not.toEqual(uids(plan()));
  });
  it('on one bench alone', () => {
    const [here, there] = ['bench', 'other'].map((channel) => value(entries(file([plan()], { channel }))[0], 'uid'));
    expect(here).not.toBe(there);
  });
});

// RFC 5545, 3.3.11: backslash, semicolon and comma are escaped.
it('escapes its name', () =>
  expect(value(parsed(file([plan()], { studioName: 'Moulds, casts; C:\\art' })), 'x-wr-calname')).toBe(
    String.raw`Coatbell: Moulds\, casts\; C:\\art`,
  ));
