import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { describe, expect, it, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, labels, offered, ping, room, roomEach, START } from '../support/room.ts';

const SHIFTS = '/shift set hours:06:00-14:00, 14:00-22:00 days:mon-fri';
const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const shift = (message: MessageObject | undefined) =>
  message?.data['shift'] as {
    hands: { hours: string; hands: number }[];
    holidays: string[];
    extraHours: { from: string; until: string; hands: number }[];
    missing: { from: string; until: string; hands: number }[];
  };
const shortly = (list: { from: string; until: string; hands: number }[]) =>
  list.map(({ from, until, hands }) => `${from.slice(5, 16)} ${until.slice(5, 16)} ${hands}`);

describe('/shift hands', () => {
  it('counts for all shifts, for one, or as many as are on duty', async () => {
    const hands = async (...lines: string[]) => shift(await last(...lines)).hands.map((each) => each.hands);
    expect(await hands(SHIFTS, '/shift show')).toEqual([1, 1]);
    expect(await hands('/shift duty who:kim, lee hours:6-14', '/shift show')).toEqual([2, 1]);
    expect(await hands('/shift hands count:3 hours:14-22')).toEqual([2, 3]);
    expect(await hands('/shift hands count:4')).toEqual([4, 4]);
    expect(await hands('/shift hands count:2 people hours:14-22')).toEqual([4, 2]);
    expect(await hands('/shift hands count:duty')).toEqual([2, 1]);
  });
  it('says what it does where no shifts are kept', async () =>
    expect((await last('/shift hands count:2'))?.text).toContain('Planned at any time'));
  it.each([
    ['/shift hands count:0', 'bad-hands'],
    ['/shift hands count:21', 'bad-hands'],
    ['/shift hands count:lots', 'bad-hands'],
    ['/shift hands count:2 hours:9-17', 'unknown-shift'],
    ['/shift hands count:2 hours:early', 'not-hours'],
  ])('refuses %s, and what it offers works', async (line, expected) => {
    await here.type(SHIFTS);
    await offered((typed) => here.type(typed), line, expected);
  });
});

describe('/shift duty', () => {
  const duty = (message: MessageObject | undefined) => (message?.data['shift'] as { onDuty: string[] } | undefined)?.onDuty;
  it.each(['nobody', 'none', '-'])('who:%s takes everybody off duty', async (who) => {
    await here.type(SHIFTS, '/shift duty who:kim', '/shift duty who:lee hours:6-14');
    const set = await last(`/shift duty who:${who}`);
    expect([set?.title, duty(set)]).toEqual(['Nobody is on duty any more', []]);
    expect(set?.text).not.toContain('In the shift');
  });
  it('who:nobody takes those of one shift off duty', async () => {
    await here.type(SHIFTS, '/shift duty who:kim', '/shift duty who:lee hours:6-14');
    const set = await last('/shift duty who:nobody hours:6-14');
    expect([set?.title, duty(set)]).toEqual(['Nobody is on duty any more in 06:00-14:00', ['kim']]);
  });
});

