import { setTimeout as pause } from 'node:timers/promises';
import { afterEach } from 'vitest';
import { StandingClock } from '../../../src/bench/standing-clock.ts';
import { botOn } from '../../support/bot.ts';
import { Platform } from '../../support/platform/platform.ts';
import type { Person, Room } from '../../support/platform/world.ts';

const MANAGE_SERVER = 1n << 5n;
export const MORNING = Date.UTC(2026, 2, 2, 7);
const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** A platform with a server, a channel and Dana, who manages it; the bot is there, its clock stands still. */
export async function studio(
  more: { settings?: ConstructorParameters<typeof Platform>[0]; prepare?: (platform: Platform) => void } = {},
) {
  const platform = new Platform({ channelLimit: 1000, ...more.settings });
  const server = platform.server('studio');
  const channel = platform.channel(server, 'bench');
  const dana = platform.person('dana');
  dana.permissions |= MANAGE_SERVER;
  const kim = platform.person('kim');
  more.prepare?.(platform);
  await platform.start();
  closing.push(() => platform.stop());
  const clock = new StandingClock(MORNING);
  const uploads: string[] = [];
  const bot = await botOn(platform, { clock, boardEveryMilliseconds: 50, uploads });
  closing.push(bot.close);
  const told = (name: string, options: Record<string, unknown> = {}, where: Room = channel, who: Person = dana) =>
    platform.command({ channel: where, user: who, name, options: options as Record<string, string> }).answered({ ms: 8000 });
  const lion = (where: Room = channel) =>
    told('job start', { name: 'Lion head', skin: 'brush-urethane', shell: 'shell-paste', area: '0.4 m2' }, where);
  const pings = (where: Room = channel) =>
    platform
      .messagesIn(where)
      .filter(({ text, body }) => !text.includes('Board at') && (body.allowed_mentions?.users ?? []).length > 0);
  const bench = (where: Room = channel) => bot.app.studios.house(where.server?.id ?? '').bench(where.id);
  return { uploads, platform, server, channel, dana, kim, clock, bot, told, lion, pings, bench };
}

export const until = async (what: string, holds: () => boolean | Promise<boolean>, milliseconds = 15_000) => {
  for (const end = Date.now() + milliseconds; Date.now() < end; await pause(10)) if (await holds()) return;
  throw new Error(`it never came to this: ${what}`);
};
