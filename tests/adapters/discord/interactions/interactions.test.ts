import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Exchange } from '../../../support/platform/exchange.ts';
import { counters, MINUTE } from './counter.ts';
import { forms, written } from './forms.ts';

const { begin, close } = counters();
afterEach(close);
beforeEach(() => void written.splice(0));
const narrow = ({ message }: Exchange) => message.body.allowed_mentions?.parse;

it('hands over every kind of option as it would be typed', async () => {
  const { platform, bench, dana, kim } = await begin({ commands: forms });
  const options = {
    quiet: false,
    cups: 3,
    who: `<@${kim.user.id}>, Dana`,
    list: { filename: 'list.yaml', type: 'text/plain', bytes: Buffer.from('rubber: 1') },
  };
  const exchange = await platform.command({ channel: bench, user: dana, name: 'kinds', options }).answered();
  expect(written).toMatchObject([{ quiet: false, cups: 3, who: [kim.user.id, dana.user.id] }]);
  expect(exchange.text).toContain('rubber: 1');
});

it('takes a person for the holder, and calls people by their names', async () => {
  const { platform, bench, dana, kim, people, server, state } = await begin();
  await platform
    .command({
      channel: bench,
      user: dana,
      name: 'job start',
      options: { name: 'Frieze', skin: 'brush-urethane', shell: 'shell-paste', holder: kim },
    })
    .answered();
  expect((await state()).jobs.get('frieze')?.holder).toBe(kim.user.id);
  expect(people.name(server.id, kim.user.id)).toBe('kim');
});

it('refuses a name that nobody has, and says how to write it', async () => {
  const { platform, bench, dana, started, state } = await begin();
  await started();
  const ask = (to: string) => platform.command({ channel: bench, user: dana, name: 'handover give', options: { to } }).answered();
  const refused = await ask('kimm, @everyone');
  expect(refused.message.aside).toBe(true);
  expect(refused.text).toContain('kimm');
  expect(refused.text).toContain('Type @');
  expect((await state()).offers).toEqual([]);
  expect((await ask('Kim')).text).toContain('Handover');
});

it('shares a channel’s bench with its threads, and answers where it was asked', async () => {
  const { platform, bench, kim, started, state, client } = await begin();
  const message = await started();
  const thread = platform.thread(bench, 'lion');
  const inThread = await platform.command({ channel: thread, user: kim, name: 'job list' }).answered();
  expect(inThread.text).toContain('Lion head');
  expect(inThread.message.channelId).toBe(thread.id);
  // One that was never announced, as an archived one is not.
  client.channels.cache.delete(thread.id);
  const done = await platform.command({ channel: thread, user: kim, name: 'done' }).answered();
  expect(done.message.channelId).toBe(thread.id);
  const { id } = platform.thread(bench, 'unheard');
  await vi.waitUntil(() => client.channels.cache.has(id));
  client.channels.cache.delete(id);
  const room = platform.world.room(id);
  expect((await platform.command({ channel: room, user: kim, name: 'job list' }).answered()).text).toContain('Lion head');
  expect(platform.requestsTo('GET', `/channels/${id}`)).toHaveLength(1);
  const pressed = await platform.press({ channel: thread, user: kim, message, label: 'Step done' }).answered();
  expect(pressed.text).toContain('already logged');
  expect((await state()).jobs.size).toBe(1);
});

it('makes each post of a forum a bench of its own, since nothing could be rung in the forum itself', async () => {
  const { platform, bench, kim, client } = await begin();
  const server = bench.server;
  if (server === null) throw new Error('the bench is in no server');
  const forum = platform.forum(server, 'projects');
  const [lion, frieze] = [platform.thread(forum, 'lion'), platform.thread(forum, 'frieze')];
  const options = { name: 'Lion head', skin: 'brush-urethane', shell: 'shell-paste' };
  await platform.command({ channel: lion, user: kim, name: 'job start', options }).answered();
  await vi.waitUntil(() => client.channels.cache.has(frieze.id));
  for (const id of [lion.id, frieze.id, forum.id]) client.channels.cache.delete(id);
  expect((await platform.command({ channel: lion, user: kim, name: 'job list' }).answered()).text).toContain('Lion head');
  expect((await platform.command({ channel: frieze, user: kim, name: 'job list' }).answered()).text).toContain('No open job');
});

