import { setTimeout as sleep } from 'node:timers/promises';
import { PermissionFlagsBits } from 'discord.js';
import { describe, expect, test, vi } from 'vitest';
import { closed, did, noted, started, warmed } from '../../../support/given.ts';
import { world } from './sending.ts';

const until = (holds: () => unknown) => vi.waitFor(holds, { timeout: 8000 });

/** A bench whose pings nobody waits for: the clock stands still. */
async function bench(how: Parameters<Awaited<ReturnType<typeof world>>['comesUp']>[0] = {}) {
  const all = await world();
  const { server, room, dana, platform, comesUp } = all;
  const by = dana.user.id;
  const bot = comesUp(how);
  const boards = () => platform.messagesIn(room);
  const edits = () => platform.requestsTo('PATCH', /^\/channels\//);
  const posts = () => platform.requestsTo('POST', `/channels/${room.id}/messages`);
  const begins = () => bot.tell(server, room, started('08:00', { by }));
  /** Stands there, and is remembered. */
  const stands = () =>
    until(async () => {
      const message = (await bot.records.read(server.id)).boards[room.id]?.message;
      expect(boards().map(({ id }) => id)).toContain(message);
    });
  return { ...all, by, bot, boards, edits, posts, begins, stands };
}

/** Longer than a board of these tests rests. */
const REST_MS = 500;

describe('one message for each channel', () => {
  test('it comes with the first open job, mentions nobody, and is for everybody', async () => {
    const { bot, server, room, boards, posts, begins, platform } = await bench();
    await bot.tell(server, room, warmed(21, '08:00'));
    await sleep(60);
    expect(boards()).toHaveLength(0);
    await begins();
    await until(() => expect(boards()).toHaveLength(1));
    expect(boards()[0]?.text).toMatch(/Board at .*1 open job[\s\S]*Lion head/);
    expect(posts()[0]?.body).toMatchObject({
      enforce_nonce: true,
      allowed_mentions: { parse: [], users: [], roles: [] },
      flags: 1 << 15,
    });
    expect(platform.complaints).toEqual([]);
    await bot.ends();
  });

  test('many changes at once are one edit, and it shows the newest', async () => {
    const { bot, server, room, by, boards, edits, begins, stands } = await bench();
    await begins();
    await stands();
    for (const step of ['seal', 'coat-1', 'coat-2'])
      await bot.tell(server, room, did(step, '08:00', { by }), noted('slow', '08:00', { by }));
    expect(edits()).toHaveLength(0);
    await until(() => expect(edits()).toHaveLength(1));
    await sleep(REST_MS);
    expect(edits()).toHaveLength(1);
    expect(boards()).toHaveLength(1);
    expect(boards()[0]?.text).toContain('coat-3');
    await bot.ends();
  });

  test('between two edits lies the time that it rests', async () => {
    const { bot, server, room, by, edits, begins, stands } = await bench();
    await begins();
    await stands();
    for (const step of ['seal', 'coat-1', 'coat-2', 'coat-3', 'trim']) {
      await bot.tell(server, room, did(step, '08:00', { by }));
      await sleep(150);
    }
    await sleep(REST_MS);
    const at = edits().map((edit) => edit.at);
    expect(at.length).toBeGreaterThanOrEqual(2);
    at.slice(1).forEach((each, index) => {
      expect(each - (at[index] ?? 0)).toBeGreaterThanOrEqual(390);
    });
    await bot.ends();
  });

  test('a change that does not show is no edit, also when time has passed', async () => {
    const { bot, server, room, by, clock, edits, posts, stands } = await bench();
    await bot.tell(server, room, started('08:00', { by }), did('seal', '08:00', { by }));
    await stands();
    await sleep(REST_MS);
    await clock.advanceTo(clock.now() + 90_000);
    bot.boards.changed(server.id, room.id);
    await sleep(REST_MS);
    expect(posts()).toHaveLength(1);
    expect(edits()).toHaveLength(0);
    await bot.ends();
  });

  test('with no open job it says so, and stays', async () => {
    const { bot, server, room, by, boards, begins, stands } = await bench();
    await begins();
    await stands();
    await bot.tell(server, room, closed('08:05', { by }));
    await until(() => expect(boards()[0]?.text).toContain('Nothing is going on here'));
    expect(boards()).toHaveLength(1);
    expect(boards()[0]?.buttons).toEqual([]);
    await bot.ends();
  });
});

describe('what goes wrong', () => {
  test('deleted, it is made anew; deleted with no open job, it is not', async () => {
    const { bot, server, room, by, boards, begins, stands, platform } = await bench();
    await begins();
    await stands();
    const [first] = platform.messagesIn(room);
    if (first) first.deleted = true;
    await bot.tell(server, room, did('seal', '08:00', { by }));
    await stands();
    expect(boards()).toHaveLength(1);
    expect(boards()[0]?.id).not.toBe(first?.id);
    const [second] = boards();
    if (second) second.deleted = true;
    await bot.tell(server, room, closed('08:05', { by }));
    await until(async () => expect((await bot.records.read(server.id)).boards).toEqual({}));
    expect(boards()).toHaveLength(0);
    expect(bot.troubles).toEqual([]);
    await bot.ends();
  });

  test('after a restart the same message goes on', async () => {
    const { bot, server, room, by, boards, edits, posts, begins, stands, comesUp } = await bench();
    await begins();
    await stands();
    await bot.ends();
    await bot.tell(server, room, did('seal', '08:00', { by }));
    const next = comesUp();
    await next.boards.resume([server.id]);
    await until(() => expect(edits()).toHaveLength(1));
    expect(boards().map(({ text }) => text)).toEqual([expect.stringContaining('coat-1')]);
    expect(posts()).toHaveLength(1);
    await next.ends();
  });

  test('a kill between sending and remembering makes no second one, also when the nonce is forgotten', async () => {
    const { bot, server, room, by, boards, posts, begins, platform, comesUp } = await bench({ againMilliseconds: 60_000 });
    const harm = { kind: 'reset', when: 'after' } as const;
    const fault = platform.fault({ method: 'POST', path: /messages$/, times: Number.POSITIVE_INFINITY, harm });
    await begins();
    await until(() => expect(bot.troubles).toHaveLength(1));
    expect(boards()).toHaveLength(1);
    await bot.ends();
    fault.lift();
    platform.settings.nonceMs = 0;
    const tried = posts().length;
    await bot.tell(server, room, did('seal', '08:00', { by }));
    const next = comesUp();
    await next.boards.resume([server.id]);
    await until(() => expect(boards()[0]?.text).toContain('coat-1'));
    expect(boards()).toHaveLength(1);
    expect(posts()).toHaveLength(tried);
    await next.ends();
  });

  test('where it is not known whether it was sent, it is looked for, and goes on', async () => {
    const { bot, boards, begins, stands, platform } = await bench();
    const harm = { kind: 'reset', when: 'after' } as const;
    platform.fault({ method: 'POST', path: /messages$/, times: Number.POSITIVE_INFINITY, harm });
    await begins();
    await stands();
    expect(boards()).toHaveLength(1);
    await bot.ends();
  });

  test('a platform that is broken for a while gets the newest state afterwards', async () => {
    const { bot, server, room, by, boards, begins, stands, platform } = await bench();
    await begins();
    await stands();
    platform.refuseConnections(true);
    await bot.tell(server, room, did('seal', '08:00', { by }));
    await until(() => expect(bot.troubles.length).toBeGreaterThan(0));
    await bot.tell(server, room, did('coat-1', '08:00', { by }));
    platform.refuseConnections(false);
    await until(() => expect(boards()[0]?.text).toContain('coat-2'));
    expect(boards()).toHaveLength(1);
    await bot.ends();
  });

  test('a channel that cannot be reached is no trouble, and gets its board with the first change after', async () => {
    const { bot, server, room, by, boards, begins, posts, platform } = await bench();
    platform.deny(room, PermissionFlagsBits.SendMessages);
    await begins();
    await until(() => expect(posts()).toHaveLength(1));
    await sleep(REST_MS);
    expect(posts()).toHaveLength(1);
    expect(bot.troubles).toEqual([]);
    platform.allow(room, PermissionFlagsBits.SendMessages);
    await bot.tell(server, room, did('seal', '08:00', { by }));
    await until(() => expect(boards()).toHaveLength(1));
    await bot.ends();
  });

  test('begun before a kill, it is made also where the channel may not be looked through', async () => {
    const { bot, boards, begins, platform, room, server, comesUp } = await bench();
    const fault = platform.fault({
      method: 'POST',
      path: /messages$/,
      times: Number.POSITIVE_INFINITY,
      harm: { kind: 'status', status: 503, when: 'before' },
    });
    await begins();
    await until(() => expect(bot.troubles.length).toBeGreaterThan(0));
    await bot.ends();
    fault.lift();
    platform.deny(room, PermissionFlagsBits.ReadMessageHistory);
    const next = comesUp();
    await next.boards.resume([server.id]);
    await until(() => expect(boards()).toHaveLength(1));
    await next.ends();
  });

  test('a limit is waited out, and there is one board', async () => {
    const { bot, boards, begins, stands, platform } = await bench();
    platform.fault({ method: 'POST', path: /messages$/, harm: { kind: 'rate', scope: 'user', retryAfterSeconds: 0.3 } });
    await begins();
    await stands();
    expect(boards()).toHaveLength(1);
    expect(bot.troubles).toEqual([]);
    await bot.ends();
  });
});
