import { PermissionFlagsBits } from 'discord.js';
import { describe, expect, test } from 'vitest';
import { did, poured, started, t } from '../../../support/given.ts';
import { Posted } from '../../../support/platform/posted.ts';
import { hours } from '../../../support/studio.ts';
import { world } from './sending.ts';

const MINUTE = 60_000;
const SECOND = 1000;

/** Dana's lion has its first coat on at 08:10; its window opens at 08:55. */
async function lion(
  settings: Parameters<typeof world>[0] = {},
  how: Parameters<Awaited<ReturnType<typeof world>>['comesUp']>[0] = {},
) {
  const all = await world(settings);
  const { server, room, dana, comesUp } = all;
  const by = dana.user.id;
  const bot = comesUp(how);
  await bot.tell(server, room, started('08:00', { by }), did('seal', '08:00', { by }), did('coat-1', '08:10', { by }));
  bot.boards.close();
  const pings = () => all.platform.messagesIn(room);
  const posts = () => all.platform.requestsTo('POST', `/channels/${room.id}/messages`);
  return { ...all, bot, by, pings, posts };
}

const OPEN = t('08:55');

describe('a ping in its channel', () => {
  test('it goes out at its time, once, and mentions its people and nobody else', async () => {
    const { bot, clock, pings, posts, platform, by } = await lion();
    await clock.advanceTo(OPEN - 1);
    expect(pings()).toHaveLength(0);
    await clock.advanceTo(OPEN + 1);
    expect(pings().map(({ text }) => text)).toEqual([expect.stringContaining('ready for coat-2')]);
    expect(posts()[0]?.body).toMatchObject({
      enforce_nonce: true,
      nonce: expect.stringMatching(/^[\w-]{1,25}$/),
      allowed_mentions: { parse: [], users: [by], roles: [] },
    });
    expect(bot.rang).toEqual([{ how: 'channel', kind: 'recoat-open', channel: expect.any(String) }]);
    expect(platform.complaints).toEqual([]);
    expect(bot.troubles).toEqual([]);
  });

  test('a 5xx after the effect leaves one message, also where every try of the client ends so', async () => {
    const { bot, clock, pings, posts, platform } = await lion();
    const fault = platform.fault({
      method: 'POST',
      path: /messages$/,
      times: Number.POSITIVE_INFINITY,
      harm: { kind: 'status', status: 502, when: 'after' },
    });
    await clock.advanceTo(OPEN);
    expect(posts().length).toBeGreaterThan(1);
    expect(pings()).toHaveLength(1);
    expect(bot.troubles).toHaveLength(1);
    fault.lift();
    const tried = posts().length;
    await clock.advanceTo(OPEN + 30 * SECOND);
    // It was found in the channel, so it was not even tried again.
    expect(posts()).toHaveLength(tried);
    expect(pings()).toHaveLength(1);
    expect(bot.rang.map(({ how }) => how)).toEqual(['channel']);
    expect(platform.complaints).toEqual([]);
  });

  test('a broken line after the effect, then a restart when the nonce is long forgotten: still one message', async () => {
    const { server, room, bot, clock, pings, posts, platform, comesUp } = await lion();
    platform.fault({
      method: 'POST',
      path: /messages$/,
      times: Number.POSITIVE_INFINITY,
      harm: { kind: 'reset', when: 'after' },
    });
    await clock.advanceTo(OPEN);
    expect(pings()).toHaveLength(1);
    await bot.ends();
    platform.settings.nonceMs = 0;
    const tried = posts().length;
    await clock.advanceTo(OPEN + 4 * MINUTE);
    const next = comesUp();
    next.boards.close();
    await next.servers.wakeAll([server.id]);
    expect(pings()).toHaveLength(1);
    expect(posts()).toHaveLength(tried);
    expect((await next.bench(server, room).state()).sent.size).toBe(1);
  });

  test('a search that a limit cuts off goes on where it was, however much was said', async () => {
    const { server, room, bot, clock, pings, platform, comesUp, dana } = await lion();
    await bot.ends();
    for (let said = 0; said < 700; said += 1)
      room.messages.push(new Posted(room.id, dana.user, { content: 'chatter' }, [], 'http://127.0.0.1/'));
    Object.assign(platform.settings, { channelLimit: 3, channelWindowMs: 400 });
    await clock.advanceTo(OPEN + 4 * MINUTE);
    const next = comesUp();
    next.boards.close();
    await next.servers.wakeAll([server.id]);
    expect(pings().filter(({ text }) => text !== 'chatter')).toHaveLength(1);
    const pages = platform.requestsTo('GET', /messages$/).filter(({ status }) => status === 200);
    expect(pages.length).toBeLessThanOrEqual(9);
  });

  test('where the channel may not be looked through, a late ping goes out all the same', async () => {
    const { server, room, bot, clock, pings, platform, comesUp } = await lion();
    await bot.ends();
    platform.deny(room, PermissionFlagsBits.ReadMessageHistory);
    await clock.advanceTo(OPEN + 4 * MINUTE);
    const next = comesUp();
    await next.servers.wakeAll([server.id]);
    expect(pings().filter(({ text }) => text.includes('Late'))).toHaveLength(1);
  });

  test('the platform away for five minutes: sent once, marked late', async () => {
    const { bot, clock, pings, platform } = await lion();
    platform.refuseConnections(true);
    await clock.advanceTo(OPEN + 5 * MINUTE - SECOND);
    expect(bot.troubles.length).toBeGreaterThan(5);
    platform.refuseConnections(false);
    await clock.advanceTo(OPEN + 6 * MINUTE);
    expect(pings().map(({ text }) => text)).toEqual([expect.stringContaining('Late')]);
    expect(platform.complaints).toEqual([]);
  });

  test('what the platform does not take goes out in bare words; nor is that tried every half minute', async () => {
    const { bot, clock, pings, posts, platform } = await lion();
    const harm = { kind: 'status', status: 400, code: 50035, when: 'before' } as const;
    platform.fault({ method: 'POST', path: /messages$/, times: 2, harm });
    await clock.advanceTo(OPEN + 10 * MINUTE);
    expect(posts()).toHaveLength(2);
    expect(bot.rang.map(({ how }) => how)).toEqual(['held']);
    platform.fault({ method: 'POST', path: /messages$/, harm });
    await clock.advanceTo(OPEN + 16 * MINUTE);
    expect(posts()).toHaveLength(4);
    expect(pings().map(({ text, buttons }) => [text, buttons])).toEqual([[expect.stringContaining('ready for coat-2'), []]]);
    expect(platform.complaints).toEqual([]);
  });
});

