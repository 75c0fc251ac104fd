import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { Shards } from '../../../src/adapters/discord/client.ts';
import { StandingClock } from '../../../src/bench/standing-clock.ts';
import { MINUTE } from '../../../src/trade/time/calendar.ts';
import { botOn } from '../../support/bot.ts';
import { Platform } from '../../support/platform/platform.ts';
import type { Room } from '../../support/platform/world.ts';
import { MORNING, until } from './studio.ts';

describe('several shards', () => {
  const sharded = async (
    shards: Shards,
    work: (parts: { platform: Platform; rooms: [Room, Room]; rang: string[] }) => Promise<void>,
  ) => {
    const folder = mkdtempSync(join(tmpdir(), 'coatbell-shards.'));
    const platform = new Platform({ shards: 2, channelLimit: 1000 });
    const rooms: [Room, Room] = [
      platform.channel(platform.server('even', { shard: [0, 2] }), 'bench'),
      platform.channel(platform.server('odd', { shard: [1, 2] }), 'bench'),
    ];
    await platform.start();
    const clock = new StandingClock(MORNING);
    // Somebody had both servers before, and something falls due in each of them while nobody runs.
    const before = await botOn(platform, { clock, dataDir: folder, shards: { ids: [0, 1], of: 2 } });
    const dana = platform.person('dana');
    for (const channel of rooms) {
      const options = { material: 'brush-urethane', amount: '240 g' };
      await platform.command({ channel, user: dana, name: 'cup start', options }).answered({ ms: 8000 });
    }
    await before.close();
    await clock.advanceTo(MORNING + 16 * MINUTE);
    const bot = await botOn(platform, { clock, dataDir: folder, shards });
    await until('it rings', () => bot.rang.length > 0);
    await pause(300);
    await work({ platform, rooms, rang: bot.rang });
    await bot.close();
    await platform.stop();
    rmSync(folder, { recursive: true, force: true });
    expect(platform.complaints).toEqual([]);
  };

  it('one process holds them all, as many as the platform wants', async () => {
    await sharded('auto', async ({ platform, rooms, rang }) => {
      expect(rang).toEqual(['pot-low channel', 'pot-low channel']);
      const [, odd] = rooms;
      const asked = { channel: odd, user: platform.person('kim'), name: 'board' };
      expect((await platform.command(asked).answered({ ms: 8000 })).text).toContain('cup-1');
    });
  }, 60_000);

  it('two processes on the same data each ring for their own servers only', async () => {
    await sharded({ ids: [1], of: 2 }, async ({ platform, rooms: [even, odd], rang }) => {
      expect(rang).toEqual(['pot-low channel']);
      expect(platform.messagesIn(odd).some(({ text }) => text.includes('Use up cup-1'))).toBe(true);
      expect(platform.messagesIn(even).some(({ text }) => text.includes('Use up cup-1'))).toBe(false);
    });
  }, 60_000);
});
