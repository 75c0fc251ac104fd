import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, afterEach, beforeEach, expect, it } from 'vitest';
import { registration } from '../../src/chat/registration.ts';
import { commands } from '../../src/main/registry.ts';
import { Platform } from '../support/platform/platform.ts';
import type { Person, Room } from '../support/platform/world.ts';
import { type Served, serving } from '../support/served.ts';

/** How the serving program comes to its end, and that there is only one of it. */
const folder = mkdtempSync(join(tmpdir(), 'coatbell-serve-end.'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let platform: Platform;
let channel: Room;
let dana: Person;
const running: Served[] = [];
const start = async (dataDir: string) => {
  const bot = serving(platform, join(folder, dataDir));
  running.push(bot);
  await bot.event('ready');
  return bot;
};
const cup = () =>
  platform.command({ channel, user: dana, name: 'cup start', options: { material: 'brush-urethane', amount: '240 g' } });

beforeEach(async () => {
  platform = new Platform();
  channel = platform.channel(platform.server('studio'), 'bench');
  dana = platform.person('dana');
  await platform.start();
  platform.assumeRegistered(registration(commands));
});
afterEach(async () => {
  for (const { child } of running.splice(0)) child.kill('SIGKILL');
  await platform.stop();
});

it('ends while it is connecting anew, and does not come back', async () => {
  const bot = await start('a');
  platform.refuseConnections(true);
  await bot.event('reconnecting');
  bot.child.kill('SIGTERM');
  expect(await bot.ended).toBe(0);
}, 60_000);

it('ends with commands under way, all of them answered', async () => {
  const bot = await start('b');
  platform.fault({ method: 'POST', path: /callback$/, times: 9, harm: { kind: 'slow', ms: 2000, when: 'before' } });
  const asked = [cup(), cup(), cup()];
  await pause(150);
  bot.child.kill('SIGTERM');
  await Promise.all(asked.map((each) => each.answered({ ms: 10_000 })));
  expect(await bot.ended).toBe(0);
  expect(bot.log.filter(({ event }) => event === 'trouble')).toEqual([]);
  // It heard that its answers had arrived, and only then went.
  const told = bot.log.map(({ event }) => event).filter((event) => event === 'answered' || event === 'ended');
  expect(told).toEqual(['answered', 'answered', 'answered', 'ended']);
}, 60_000);

it('is not cut short by somebody who tells it twice', async () => {
  const bot = await start('e');
  platform.fault({ method: 'POST', path: /callback$/, times: 9, harm: { kind: 'slow', ms: 1000, when: 'before' } });
  const asked = cup();
  await pause(150);
  bot.child.kill('SIGTERM');
  await pause(100);
  bot.child.kill('SIGTERM');
  expect((await asked.answered({ ms: 10_000 })).text).toContain('cup-1');
  expect(await bot.ended).toBe(0);
}, 60_000);

it('ends in good time while the platform hangs', async () => {
  const bot = await start('c');
  platform.fault({ path: /messages$/, times: 99, harm: { kind: 'slow', ms: 60_000, when: 'before' } });
  await platform
    .command({ channel, user: dana, name: 'cup start', options: { material: 'brush-urethane', amount: '240 g', at: '17m ago' } })
    .answered();
  await pause(300);
  const told = Date.now();
  bot.child.kill('SIGTERM');
  expect(await bot.ended).toBe(0);
  // Each of its three steps has an end.
  expect(Date.now() - told).toBeLessThan(20_000);
}, 60_000);

it('a second one on the same folder does not serve beside it, but does once the first was killed', async () => {
  const first = await start('d');
  const second = serving(platform, join(folder, 'd'));
  running.push(second);
  await cup().answered();
  expect(await second.ended).toBe(1);
  expect(second.errors()).toContain('Another process serves');
  // One that still waits for its place can be told to end as well.
  const waiting = serving(platform, join(folder, 'd'));
  running.push(waiting);
  await waiting.event('opened');
  await pause(300);
  waiting.child.kill('SIGTERM');
  expect(await waiting.ended).toBe(0);
  first.child.kill('SIGKILL');
  await first.ended;
  const third = await start('d');
  const answered = await cup().answered({ ms: 10_000 });
  expect(answered.text).toContain('cup-2');
  third.child.kill('SIGTERM');
  expect(await third.ended).toBe(0);
}, 90_000);
