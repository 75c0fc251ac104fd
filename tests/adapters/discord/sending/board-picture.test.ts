import { setTimeout as sleep } from 'node:timers/promises';
import { PermissionFlagsBits } from 'discord.js';
import { describe, expect, test } from 'vitest';
import type { ShownBoard } from '../../../../src/adapters/discord/sending/board-pictures.ts';
import { boardCard } from '../../../../src/cards/board-card.ts';
import { closed, t } from '../../../support/given.ts';
import { pieces } from '../../../support/platform/pieces.ts';
import { bench, drawing, until } from './board-bench.ts';

/** Longer than a board of these tests rests. */
const REST_MS = 500;

/** The step that it says is next. */
const next = (message: { text: string } | undefined) => /^1\\?\. .*: (coat-\d|seal)/m.exec(message?.text ?? '')?.[1];

/** What stands below the words. */
const gallery = (message: { body: { components?: unknown } } | undefined) =>
  [...pieces(message?.body.components)].find(({ type }) => type === 12);

describe('with its picture', () => {
  test('it comes as a picture, with words for those who cannot see it', async () => {
    const { bot, board, begins, stands, pictures, calm } = await bench();
    await begins();
    await stands();
    expect(gallery(board())).toEqual({
      type: 12,
      items: [{ media: { url: 'attachment://board.png' }, description: 'One job' }],
    });
    expect(board()?.files.map(({ bytes }) => Buffer.from(bytes))).toEqual(pictures);
    expect(board()?.text).toMatch(/Board at .*1 open job/);
    calm();
    await bot.ends();
  });

  test('each edit takes the old one away: there is never more than one', async () => {
    const { bot, board, names, edits, begins, goesOn, stands, pictures, calm } = await bench();
    await begins();
    await stands();
    for (const [index, step] of ['seal', 'coat-1', 'coat-2'].entries()) {
      const [before] = board()?.files ?? [];
      await goesOn(step);
      await until(() => expect(edits()).toHaveLength(index + 1));
      await until(() => expect(board()?.files[0]?.attachment.id).not.toBe(before?.attachment.id));
      expect(names()).toEqual(['board.png']);
      expect(Buffer.from(board()?.files[0]?.bytes ?? [])).toEqual(pictures.at(-1));
    }
    calm();
    await bot.ends();
  });

  test('that time has passed is no reason to draw it or to send it', async () => {
    const { bot, server, room, clock, edits, posts, goesOn, stands, begins, pictures } = await bench();
    await begins();
    await goesOn('seal');
    await stands();
    await sleep(REST_MS);
    const before = [edits().length, posts().length, pictures.length];
    for (let minutes = 0; minutes < 5; minutes += 1) {
      await clock.advanceTo(clock.now() + 60_000);
      bot.boards.changed(server.id, room.id);
      await sleep(60);
    }
    await bot.boards.resume([server.id]);
    await sleep(REST_MS);
    expect([edits().length, posts().length, pictures.length]).toEqual(before);
    await bot.ends();
  });

  test('it goes when the board has none any more', async () => {
    const { bot, server, room, by, board, names, begins, stands, calm, up } = await bench();
    await begins();
    await stands();
    await bot.ends();
    const bare = up({ board: async (view) => boardCard(view) });
    await bare.tell(server, room, closed('08:05', { by }));
    await until(() => expect(board()?.text).toContain('Nothing is going on here'));
    expect(names()).toEqual([]);
    expect(gallery(board())).toBeUndefined();
    calm();
    await bare.ends();
  });
});

