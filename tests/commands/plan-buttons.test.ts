import { expect, test } from 'vitest';
import { code, labels, type Room, room, roomEach } from '../support/room.ts';
import { NEW, SHIFTS } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const pressed = async (at: Room, ...lines: string[]) => (await at.type(...lines)).at(-1);

test('a plan that is started later has the promise and the extra hours that were shown', async () => {
  await here.type(SHIFTS, `/plan name:Owl ${NEW} ready-by:in 4 days extra:tomorrow 17:00-19:00`);
  const started = await last('+17h', '[Start this plan]');
  expect(started?.text).toContain('One more person is planned from 17:00 until 19:00.');
  expect((await last('/plan job:owl'))?.data).toMatchObject({ plan: { readyBy: '2026-03-06T08:00:00+01:00' } });
});

test('so has an offer that is pressed later', async () => {
  await here.type(SHIFTS);
  const offer = await last(`/plan name:Owl ${NEW} ready-by:in 2 days extra:today 17:00-19:00`);
  expect(offer?.title).toContain('cannot be ready by Wed 08:00');
  for (const { options } of offer?.buttons ?? []) {
    expect(options['extra']).toMatch(/^2026-03-02 17:00-19:00/);
    expect(options['ready-by']).toMatch(/^2026-03-04 /);
  }
  expect(labels(offer)).not.toEqual([]);
});

test.each([
  ['twice within the hour of grace', '+5m', '+65m'],
  ['late, and again', '+65m', '+20m'],
])('pressed %s, [Start this plan] begins one job', async (_, first, second) => {
  await here.type(SHIFTS, `/plan name:Owl ${NEW} start:today 9:00`, first, '[Start this plan]');
  expect(code(await last(second, '[Start this plan]'))).toBe('already-planned');
});

/** Clocks go back an hour in Berlin (EU directive 2000/84/EC), half an hour on Lord Howe Island (time zone database, australasia). */
test.each([
  {
    zone: 'Europe/Berlin',
    start: '2026-10-25 02:30',
    at: '2026-10-24T08:55',
    label: 'One more person Sun 02:30 summer time-02:00 winter time',
    told: 'Sun 02:30 summer time to Sun 02:00 winter time (1 pair of hands)',
  },
  {
    zone: 'Australia/Lord_Howe',
    start: '2026-04-05T01:45+10:30',
    at: '2026-04-03T15:00',
    label: 'One more person Sun 01:45 winter time-02:15',
    told: 'Sun 01:45 winter time to Sun 02:15 (1 pair of hands)',
  },
])(
  'extra hours within the time that comes twice in $zone are those that were offered',
  async ({ zone, start, at, label, told }) => {
    const there = await room({ at, zone });
    const offer = await pressed(there, '/shift set hours:06:00-22:00 days:mon-sun', `/plan name:Aa ${NEW} start:${start}`);
    expect(labels(offer)).toContain(label);
    await pressed(there, `[${label}]`, '[Start this plan]');
    expect((await pressed(there, '/shift show'))?.text).toContain(`Extra hours: ${told}.`);
    await there.close();
  },
);

test('/shift extra reads them, and takes them back', async () => {
  const berlin = await room({ at: '2026-10-24T08:00' });
  const exact = '2026-10-25T02:30+02:00/2026-10-25T02:00+01:00';
  const extra = await pressed(berlin, '/shift set hours:06:00-22:00 days:mon-sun', `/shift extra hours:"${exact}"`);
  expect(extra?.buttons[0]?.options['hours']).toBe(`${exact} off`);
  expect((await pressed(berlin, '[Take back]'))?.title).toContain('Extra hours taken back');
  expect(code(await pressed(berlin, '/shift extra hours:"2026-10-25T02:30+02:00/2026-10-26T02:00+01:00"'))).toBe('bad-length');
  await berlin.close();
});

test('with no holiday left to take back, the line that is offered takes none', async () => {
  await here.type(SHIFTS, '/shift holiday days:tomorrow', '[Take back]');
  const again = await last('/shift workday days:tomorrow');
  expect(code(again)).toBe('no-holiday');
  expect(again?.text).toContain('For example: /shift show');
});
