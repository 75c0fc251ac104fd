import { once } from 'node:events';
import { Events, GatewayIntentBits } from 'discord.js';
import { describe, expect, test, vi } from 'vitest';
import { given, loggedIn, replies, seconds } from './client.ts';
import type { Platform } from './platform.ts';

describe.concurrent('the socket', () => {
  test.each([
    ['asked to reconnect', (platform: Platform) => platform.reconnect()],
    ['closed with 4000', (platform: Platform) => platform.dropConnection(4000)],
    ['cut', (platform: Platform) => platform.gateway.cut()],
  ])('when it is %s, what was missed is replayed', async (_, end) => {
    const { platform, bench, dana } = await loggedIn({ hear: replies('here') });
    end(platform);
    const exchange = platform.command({ channel: bench, user: dana, name: 'job start' });
    await exchange.answered();
    // A bot that is only asked to reconnect may still answer over the old line.
    const once = { identifies: 1, resumes: 1, connections: 2 };
    await vi.waitFor(() => expect(platform.gateway.counts).toMatchObject(once), seconds(3));
    expect(exchange.rejected).toEqual([]);
  });

  test('an invalid session that can be resumed is, and one that cannot makes the bot identify anew', async () => {
    const { platform, bench, dana, client } = await loggedIn({ hear: replies('here') });
    const resumed = once(client, Events.ShardResume);
    platform.invalidSession(true);
    // The client library fails if the session ends while it is still at the RESUMED.
    await resumed;
    await vi.waitFor(() => expect(platform.gateway.counts).toMatchObject({ identifies: 1, resumes: 1 }), seconds(3));
    platform.invalidSession(false);
    await vi.waitFor(() => expect(platform.gateway.counts).toMatchObject({ identifies: 2, resumes: 1 }), seconds(12));
    await platform.command({ channel: bench, user: dana, name: 'job start' }).answered();
  });

  test('a line that is dead without saying so is noticed by the heartbeat', async () => {
    const { platform } = await loggedIn({ settings: { heartbeatMs: 200 } });
    await vi.waitFor(() => expect(platform.gateway.counts.heartbeats).toBeGreaterThan(3), seconds(3));
    expect(platform.gateway.counts.resumes).toBe(0);
    platform.stopAcking();
    await vi.waitFor(() => expect(platform.gateway.counts.resumes).toBeGreaterThan(0), seconds(4));
  });

  test('it turns away wrong tokens and intents that are not granted, for good', async () => {
    const wrong = await given();
    await expect(wrong.client.login('wrong.token.here')).rejects.toThrow();
    const { platform, client, login } = await given({ options: { intents: [GatewayIntentBits.MessageContent] } });
    await expect(login()).rejects.toThrow('disallowed intents');
    expect(platform.gateway.identified).toHaveLength(1);
    expect(client.isReady()).toBe(false);
  });

  test('an outage ends, and the bot comes back by itself', async () => {
    const { platform, bench, dana } = await loggedIn({ hear: replies('back') });
    const { api } = platform;
    await platform.stop();
    await expect(fetch(api)).rejects.toThrow();
    await platform.start();
    expect(platform.api).toBe(api);
    await vi.waitFor(() => expect(platform.gateway.counts.resumes).toBe(1), seconds(8));
    await platform.command({ channel: bench, user: dana, name: 'job start' }).answered();
    platform.refuseConnections(true);
    await expect(fetch(api)).rejects.toThrow();
    platform.refuseConnections(false);
    await platform.command({ channel: bench, user: dana, name: 'job start' }).answered();
    expect(platform.gateway.counts.resumes).toBe(2);
  });

  test('a server in an outage holds the bot up only as long as it lets itself be held up', async () => {
    const { platform, client, ready } = await given({ options: { waitGuildTimeout: 200 } });
    const away = platform.server('away', { unavailable: true });
    const before = Date.now();
    await client.login(platform.settings.token);
    await ready;
    expect(Date.now() - before).toBeGreaterThanOrEqual(190);
    expect(client.guilds.cache.get(away.id)?.available).toBe(false);
    platform.comeBack(away);
    await vi.waitFor(() => expect(client.guilds.cache.get(away.id)?.available).toBe(true), seconds(2));
    platform.fallAway(away);
    await vi.waitFor(() => expect(client.guilds.cache.get(away.id)?.available).toBe(false), seconds(2));
  });

  test('servers are shared out among shards, and so is what happens in them', async () => {
    const { platform, dana, client } = await loggedIn({
      settings: { shards: 2 },
      options: { shards: 'auto' },
      prepare: (one) => [0, 1].map((index) => one.channel(one.server(`s${index}`, { shard: [index, 2] }), 'bench')),
      hear: async (interaction) => replies(`${interaction.guild?.shardId}`)(interaction),
    });
    expect(platform.gateway.identified.map(({ shard }) => shard)).toEqual([[0, 2], [1, 2]]); // biome-ignore format: a table
    for (const index of [0, 1]) {
      const server = platform.world.servers.find(({ name }) => name === `s${index}`);
      const channel = [...platform.world.rooms.values()].find((room) => room.server === server);
      if (channel === undefined) throw new Error('the bench is missing');
      const exchange = await platform.command({ channel, user: dana, name: 'job start' }).answered();
      expect(exchange.text).toBe(String(index));
    }
    expect(client.guilds.cache.size).toBe(3);
  });
});