describe('/shift holiday', () => {
  it('closes on days, shows the next of them, and takes them back with one tap', async () => {
    const set = await last(SHIFTS, '/shift holiday days:24-26 Dec, 24.12., tomorrow');
    expect(set?.title).toBe('Closed Tue 3 Mar, Thu 24 Dec to Sat 26 Dec');
    expect(shift(set).holidays).toEqual(['2026-03-03', '2026-12-24', '2026-12-25', '2026-12-26']);
    const more = await last('/shift holiday days:1 Apr, 3 Apr, 5 Apr', '/shift show');
    expect(more?.text).toContain('Closed: Tue 3 Mar, Wed 1 Apr, Fri 3 Apr and 4 more days.');
    await here.type('/shift holiday days:2026-12-25 to 2027-01-02');
    expect(shift(await last('[Take back]')).holidays).toEqual([
      '2026-03-03',
      '2026-04-01',
      '2026-04-03',
      '2026-04-05',
      '2026-12-24',
    ]);
  });
  it('a holiday that is over is shown no more', async () => {
    await here.type(SHIFTS, '/shift holiday days:tomorrow', '+2d');
    expect(shift(await last('/shift show')).holidays).toEqual([]);
  });
  it('rings for no shift that a holiday leaves out, and for the next one', async () => {
    await here.type(SHIFTS, START, '/shift holiday days:today, tomorrow');
    const rung = (await here.type('+2d')).filter((message) => ping(message)?.kind === 'digest');
    expect(rung.map(({ at }) => at.slice(0, 16))).toEqual(['2026-03-04T06:00']);
  });
  it('says late of no shift that began while it was a holiday', async () => {
    await here.type(SHIFTS, '/shift holiday days:tomorrow', START, '+1d');
    expect((await here.type('/shift workday days:today')).map(({ kind }) => kind)).toEqual(['reply']);
    const rung = (await here.type('+1d')).filter((message) => ping(message)?.kind === 'digest');
    expect(rung.map(({ at }) => at.slice(0, 16))).toEqual(['2026-03-03T14:00', '2026-03-04T06:00']);
  });
  it.each([
    ['/shift holiday days:3/4', 'two-readings', 'Wed 4 Mar'],
    ['/shift holiday days:tomorow', 'not-a-day', 'Tue 3 Mar'],
    ['/shift holiday days:30 Feb', 'no-such-day', 'Tue 3 Mar'],
    ['/shift holiday days:yesterday', 'past-day', 'Tue 3 Mar, Thu 24 Dec to Sat 26 Dec'],
  ])('refuses %s, and what it offers works', async (line, expected, closed) => {
    await here.type(SHIFTS);
    expect((await offered((typed) => here.type(typed), line, expected))?.title).toBe(`Closed ${closed}`);
  });
});

describe('/shift workday', () => {
  it('takes back what is a holiday among the days', async () => {
    const opened = await last(SHIFTS, '/shift holiday days:24 Dec', '/shift workday days:23-26 Dec');
    expect([opened?.title, shift(opened).holidays]).toEqual(['No holiday any more: Thu 24 Dec', []]);
  });
  it('refuses where none is, and offers what works', async () => {
    const shown = await offered((typed) => here.type(typed), '/shift workday days:24 Dec', 'no-holiday');
    expect(shown?.title).toBe('Shifts');
    await here.type('/shift holiday days:tomorrow');
    const opened = await offered((typed) => here.type(typed), '/shift workday days:24 Dec', 'no-holiday');
    expect(opened?.title).toBe('No holiday any more: Tue 3 Mar');
  });
});