describe('a channel that cannot be reached', () => {
  test('a permission taken: told directly, once; given back: sent, marked late', async () => {
    const { bot, clock, pings, posts, platform, room, server, dana } = await lion();
    platform.deny(room, PermissionFlagsBits.SendMessages);
    await clock.advanceTo(OPEN + 31 * MINUTE);
    const direct = platform.direct(dana);
    const told = () => (direct ? platform.messagesIn(direct) : []);
    expect(told().map(({ text }) => text)).toEqual([expect.stringMatching(new RegExp(`<#${room.id}>[\\s\\S]*ready for coat-2`))]);
    expect(told()[0]?.buttons).toEqual([]);
    expect(bot.rang.map(({ how }) => how)).toEqual(['direct', 'held', 'held']);
    const tried = posts().length;
    for (let change = 0; change < 5; change++) {
      bot.servers.maybeReachable(server.id);
      await clock.advanceTo(clock.now() + SECOND);
    }
    await clock.advanceTo(clock.now() + 5 * SECOND);
    expect(posts()).toHaveLength(tried + 1);
    platform.allow(room, PermissionFlagsBits.SendMessages);
    bot.servers.maybeReachable(server.id);
    expect(pings()).toHaveLength(0);
    await clock.advanceTo(clock.now() + 5 * SECOND);
    expect(pings().map(({ text }) => text)).toEqual([expect.stringContaining('Late')]);
    expect(told()).toHaveLength(1);
    expect(bot.troubles).toEqual([]);
    expect(platform.complaints).toEqual([]);
  });

  test('a restart does not tell them again', async () => {
    const { bot, clock, platform, room, server, dana, comesUp } = await lion();
    platform.deleteChannel(room);
    await clock.advanceTo(OPEN);
    await bot.ends();
    await clock.advanceTo(OPEN + 20 * MINUTE);
    const next = comesUp();
    await next.servers.wakeAll([server.id]);
    expect(next.rang.map(({ how }) => how)).toEqual(['held']);
    const direct = platform.direct(dana);
    expect(direct && platform.messagesIn(direct)).toHaveLength(1);
  });

  test('that somebody takes no private messages is their right', async () => {
    const { bot, clock, platform, room, dana } = await lion();
    dana.acceptsDirect = false;
    platform.deleteChannel(room);
    await clock.advanceTo(OPEN + 31 * MINUTE);
    expect(bot.rang.map(({ how }) => how)).toEqual(['held', 'held', 'held']);
    // One to open the conversation, one that was not taken, and that was all.
    expect(platform.requestsTo('POST', '/users/@me/channels')).toHaveLength(1);
    expect(bot.troubles).toEqual([]);
  });

  test('of a server that was left, the channel is not even asked', async () => {
    const { bot, clock, platform, room, server, dana, posts } = await lion();
    platform.kick(server);
    await bot.servers.left(server.id);
    await clock.advanceTo(OPEN + 31 * MINUTE);
    expect(posts()).toHaveLength(0);
    const direct = platform.direct(dana);
    expect(direct && platform.messagesIn(direct).map(({ text }) => text)).toEqual([expect.stringContaining(`<#${room.id}>`)]);
    platform.join(server);
    await bot.servers.joined(server.id);
    expect(platform.messagesIn(room).map(({ text }) => text)).toEqual([expect.stringContaining('Late')]);
  });
});

