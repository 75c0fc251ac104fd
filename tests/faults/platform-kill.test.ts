import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, afterEach, expect, it } from 'vitest';
import { registration } from '../../src/chat/registration.ts';
import { commands } from '../../src/main/registry.ts';
import { Platform } from '../support/platform/platform.ts';
import { Posted } from '../support/platform/posted.ts';
import { type Served, serving } from '../support/served.ts';

const folder = mkdtempSync(join(tmpdir(), 'coatbell-platform-kill.'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const running: Served[] = [];
afterEach(() => {
  for (const { child } of running.splice(0)) child.kill('SIGKILL');
});

const until = async (what: string, holds: () => boolean) => {
  for (let tries = 0; tries < 1000; tries += 1) {
    if (holds()) return;
    await pause(20);
  }
  throw new Error(`it never came to this: ${what}`);
};

/** A studio where a ping stands in the channel, and the bot is killed before it hears that it does. */
async function rungAt(dataDir: string, harm: (platform: Platform) => void, meanwhile: (platform: Platform) => void) {
  const platform = new Platform();
  const server = platform.server('studio');
  const channel = platform.channel(server, 'bench');
  const dana = platform.person('dana');
  await platform.start();
  platform.assumeRegistered(registration(commands));
  const start = async () => {
    const bot = serving(platform, join(folder, dataDir));
    running.push(bot);
    await bot.event('ready');
    return bot;
  };
  const told = async (name: string, options: Record<string, string>) =>
    platform.command({ channel, user: dana, name, options }).answered({ ms: 10_000 });
  const pings = () => platform.messagesIn(channel).filter(({ text }) => text.includes('Use up cup-1'));

  const bot = await start();
  harm(platform);
  // Told late: its pot life is nearly over, which is rung for at once.
  await told('cup start', { material: 'brush-urethane', amount: '240 g', at: '17m ago' });
  await until('the message stands in the channel', () => pings().length === 1);
  // Its answer has not reached the bot yet, so nothing can be on record.
  bot.child.kill('SIGKILL');
  expect(await bot.ended).toBe('SIGKILL');
  meanwhile(platform);
  const again = await start();
  await pause(2500);
  const count = pings().length;
  const rang = again.log.filter(({ event, about }) => event === 'rang' && (about as { kind?: string }).kind === 'pot-low');
  again.child.kill('SIGTERM');
  expect(await again.ended).toBe(0);
  // A third start finds it on record.
  const third = await start();
  await pause(1500);
  const afterwards = pings().length;
  third.child.kill('SIGTERM');
  await third.ended;
  const { complaints } = platform;
  await platform.stop();
  return { count, afterwards, rang, complaints };
}

const slow = (platform: Platform) =>
  platform.fault({
    method: 'POST',
    path: /^\/channels\/\d+\/messages$/,
    times: 20,
    harm: { kind: 'slow', ms: 60_000, when: 'after' },
  });

it.each([
  ['within minutes, the platform knows the message by its name', 'a', () => {}],
  [
    'later, the bot finds it in the channel by its mark',
    'b',
    (platform: Platform) => {
      platform.settings.nonceMs = 0;
    },
  ],
  [
    'also where much was said since',
    'c',
    (platform: Platform) => {
      platform.settings.nonceMs = 0;
      const [room] = [...platform.world.rooms.values()].filter(({ kind }) => kind === 'channel');
      const [dana] = platform.world.people;
      if (!room || !dana) throw new Error('nobody is there to talk');
      for (let said = 0; said < 250; said += 1)
        room.messages.push(new Posted(room.id, dana.user, { content: 'chatter' }, [], 'http://127.0.0.1/'));
    },
  ],
])(
  'killed between sending a ping and recording it, it is not sent again: %s',
  async (_, dataDir, forget) => {
    let harm: ReturnType<typeof slow> | undefined;
    const { count, afterwards, rang, complaints } = await rungAt(
      dataDir,
      (platform) => {
        harm = slow(platform);
      },
      (platform) => {
        harm?.lift();
        forget(platform);
      },
    );
    expect([count, afterwards]).toEqual([1, 1]);
    expect(rang.length).toBeGreaterThanOrEqual(1);
    expect(complaints).toEqual([]);
  },
  120_000,
);