describe('a picture that is in the way', () => {
  test('where files may not be attached, the words come without, and it follows when they may', async () => {
    const { bot, server, room, platform, board, names, begins, stands, goesOn, edits, remembered, calm } = await bench({
      pictureAgainMilliseconds: 2000,
    });
    platform.deny(room, PermissionFlagsBits.AttachFiles);
    await begins();
    await stands();
    expect(names()).toEqual([]);
    expect(board()?.text).toMatch(/Board at .*1 open job/);
    expect(await remembered()).toMatchObject({ bare: true });
    expect(bot.happened).toContain('board-without-picture');
    // Until it is tried again, edits are of words alone: one request each.
    await goesOn('seal');
    await until(() => expect(next(board())).toBe('coat-1'));
    expect(edits().map(({ files, status }) => [files.length, status])).toEqual([[0, 200]]);
    platform.allow(room, PermissionFlagsBits.AttachFiles);
    await until(() => expect(names()).toEqual(['board.png']));
    await until(async () => expect(await remembered()).toMatchObject({ bare: false }));
    calm();
    // And then it is quiet.
    const count = edits().length;
    bot.boards.changed(server.id, room.id);
    await sleep(REST_MS);
    expect(edits()).toHaveLength(count);
    await bot.ends();
  });

  test('with a permission that goes later, the old picture goes and the words go on', async () => {
    const { bot, room, platform, board, names, begins, stands, goesOn, edits, calm } = await bench();
    await begins();
    await stands();
    platform.deny(room, PermissionFlagsBits.AttachFiles);
    await goesOn('seal');
    await until(() => expect(next(board())).toBe('coat-1'));
    expect(names()).toEqual([]);
    expect(edits().map(({ status }) => status)).toEqual([403, 200]);
    calm();
    await bot.ends();
  });

  test.each([
    ['413 in the platform’s words', { kind: 'status', status: 413, code: 40005, when: 'before' }],
    ['413 of a guard in front of it', { kind: 'status', status: 413, when: 'before' }],
    ['400 on account of the file', { kind: 'status', status: 400, code: 50046, when: 'before' }],
  ] as const)('%s: the words are shown without', async (_, harm) => {
    const { bot, platform, board, names, begins, stands, goesOn, edits, posts, calm } = await bench();
    platform.fault({ method: 'POST', path: /messages$/, harm });
    await begins();
    await stands();
    expect([names(), posts().map(({ files }) => files.length)]).toEqual([[], [1, 0]]);
    await goesOn('seal');
    await until(() => expect(next(board())).toBe('coat-1'));
    expect(edits().map(({ files }) => files.length)).toEqual([0]);
    calm();
    await bot.ends();
  });

  test('one over the platform’s limit is left out, and the board says so', async () => {
    const { bot, board, names, begins, stands, calm } = await bench({
      board: async (view) => ({
        ...boardCard(view),
        files: [{ name: 'board.png', about: 'Much', type: 'image/png', bytes: new Uint8Array(11 * 1024 * 1024) }],
      }),
    });
    await begins();
    await stands();
    expect(names()).toEqual([]);
    expect(board()?.text).toContain('Left out');
    calm();
    await bot.ends();
  });

  test('where it breaks the line twice, the words go without; once may be chance', async () => {
    const { bot, platform, board, names, begins, stands, goesOn, remembered } = await bench();
    await begins();
    await stands();
    const harm = { kind: 'hangup', when: 'before' } as const;
    platform.fault({ method: 'PATCH', path: /messages/, harm });
    await goesOn('seal');
    await until(() => expect(next(board())).toBe('coat-1'));
    expect(names()).toEqual(['board.png']);
    expect(bot.troubles).toHaveLength(1);
    platform.fault({ method: 'PATCH', path: /messages/, times: 2, harm });
    await goesOn('coat-1');
    await until(() => expect(next(board())).toBe('coat-2'));
    expect(names()).toEqual([]);
    expect(bot.troubles).toHaveLength(3);
    await until(async () => expect(await remembered()).toMatchObject({ bare: true }));
    await bot.ends();
  });

  test('one that cannot be drawn is trouble, and the words are shown', async () => {
    let broken = true;
    const { board: whole } = drawing();
    const board: ShownBoard = async (view) => {
      if (broken) throw new Error('no paper');
      return whole(view);
    };
    const { bot, board: shown, names, begins, stands } = await bench({ board, pictureAgainMilliseconds: 600 });
    await begins();
    await stands();
    expect([names(), bot.troubles.map(String)]).toEqual([[], ['Error: no paper']]);
    expect(shown()?.text).toMatch(/1 open job/);
    broken = false;
    await until(() => expect(names()).toEqual(['board.png']));
    await bot.ends();
  });

  test('after a restart it is tried at once', async () => {
    const { bot, server, room, platform, names, begins, stands, up } = await bench();
    platform.deny(room, PermissionFlagsBits.AttachFiles);
    await begins();
    await stands();
    await bot.ends();
    platform.allow(room, PermissionFlagsBits.AttachFiles);
    const later = up();
    await later.boards.resume([server.id]);
    await until(() => expect(names()).toEqual(['board.png']));
    await later.ends();
  });

  test('a channel where nothing may be said at all is no trouble, and is not said to lack its picture', async () => {
    const { bot, room, platform, board, names, begins, posts, goesOn, calm } = await bench();
    platform.deny(room, PermissionFlagsBits.SendMessages);
    await begins();
    await until(() => expect(posts()).toHaveLength(2));
    await sleep(REST_MS);
    expect(board()).toBeUndefined();
    expect(bot.happened).not.toContain('board-without-picture');
    platform.allow(room, PermissionFlagsBits.SendMessages);
    await goesOn('seal');
    await until(() => expect(names()).toEqual(['board.png']));
    calm();
    await bot.ends();
  });
});

test('after a kill between sending and remembering, one board with one picture goes on', async () => {
  const { bot, server, room, platform, board, names, begins, goesOn, up } = await bench({ againMilliseconds: 60_000 });
  const fault = platform.fault({
    method: 'POST',
    path: /messages$/,
    times: Number.POSITIVE_INFINITY,
    harm: { kind: 'reset', when: 'after' },
  });
  await begins();
  await until(() => expect(bot.troubles).toHaveLength(1));
  await bot.ends();
  fault.lift();
  platform.settings.nonceMs = 0;
  await goesOn('seal');
  const later = up();
  await later.boards.resume([server.id]);
  await until(() => expect(next(board())).toBe('coat-1'));
  expect(names()).toEqual(['board.png']);
  expect(room.messages).toHaveLength(1);
  await later.ends();
});

describe.each([['ExtraHoursSet'], ['HandsMissing']] as const)('told of %s', (type) => {
  test('it is painted anew: staffed time is in the picture alone', async () => {
    const { bot, server, edits, begins, stands, calm } = await bench();
    await begins();
    await stands();
    const before = edits().length;
    const event = {
      version: 1 as const,
      type,
      at: t('09:00'),
      by: 'dana',
      from: t('08:00', 20),
      until: t('09:00', 20),
      hands: 1,
    };
    await bot.studios.house(server.id).changeStudio(() => [event]);
    await until(() => expect(edits().length).toBe(before + 1));
    calm();
    await bot.ends();
  });
});
