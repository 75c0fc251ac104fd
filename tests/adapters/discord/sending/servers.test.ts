import { Keyv } from 'keyv';
import { describe, expect, test } from 'vitest';
import { Records } from '../../../../src/adapters/discord/sending/records.ts';
import { did, started, t } from '../../../support/given.ts';
import { world } from './sending.ts';

/** A studio that has begun a job, and nothing that rings by itself in the next month. */
async function studio() {
  const all = await world();
  const { server, room, dana, comesUp } = all;
  const bot = comesUp();
  await bot.tell(server, room, started('08:00', { by: dana.user.id }));
  bot.boards.close();
  const holds = () => [...all.disk.keys()].filter((key) => key.includes(server.id));
  const leftAt = async (one = bot) => (await one.records.read(server.id)).leftAt;
  return { ...all, bot, holds, leftAt };
}

describe('a server that throws the bot out', () => {
  test('is kept for 30 days, and then forgotten as a whole', async () => {
    const { bot, server, clock, holds, leftAt } = await studio();
    await bot.servers.left(server.id);
    expect(await leftAt()).toBe(t('08:00'));
    await clock.advanceTo(t('07:59', 30));
    expect([...(await bot.studios.servers()).keys()]).toEqual([server.id]);
    await clock.advanceTo(t('08:01', 30));
    expect([...(await bot.studios.servers()).keys()]).toEqual([]);
    expect(holds().filter((key) => key.startsWith('platform') || key.includes('/bench:'))).toEqual([]);
    expect(bot.happened).toEqual(['server-forgotten']);
  });

  test('coming back in time, it finds everything as it was', async () => {
    const { bot, server, room, clock, leftAt } = await studio();
    await bot.servers.left(server.id);
    await clock.advanceTo(t('08:00', 20));
    await bot.servers.joined(server.id);
    expect(await leftAt()).toBeNull();
    await clock.advanceTo(t('08:00', 70));
    expect((await bot.bench(server, room).state()).jobs.size).toBe(1);
  });

  test('the 30 days go on over restarts', async () => {
    const { bot, server, clock, comesUp } = await studio();
    await bot.servers.left(server.id);
    await bot.ends();
    await clock.advanceTo(t('08:00', 29));
    const next = comesUp();
    await next.servers.look(new Set(), () => true);
    await clock.advanceTo(t('07:00', 30));
    expect([...(await next.studios.servers()).keys()]).toEqual([server.id]);
    await clock.advanceTo(t('08:00', 30));
    expect([...(await next.studios.servers()).keys()]).toEqual([]);
  });

  test('thrown out and invited again in one breath, it is there', async () => {
    const { bot, server, clock, leftAt } = await studio();
    await Promise.all([bot.servers.left(server.id), bot.servers.joined(server.id)]);
    expect(await leftAt()).toBeNull();
    await clock.advanceTo(t('08:00', 40));
    expect([...(await bot.studios.servers()).keys()]).toEqual([server.id]);
  });

  test('a disk that fails when its time has come is asked again', async () => {
    const { bot, server, clock, disk } = await studio();
    await bot.servers.left(server.id);
    const { delete: works } = disk;
    disk.delete = () => {
      throw new Error('the disk is gone');
    };
    await clock.advanceTo(t('08:00', 30));
    expect(bot.troubles).not.toEqual([]);
    expect([...(await bot.studios.servers()).keys()]).toEqual([server.id]);
    disk.delete = works;
    await clock.advanceTo(t('09:00', 30));
    expect([...(await bot.studios.servers()).keys()]).toEqual([]);
  });

  test('of one where nothing was ever begun, nothing is kept', async () => {
    const { bot, platform } = await studio();
    const other = platform.server('other');
    await bot.records.keep(other.id, 'hash', { command: 'done', options: {} });
    await bot.servers.left(other.id);
    expect(await bot.records.kept(other.id, 'hash')).toBeUndefined();
  });
});