describe('more than the platform takes', () => {
  test('after a standstill, pot lives go first, then windows, then digests, and no second holds more than 40 requests', async () => {
    const { platform, server, clock, dana, comesUp } = await world();
    const by = dana.user.id;
    const shifts = { hours: [hours('09:00-17:00')], days: [1, 2, 3, 4, 5, 6, 7] };
    const before = comesUp({ studio: { shifts } });
    const urgency = new Map<string, number>();
    for (let index = 0; index < 45; index++) {
      const room = platform.channel(server, `bench-${index}`);
      urgency.set(room.id, index % 3);
      const begun = started('08:00', { by });
      // A digest is due at 09:00 in all of them; in some, something is more urgent.
      if (index % 3 === 0) await before.tell(server, room, begun, poured('cup-1', 'seal', '08:30', { by }));
      if (index % 3 === 1) await before.tell(server, room, begun, did('seal', '08:00', { by }), did('coat-1', '08:10', { by }));
      if (index % 3 === 2) await before.tell(server, room, begun);
    }
    await before.ends();
    await clock.advanceTo(t('09:05'));
    const bot = comesUp({ atOnce: 1, studio: { shifts } });
    bot.boards.close();
    platform.fault({ path: /messages$/, harm: { kind: 'rate', scope: 'global', retryAfterSeconds: 0.4 } });
    await bot.servers.wakeAll([server.id]);
    const posted = platform.requestsTo('POST', /messages$/).filter(({ status }) => status === 200);
    const order = posted.map(({ body }) => urgencyWord(JSON.stringify(body)));
    expect(order).toEqual([...order].sort());
    expect(new Set(order)).toEqual(new Set(['0 pot', '1 window', '2 digest']));
    expect(order.filter((word) => word === '2 digest')).toHaveLength(45);
    const at = platform.requests.map((request) => request.at);
    // A little is left to the way that the requests have to go.
    for (const from of at) expect(at.filter((each) => each >= from && each < from + 950).length).toBeLessThanOrEqual(42);
    expect(platform.complaints).toEqual([]);
    expect(bot.troubles).toEqual([]);
  });

  test('a channel whose bucket is empty holds up nobody else', async () => {
    const { platform, server, room, clock, dana, comesUp } = await world({ channelLimit: 2, channelWindowMs: 700 });
    const by = dana.user.id;
    const other = platform.channel(server, 'other');
    const before = comesUp();
    const cups = [1, 2, 3, 4, 5].map((cup) => poured(`cup-${cup}`, 'seal', '08:30', { by }));
    await before.tell(server, room, started('08:00', { by }), ...cups);
    await before.tell(server, other, started('08:00', { by }), did('seal', '08:00', { by }), did('coat-1', '08:10', { by }));
    await before.ends();
    await clock.advanceTo(t('08:55'));
    const bot = comesUp();
    bot.boards.close();
    await bot.servers.wakeAll([server.id]);
    const posted = platform.requestsTo('POST', /messages$/).map(({ path }) => (path.includes(other.id) ? 'other' : 'bench'));
    expect(posted.filter((each) => each === 'bench').length).toBeGreaterThanOrEqual(5);
    expect(posted.indexOf('other')).toBeLessThanOrEqual(3);
    expect(platform.complaints).toEqual([]);
    expect(new Set(platform.messagesIn(room).map(({ text }) => text)).size).toBe(platform.messagesIn(room).length);
  });

  test.each(['user', 'shared', 'global'] as const)(
    'a limit for the %s is waited out, and then it is sent, once',
    async (scope) => {
      const { bot, clock, pings, posts, platform } = await lion();
      platform.fault({ method: 'POST', path: /messages$/, times: 2, harm: { kind: 'rate', scope, retryAfterSeconds: 0.2 } });
      await clock.advanceTo(OPEN);
      expect(pings()).toHaveLength(1);
      const [first, second, third] = posts().map(({ at }) => at);
      expect(posts()).toHaveLength(3);
      expect((second ?? 0) - (first ?? 0)).toBeGreaterThanOrEqual(195);
      expect((third ?? 0) - (second ?? 0)).toBeGreaterThanOrEqual(195);
      expect(bot.troubles).toEqual([]);
    },
  );
});

function urgencyWord(body: string): string {
  if (body.includes('Start of shift')) return '2 digest';
  return body.includes('cup-1') ? '0 pot' : '1 window';
}