describe('/shift extra', () => {
  const extras = (message: MessageObject | undefined) => shortly(shift(message).extraHours);

  test.each([
    ['hours:22:00-23:30', ['03-02T22:00 03-02T23:30 1']],
    ['on:today hours:7-9 hands:2', ['03-02T07:00 03-02T09:00 2']],
    ['on:sat hours:20-2', ['03-07T20:00 03-08T02:00 1']],
    ['on:fri until:23:30', ['03-06T22:00 03-06T23:30 1']],
    ['on:fri until:1am', ['03-06T22:00 03-07T01:00 1']],
    ['on:sat, sun hours:8-12', ['03-07T08:00 03-07T12:00 1', '03-08T08:00 03-08T12:00 1']],
  ])('%s', async (options, expected) => expect(extras(await last(SHIFTS, `/shift extra ${options}`))).toEqual(expected));

  it('says where hands add up, stands beside others, and is taken back with one tap', async () => {
    const set = await last(SHIFTS, '/shift extra on:fri hours:13-17 hands:2');
    expect(set?.text).toContain('On top of the hands in 06:00-14:00, 14:00-22:00.');
    expect(labels(set)).toEqual(['Take back']);
    const long = '03-06T13:00 03-06T17:00';
    const beside = await last('/shift extra on:fri hours:16-23');
    expect(extras(beside)).toEqual([`${long} 2`, '03-06T16:00 03-06T23:00 1']);
    expect(beside?.text).toContain('Beside the extra hours Fri 13:00 to Fri 17:00 (2 pairs of hands): hands add up.');
    expect(extras(await last('[Take back]'))).toEqual([`${long} 2`]);
    const again = await last('/shift extra on:fri hours:13-17 hands:3');
    expect([extras(again), again?.text.includes('In place of the same')]).toEqual([[`${long} 3`], true]);
    await here.type('/shift extra on:sat hours:8-12', '/shift extra on:sun hours:8-12');
    expect(extras(await last('[Take back]'))).toEqual([`${long} 3`, '03-07T08:00 03-07T12:00 1']);
    expect(extras(await last('+5d', '/shift show'))).toEqual(['03-07T08:00 03-07T12:00 1']);
  });
  it('takes back those hours alone, or all of a day', async () => {
    await here.type(SHIFTS, '/shift extra on:fri hours:13-17', '/shift extra on:fri hours:16-2');
    expect(extras(await last('/shift extra on:fri hours:16-2 off'))).toEqual(['03-06T13:00 03-06T17:00 1']);
    await here.type('/shift extra on:fri hours:16-23');
    expect(extras(await last('/shift extra on:fri hours:off'))).toEqual([]);
  });
  it('shows the next five, and how to take one back', async () => {
    const shown = await last(SHIFTS, '/shift extra on:3 Mar to 8 Mar hours:22-23', '/shift show');
    expect(shown?.text).toContain('Sat 22:00 to Sat 23:00 (1 pair of hands) and 1 more.');
    const [line = ''] = /\/shift extra on:2026-03-03 hours:off/.exec(shown?.text ?? '') ?? [];
    expect(extras(await last(line))).toHaveLength(5);
  });
  it('says in numbers how many more there are', async () => {
    const set = await last(SHIFTS, '/shift extra on:3 Mar to 8 Mar hours:22-23');
    expect(set?.title).toBe('Extra hours Tue 22:00 to Tue 23:00 and on 5 more: 1 pair of hands');
    expect(set?.text).toContain('and 1 more');
  });
  it.each([
    ['/shift extra', 'which-hours'],
    ['/shift extra hours:17-19 until:20:00', 'which-hours'],
    ['/shift extra hours:5-6', 'past-day'],
    ['/shift extra hours:22-22', 'bad-length'],
    ['/shift extra hours:late', 'not-hours'],
    ['/shift extra until:late', 'bad-time'],
    ['/shift extra on:fri until:21:00', 'bad-length'],
    ['/shift extra on:sat until:19:00', 'no-shift'],
    ['/shift extra on:3/4 hours:17-19', 'two-readings'],
    ['/shift extra on:firday hours:17-19', 'not-a-day'],
    ['/shift extra on:sun hours:off', 'no-extra-hours'],
    ['/shift extra on:sat hours:9-12 off', 'no-extra-hours'],
    ['/shift extra on:sat hours:late off', 'not-hours'],
    ['/shift extra on:sat hours:9-12 hands:0', 'no-hands'],
    ['/shift extra on:sun hours:9-12 hands:0', 'no-hands'],
  ])('refuses %s, and what it offers works', async (line, expected) => {
    await here.type(SHIFTS, '/shift extra on:sat hours:8-12');
    await offered((typed) => here.type(typed), line, expected);
  });
  it('needs shifts to stand beside', async () => {
    const refused = await last('/shift extra hours:17-19');
    expect([code(refused), (await last(example(refused)))?.kind]).toEqual(['no-shifts', 'reply']);
  });
});

it('what was set is there after a restart', async () => {
  const dataDir = mkdtempSync(`${tmpdir()}/coatbell-shift.`);
  const lines = [SHIFTS, '/shift hands count:2 hours:6-14', '/shift holiday days:24 Dec', '/shift extra on:sat hours:8-12'];
  const before = await room({ dataDir });
  await before.type(...lines);
  const shown = (await before.type('/shift show')).at(-1);
  await before.close();
  const after = await room({ dataDir });
  expect((await after.type('/shift show')).at(-1)?.data).toEqual(shown?.data);
  await after.close();
  rmSync(dataDir, { recursive: true });
});