it('says so calmly when something breaks, and leaves everything as it was', async () => {
  const { platform, bench, dana, started, disk, troubles, state, answered, quiet } = await begin();
  const message = await started();
  disk.broken = true;
  const pressed = await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  expect(pressed.message.aside).toBe(true);
  expect(pressed.text).toContain('broke');
  await quiet();
  expect(troubles).toContainEqual(['done', new Error('the disk is gone')]);
  expect(answered.at(-1)).toMatchObject({ command: 'done', how: 'broken' });
  disk.broken = false;
  expect((await state()).jobs.get('lion-head')?.steps[0]?.done).toBeNull();
});

it('rings after the answer what a late entry has made due', async () => {
  const { platform, bench, dana, started, clock, rung, quiet } = await begin();
  await started();
  await platform.command({ channel: bench, user: dana, name: 'done' }).answered();
  await clock.advanceTo(clock.now() + 240 * MINUTE);
  rung.length = 0;
  await platform.command({ channel: bench, user: dana, name: 'done', options: { at: '08:20' } }).answered();
  await quiet();
  expect(rung.length).toBeGreaterThan(0);
});

const HOSTILE = '@everyone <@&1> **x** [a](https://b.c) ||d|| `e` <@12345678901234567> # f\n- g discord.gg/abc';

it('mentions nobody on account of what is typed', async () => {
  const { platform, bench, dana, started } = await begin();
  await started();
  const texts: [string, Record<string, string>][] = [
    ['job start', { name: HOSTILE, skin: 'brush-urethane', shell: 'shell-paste' }],
    ['job note', { job: 'lion-head', text: HOSTILE }],
    ['job hold', { job: 'lion-head', text: HOSTILE }],
    ['job resume', { job: 'lion-head' }],
    ['done', { job: 'lion-head', note: HOSTILE }],
    ['done', { job: HOSTILE }],
    ['done', { job: 'lion-head', step: HOSTILE, at: HOSTILE }],
    ['mix', { material: HOSTILE, amount: HOSTILE }],
    ['fix', { material: 'brush-urethane', poured: HOSTILE }],
    ['cup start', { material: HOSTILE, amount: '100 g' }],
    ['handover give', { to: HOSTILE, note: HOSTILE }],
    ['handover give', { to: 'kim', note: HOSTILE }],
    ['shift duty', { who: HOSTILE }],
    ['temp log', { value: HOSTILE }],
    ['help', { topic: HOSTILE }],
    ['job close', { job: 'lion-head', text: HOSTILE }],
  ];
  for (const [name, options] of texts) {
    const exchange = await platform.command({ channel: bench, user: dana, name, options, unchecked: true }).answered();
    expect(narrow(exchange)).toEqual([]);
    expect(exchange.message.body.allowed_mentions).not.toMatchObject({ users: expect.arrayContaining(['12345678901234567']) });
    expect(exchange.text).not.toMatch(/@everyone/);
    // A line to type stands there as it was typed, within a fence that nothing in it can end.
    expect(exchange.text.replaceAll(/(?<!\\)`[^`\n]*`/g, '')).not.toMatch(/<@&1>|\]\(https/);
  }
});

it('gives back the command that is refused, ready to be copied', async () => {
  const { platform, bench, dana, kim, server, people, started } = await begin();
  const message = await started();
  const ask = (name: string, options: Record<string, string | boolean>) =>
    platform.command({ channel: bench, user: dana, name, options }).answered();
  const mixed = await ask('mix', { material: 'brush-urethane', amount: 'lots', job: 'lion-head' });
  expect(mixed.message.aside).toBe(true);
  expect(mixed.text).toContain('\nYou typed: `/mix material:brush-urethane amount:lots job:lion-head`\nFor example: `');
  expect((await ask('done', { step: 'trim', early: true })).text).toContain('You typed: `/done step:trim early:yes`');
  // Where nothing was typed, or a button was pressed, there is nothing to give back.
  expect((await ask('snooze', {})).text).not.toContain('You typed');
  for (const user of [dana, kim]) {
    const pressed = await platform.press({ channel: bench, user, message, label: 'Step done', unchecked: true }).answered();
    expect(pressed.text).not.toContain('You typed');
  }
  // A person who is not known: the line that was typed, with somebody who is.
  people.learn(server.id, kim.user.id, { username: 'kim', globalName: 'Kim Oh' });
  const given = await ask('handover give', { to: 'kimberly', note: 'left: thin' });
  expect(given.text).toContain('You typed: `/handover give to:kimberly note:"left: thin"`');
  expect(given.text).toContain('For example: `/handover give to:Kim Oh note:"left: thin"`');
  expect((await ask('handover give', { to: 'Kim Oh', note: 'left: thin' })).message.aside).toBe(false);
});
