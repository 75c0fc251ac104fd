import { createServer } from 'node:http';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { pressId } from '../../../src/adapters/discord/rendering/press.ts';
import type { Exchange } from '../../support/platform/exchange.ts';
import { listening } from './interactions/fetching.ts';
import { ball, box, file } from './models.ts';
import { MORNING, studio, until } from './studio.ts';

/** Whoever waits for a file is told at once that it takes longer; what then comes is for their eyes alone where it is a no. */
const DEFERRED = [5];
const types = ({ callbacks }: Exchange) => callbacks.map(({ type }) => type);
const PATIENCE = { ms: 60_000 };

async function attaching() {
  const all = await studio();
  all.uploads.push(new URL(all.platform.api).origin);
  const ask = (name: string, options: Record<string, unknown>, { channel = all.channel, user = all.dana } = {}) =>
    all.platform.command({ channel, user, name, options: options as Record<string, string> });
  const press = (message: Exchange['message'], label: string) =>
    all.platform.press({ channel: all.channel, user: all.dana, message, label });
  const calm = () => expect([all.bot.troubles, all.platform.complaints]).toEqual([[], []]);
  return { ...all, ask, press, calm };
}

// 200 x 100 x 50 mm: 1 L, and without the bottom 2 (200 · 50 + 100 · 50) + 200 · 100 mm² = 0.05 m².
const brick = () => file('brick.stl', box(200, 100, 50));

describe('a model of a brick', () => {
  it.each([
    ['area', { skin: 'brush-urethane', shell: 'shell-paste' }, ['0.05 m²', 'brick.stl']],
    ['mix', { material: 'brush-urethane', thickness: '1 mm' }, ['brick.stl']],
    ['cast', { material: 'cast-resin-slow' }, ['1 L', 'brick.stl']],
    ['job start', { name: 'Brick', skin: 'brush-urethane', shell: 'shell-paste' }, ['Brick has started', '0.05 m²']],
  ])('goes with /%s, announced before it is read', async (name, options, said) => {
    const { ask, calm } = await attaching();
    const told = await ask(name, { ...options, model: brick(), unit: 'mm' }).answered(PATIENCE);
    for (const words of said) expect(told.text).toContain(words);
    expect([types(told), told.rejected]).toEqual([DEFERRED, []]);
    expect(told.message.aside).toBe(false);
    calm();
  });
});

describe('a file that will not do', () => {
  it.each([
    ['cut off', () => box(200, 100, 50).subarray(0, 84 + 50 * 7), 'Expected 12 triangles, as the STL file announces, got 7'],
    ['a text', () => Buffer.from('The mould is 20 cm long.\n'), 'got some other text'],
    ['empty', () => Buffer.alloc(0), 'got an empty file'],
  ])('%s: is refused to whoever gave it, and to nobody else', async (_, bytes, said) => {
    const { ask, calm, platform, channel } = await attaching();
    const told = await ask('area', { model: file('brick.stl', bytes()), unit: 'mm' }).answered(PATIENCE);
    expect([types(told), told.original?.deleted]).toEqual([DEFERRED, true]);
    expect(told.followUps.map(({ aside }) => aside)).toEqual([true]);
    expect(told.text).toContain(said);
    expect(platform.messagesIn(channel)).toEqual([]);
    calm();
  });
});

it('measures a ball of more than a million triangles, and everybody else is answered and rung meanwhile', async () => {
  const { ask, platform, server, kim, dana, lion, clock, pings, calm, told } = await attaching();
  const elsewhere = platform.channel(server, 'elsewhere');
  await lion(elsewhere);
  await told('done', {}, elsewhere);
  // 2 · 1100 · 549 = 1 207 800 triangles, 57.6 MiB.
  const model = file('ball.stl', ball(100, 550));
  const big = ask('area', { model, unit: 'mm' });
  let over = false;
  const answered = big.answered(PATIENCE).finally(() => {
    over = true;
  });
  const others: Exchange[] = [];
  const rungBefore = pings(elsewhere).length;
  const ringing = clock.advanceTo(MORNING + 20 * 60_000);
  // One of these is asked right before the file is read, in which nothing else goes on.
  while (!over) {
    others.push(ask('board', {}, { channel: elsewhere, user: kim }));
    await pause(100);
  }
  await answered;
  await ringing;
  await Promise.all(others.map((each) => each.answered(PATIENCE)));
  // 4 π r² and 4/3 π r³ for 100 mm.
  expect(big.text).toMatch(/0\.126 m²|0\.13 m²/);
  expect(big.text).toContain('ball.stl');
  expect([types(big), big.rejected]).toEqual([DEFERRED, []]);
  expect(others.length).toBeGreaterThan(2);
  expect(others.flatMap(({ rejected }) => rejected)).toEqual([]);
  await until('the ping', () => pings(elsewhere).length > rungBefore);
  expect(pings(elsewhere).at(-1)?.body.allowed_mentions).toMatchObject({ users: [dana.user.id] });
  calm();
}, 120_000);