describe('a look at the start', () => {
  test('who left while nobody listened is noted now; who came back is noted too; others are not ours', async () => {
    const { bot, server, clock, leftAt } = await studio();
    await clock.advanceTo(t('09:00'));
    await bot.servers.look(new Set(), () => false);
    expect(await leftAt()).toBeNull();
    await bot.servers.look(new Set(), () => true);
    expect(await leftAt()).toBe(t('09:00'));
    await clock.advanceTo(t('10:00'));
    await bot.servers.look(new Set(), () => true);
    expect(await leftAt()).toBe(t('09:00'));
    await bot.servers.look(new Set([server.id]), () => true);
    expect(await leftAt()).toBeNull();
    await clock.advanceTo(t('09:00', 40));
    expect([...(await bot.studios.servers()).keys()]).toEqual([server.id]);
  });

  test('servers that come back together are looked after together: the store is listed once', async () => {
    const { bot, clock, server, other } = await (async () => {
      const made = await studio();
      return { ...made, other: made.platform.server('other') };
    })();
    let listed = 0;
    const { servers: list } = bot.studios;
    bot.studios.servers = function servers(this: typeof bot.studios) {
      listed += 1;
      return list.call(this);
    };
    for (const { id } of [server, other, server]) bot.servers.maybeReachable(id);
    await clock.advanceTo(clock.now() + 6000);
    expect(listed).toBe(1);
    bot.servers.maybeReachable(server.id);
    await clock.advanceTo(clock.now() + 6000);
    expect(listed).toBe(2);
  });

  test('all benches of all servers send what is due', async () => {
    const { platform, clock, dana, comesUp } = await world();
    const before = comesUp();
    const rooms = [1, 2, 3].flatMap((number) => {
      const server = platform.server(`studio-${number}`);
      return ['one', 'two'].map((name) => ({ server, room: platform.channel(server, name) }));
    });
    const by = dana.user.id;
    for (const { server, room } of rooms)
      await before.tell(server, room, started('08:00', { by }), did('seal', '08:00', { by }), did('coat-1', '08:10', { by }));
    await before.ends();
    await clock.advanceTo(t('08:55'));
    const bot = comesUp();
    bot.boards.close();
    await bot.servers.wakeAll(new Set(rooms.map(({ server }) => server.id)));
    expect(rooms.map(({ room }) => platform.messagesIn(room).length)).toEqual([1, 1, 1, 1, 1, 1]);
  });
});

describe('what is remembered of a server', () => {
  const memory = () => {
    const keyv = new Keyv({ throwOnErrors: true });
    return {
      get: (key: string) => keyv.get(key),
      set: async (key: string, value: unknown) => void (await keyv.set(key, value)),
      delete: async (key: string) => void (await keyv.delete(key)),
    };
  };

  test('changes at the same time are all there', async () => {
    const records = new Records(memory());
    const names = Array.from({ length: 20 }, (_, index) => `name-${index}`);
    await Promise.all(names.map((name) => records.change('1', (record) => ({ ...record, told: [...record.told, name] }))));
    expect((await records.read('1')).told.sort()).toEqual(names.sort());
  });

  test('of what buttons mean, the newest 500 stay, and what is used again counts as new', async () => {
    const records = new Records(memory());
    for (let index = 0; index < 500; index++) await records.keep('1', `hash-${index}`, { command: 'done', options: {} });
    const asks = { command: 'mix', options: { amount: '150 g' }, asks: true };
    await records.keep('1', 'hash-0', asks);
    await records.keep('1', 'new', asks);
    expect(await records.kept('1', 'hash-0')).toEqual(asks);
    expect(await records.kept('1', 'new')).toEqual(asks);
    expect(await records.kept('1', 'hash-1')).toBeUndefined();
    expect(await records.kept('1', 'hash-2')).toEqual({ command: 'done', options: {} });
  });

  test('what cannot be read counts as nothing', async () => {
    const there = memory();
    await there.set('server:1', { leftAt: 'yesterday' });
    expect(await new Records(there).read('1')).toEqual({ leftAt: null, boards: {}, told: [], kept: [] });
  });
});