it('reads many one after the other, and says so to whoever would wait too long', async () => {
  const { ask, calm } = await attaching();
  const asked = Array.from({ length: 24 }, () => ask('area', { model: brick(), unit: 'mm' }));
  await Promise.all(asked.map((each) => each.answered(PATIENCE)));
  const waited = asked.filter((each) => each.text.includes('Many files wait'));
  expect(waited.length).toBeGreaterThan(0);
  expect(waited.every(({ message }) => message.aside)).toBe(true);
  expect(asked.filter((each) => each.text.includes('0.05 m²')).length).toBe(asked.length - waited.length);
  expect(asked.flatMap(({ rejected }) => rejected)).toEqual([]);
  calm();
}, 60_000);

describe('a file that is gone when a button is pressed', () => {
  it.each(['ageFiles', 'deleteFiles'] as const)('(%s): it must be attached again', async (how) => {
    const { ask, press, platform, calm } = await attaching();
    // 12 of nothing in particular.
    const asked = await ask('area', {
      model: file('brick.stl', box(12, 12, 12)),
      skin: 'brush-urethane',
      shell: 'shell-paste',
    }).answered(PATIENCE);
    const shown = await press(asked.message, 'Inches: 305 mm long').answered(PATIENCE);
    const { modal } = await press(shown.message, 'Start job').answered();
    platform[how]('brick.stl');
    for (const again of [
      press(asked.message, 'Inches: 305 mm long'),
      platform.submit({
        channel: asked.room,
        user: asked.user,
        modal: { ...modal },
        values: { 'What is the mould of?': 'Brick' },
      }),
    ]) {
      await again.answered(PATIENCE);
      expect(again.text).toContain('not there any more');
      expect(again.text).toContain('Attach it again');
      expect(again.text).not.toContain('http');
      expect(again.message.aside).toBe(true);
      expect([types(again), again.rejected]).toEqual([DEFERRED, []]);
    }
    calm();
  });
});

it('fetches nothing from anywhere else, whatever a button says', async () => {
  const { ask, platform, channel, dana, calm } = await attaching();
  let visits = 0;
  const inside = await listening(
    createServer((_, response) => {
      visits += 1;
      response.end(box(200, 100, 50));
    }),
  );
  const { message } = await ask('board', {}).answered();
  const own = new URL(platform.api);
  for (const model of [
    `${inside}/a.stl`,
    `http://user@${own.host}/files/1/a.stl`,
    `${inside}/?@${own.host}/a.stl`,
    `http://localhost:${own.port}/a.stl`,
    'file:///etc/passwd',
    '/etc/passwd',
    '../a.stl',
    `${own.host}/files/1/a.stl`,
    'data:,solid',
    '',
  ])
    for (const command of ['area', 'job start']) {
      const name: Record<string, string> = command === 'area' ? {} : { name: 'A', skin: 'brush-urethane', shell: 'shell-paste' };
      const customId = pressId({ command, options: { unit: 'mm', ...name, model } }, channel.id);
      if (customId === null) continue;
      const told = await platform.press({ channel, user: dana, message, customId, unchecked: true }).answered(PATIENCE);
      expect(told.text).toContain(model === '' ? 'Nothing has changed' : 'only taken from the chat');
    }
  // A name that is no proper address must not break anything either.
  const odd = pressId({ command: 'area', options: { unit: 'mm', model: `${own.origin}/files/1/%E0%A4.stl` } }, channel.id);
  const told = await platform.press({ channel, user: dana, message, customId: odd ?? '', unchecked: true }).answered(PATIENCE);
  expect(told.text).toContain('not there any more');
  expect(visits).toBe(0);
  calm();
}, 60_000);
