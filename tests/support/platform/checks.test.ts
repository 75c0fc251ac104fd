import { PermissionFlagsBits, REST, Routes } from 'discord.js';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { Platform } from './platform.ts';

const platform = new Platform();
const bench = platform.channel(platform.server('studio'), 'bench');
const dana = platform.person('dana');
const path = Routes.channelMessages(bench.id);
let rest: REST;
let count = 0;

beforeAll(async () => {
  await platform.start();
  rest = new REST({ api: platform.api }).setToken(platform.settings.token);
});
beforeEach(() => {
  platform.forgetComplaints();
});
afterAll(() => platform.stop());

type Body = Record<string, unknown>;

const V2 = 32768;
const allowed = { allowed_mentions: { parse: [] } };
const text = (content: string) => ({ type: 10, content });
const box = (...components: unknown[]) => ({ flags: V2, components: [{ type: 17, accent_color: 0x0072b2, components }] });
const button = (more: Body = {}) => ({ type: 2, style: 1, label: 'Coat done', custom_id: 'done', ...more });
const row = (...components: unknown[]) => ({ type: 1, components });
const file = (name: string) => ({ name, data: Buffer.from('x'), contentType: 'image/png' });

/** Sends a message that is right but for what is given. */
function send(body: Body, ...names: string[]) {
  count += 1;
  const whole = { nonce: `n${count}`, enforce_nonce: true, ...allowed, ...body };
  return rest.post(path, { body: whole, files: names.map(file) });
}

describe('a message is passed when it is right', () => {
  test.each<[string, Body, string[]]>([
    ['text', { content: 'ready' }, []],
    ['a box of everything', box(text('a'), { type: 14, divider: true, spacing: 1 }, row(button())), []],
    [
      'a picture',
      box({ type: 12, items: [{ media: { url: 'attachment://board.png' }, description: 'the board' }] }),
      ['board.png'],
    ],
    ['a file', { flags: V2, components: [{ type: 13, file: { url: 'attachment://log.txt' } }] }, ['log.txt']],
    ['a section', box({ type: 9, components: [text('a')], accessory: button() }), []],
    ['a mention', { content: 'x', allowed_mentions: { parse: [], users: [dana.user.id], roles: [] } }, []],
    ['a link', { content: 'x', components: [row({ type: 2, style: 5, label: 'Sheet', url: 'https://example.org' })] }, []],
  ])('%s', async (_, body, names) => {
    await send(body, ...names);
    expect(platform.complaints).toEqual([]);
  });
});

describe('a message is reported when it is wrong', () => {
  test.each<[string, Body, string[]]>([
    ['content of 2001', { content: 'x'.repeat(2001) }, []],
    ['content beside', { ...box(text('a')), content: 'x' }, []],
    ['without their flag', { components: [text('a')] }, []],
    ['an empty message', {}, []],
    ['41 components', { flags: V2, components: Array.from({ length: 41 }, () => text('a')) }, []],
    ['4001 characters in text', box(text('x'.repeat(2000)), text('x'.repeat(2001))), []],
    ['empty text display', box(text(' ')), []],
    ['accent colour', { flags: V2, components: [{ type: 17, accent_color: 0x1000000, components: [text('a')] }] }, []],
    ['a row of 6', { content: 'x', components: [row(...[1, 2, 3, 4, 5, 6].map((n) => button({ custom_id: `${n}` })))] }, []],
    ['6 rows', { content: 'x', components: [1, 2, 3, 4, 5, 6].map((n) => row(button({ custom_id: `${n}` }))) }, []],
    ['stands twice', box(row(button()), row(button())), []],
    ['custom_id of 101', box(row(button({ custom_id: 'x'.repeat(101) }))), []],
    ['label of 81', box(row(button({ label: 'x'.repeat(81) }))), []],
    ['without label', box(row(button({ label: '' }))), []],
    ['needs a custom_id', box(row({ type: 2, style: 1, label: 'x' })), []],
    ['allowed_mentions is missing', { content: 'x', allowed_mentions: undefined }, []],
    ['parses everyone', { content: 'x', allowed_mentions: { parse: ['everyone'] } }, []],
    ['parses users', { content: 'x', allowed_mentions: { parse: ['users'] } }, []],
    ['is no id', { content: 'x', allowed_mentions: { parse: [], users: ['dana'] } }, []],
    ['101 users', { content: 'x', allowed_mentions: { parse: [], users: Array.from({ length: 101 }, () => dana.user.id) } }, []],
    ['no nonce', { content: 'x', nonce: undefined }, []],
    ['no nonce', { content: 'x', nonce: 'n'.repeat(26) }, []],
    ['enforce_nonce is not set', { content: 'x', enforce_nonce: false }, []],
    ['did not come along', box({ type: 12, items: [{ media: { url: 'attachment://board.png' } }] }), []],
    ['is not shown', box(text('a')), ['board.png']],
    [
      'description of over 1024',
      box({ type: 12, items: [{ media: { url: 'attachment://board.png' }, description: 'x'.repeat(1025) }] }),
      ['board.png'],
    ],
    ['11 embeds', { embeds: Array.from({ length: 11 }, () => ({ title: 'x' })) }, []],
    ['described messageCreate', { content: 'x', colour: 'red' }, []],
    ['described messageCreate', { content: 7 }, []],
    ['nothing is known of components.0.components.0.colour', box({ ...text('a'), colour: 1 }), []],
  ])('%s', async (fault, body, names) => {
    await send(body, ...names);
    expect(platform.breaches.join('\n')).toContain(fault);
  });
});

test('an edit may leave the flag and the files as they are, and is checked like a message', async () => {
  const picture = box({ type: 12, items: [{ media: { url: 'attachment://board.png' } }] });
  const { id } = (await send(picture, 'board.png')) as { id: string };
  await rest.patch(Routes.channelMessage(bench.id, id), { body: { components: picture.components, ...allowed } });
  expect(platform.complaints).toEqual([]);
  await rest.patch(Routes.channelMessage(bench.id, id), { body: { content: 'x' } });
  expect(platform.breaches.join()).toMatch(/content beside.*allowed_mentions is missing/);
});

const gallery = box({ type: 12, items: [{ media: { url: 'attachment://board.png' } }] });
const edit = (id: string, body: Body, ...names: string[]) =>
  rest.patch(Routes.channelMessage(bench.id, id), { body: { ...allowed, ...body }, files: names.map(file) });
const shown = (id: string) => platform.messagesIn(bench).find((each) => each.id === id);

describe('an edit of a message with a picture', () => {
  test('lays the new one in the place of the old, where it says which files stay', async () => {
    const { id } = (await send(gallery, 'board.png')) as { id: string };
    await edit(id, { ...gallery, attachments: [{ id: '0', filename: 'board.png' }] }, 'board.png');
    expect(platform.complaints).toEqual([]);
    expect(shown(id)?.files).toHaveLength(1);
  });

  test('keeps one by its id', async () => {
    const { id, attachments } = (await send(gallery, 'board.png')) as { id: string; attachments: { id: string }[] };
    await edit(id, { ...gallery, attachments: attachments.map((each) => ({ id: each.id })) });
    expect(platform.complaints).toEqual([]);
    expect(shown(id)?.files).toHaveLength(1);
  });

  test.each<[string, Body, string[]]>([
    ['comes beside one of that name', gallery, ['board.png']],
    ['stays and is not shown', box(text('a')), []],
    ['attachment://board.png did not come along', { ...gallery, attachments: [] }, []],
  ])('is reported: %s', async (fault, body, names) => {
    const { id } = (await send(gallery, 'board.png')) as { id: string };
    await edit(id, body, ...names);
    expect(platform.breaches.join('\n')).toContain(fault);
  });

  test('is turned down where it is too large, or files may not be attached', async () => {
    const { id } = (await send(gallery, 'board.png')) as { id: string };
    const large = { name: 'board.png', data: Buffer.alloc(10 * 1024 * 1024 + 1), contentType: 'image/png' };
    const body = { ...allowed, ...gallery, attachments: [{ id: '0', filename: 'board.png' }] };
    const sent = rest.patch(Routes.channelMessage(bench.id, id), { body, files: [large] });
    await expect(sent).rejects.toMatchObject({ status: 413, code: 40005 });
    platform.deny(bench, PermissionFlagsBits.AttachFiles);
    await expect(edit(id, body, 'board.png')).rejects.toMatchObject({ status: 403, code: 50013 });
    await edit(id, { ...box(text('a')), attachments: [] });
    platform.allow(bench, PermissionFlagsBits.AttachFiles);
    expect(shown(id)?.files).toEqual([]);
  });
});

const option = (more: Body = {}) => ({ type: 3, name: 'amount', description: 'How much', ...more });
const command = (more: Body = {}) => ({ type: 1, name: 'mix', description: 'What to weigh out', ...more });
const register = (...body: unknown[]) => rest.put(Routes.applicationCommands(platform.world.applicationId), { body });

test('a registration is stored when it is right, each command under an id that stays', async () => {
  const restricted = command({ name: 'shift', default_member_permissions: '32' });
  const first = (await register(command({ options: [option({ required: true })] }), restricted)) as { id: string }[];
  const second = (await register(command(), restricted)) as { id: string }[];
  expect(second.map(({ id }) => id)).toEqual(first.map(({ id }) => id));
  expect(await rest.get(Routes.applicationCommands(platform.world.applicationId))).toEqual(second);
  expect(await rest.get(Routes.oauth2CurrentApplication())).toMatchObject({ id: platform.world.applicationId });
  expect(platform.complaints).toEqual([]);
  const shift = { channel: bench, user: dana, name: 'shift' };
  expect(() => platform.command(shift)).toThrow('is not shown');
  dana.permissions |= 32n;
  expect(platform.command(shift).interaction).toMatchObject({ type: 2, channel_id: bench.id, data: { name: 'shift' } });
});

test.each<[string, unknown[]]>([
  ['an impossible name', [command({ name: 'Mix' })]],
  ['description of 101', [command({ description: 'x'.repeat(101) })]],
  ['26 options', [command({ options: Array.from({ length: 26 }, (_, n) => option({ name: `o${n}` })) })]],
  [
    '26 choices',
    [command({ options: [option({ choices: Array.from({ length: 26 }, (_, n) => ({ name: `${n}`, value: `${n}` })) })] })],
  ],
  ['after an optional one', [command({ options: [option(), option({ name: 'by', required: true })] })]],
  ['default_member_permissions', [command({ default_member_permissions: 32 })]],
  ['two commands of one name', [command(), command()]],
  ['characters in all', [command({ options: Array.from({ length: 25 }, (_, n) => group(n)) })]],
  ['choices and completion', [command({ options: [option({ autocomplete: true, choices: [{ name: 'a', value: 'a' }] })] })]],
  ['described command', [command({ colour: 'red' })]],
])('a registration is reported: %s', async (fault, body) => {
  await register(...body);
  expect(platform.breaches.join('\n')).toContain(fault);
});

function group(n: number) {
  const options = [1, 2, 3].map((m) => option({ name: `o${m}`, description: 'x'.repeat(100) }));
  return { type: 1, name: `part${n}`, description: 'x'.repeat(100), options };
}

const input = (more: Body = {}) => ({ type: 4, custom_id: 'text', style: 1, ...more });
const label = (component: unknown, more: Body = {}) => ({ type: 18, label: 'What happened', component, ...more });
const modal = (more: Body = {}) => ({
  type: 9,
  data: { custom_id: 'm', title: 'A note', components: [label(input())], ...more },
});
const choices = (n: number, name = 'skin', value: unknown = 'skin') => ({
  type: 8,
  data: { choices: Array.from({ length: n }, () => ({ name, value })) },
});

/** Answers a fresh command, or the completion of one. */
async function answer(body: { type: number }): Promise<void> {
  platform.assumeRegistered([
    { type: 1, name: 'mix', description: 'x', options: [{ type: 3, name: 'material', description: 'x', autocomplete: true }] },
  ]);
  const ask = { channel: bench, user: dana, name: 'mix' };
  if (body.type === 8) void platform.autocomplete({ ...ask, focused: { name: 'material', value: '' } }).catch(() => undefined);
  else platform.command(ask);
  const interaction = [...platform.exchanges.values()].at(-1)?.interaction;
  await rest.post(Routes.interactionCallback(`${interaction?.id}`, `${interaction?.token}`), { body, auth: false });
}

test.each<[string, { type: number }]>([
  ['a modal', modal()],
  ['25 choices', choices(25)],
  ['a reply', { type: 4, data: { content: 'x', ...allowed } } as { type: number }],
  ['a deferral', { type: 5, data: { flags: 64 } } as { type: number }],
])('an answer is passed when it is right: %s', async (_, body) => {
  await answer(body);
  expect(platform.complaints).toEqual([]);
});

test.each<[string, { type: number }]>([
  ['the title of a modal has 46', modal({ title: 'x'.repeat(46) })],
  ['a modal with 6 inputs', modal({ components: [1, 2, 3, 4, 5, 6].map((n) => label(input({ custom_id: `${n}` }))) })],
  ['a label of a modal has 46', modal({ components: [label(input(), { label: 'x'.repeat(46) })] })],
  ['a placeholder of a modal has 101', modal({ components: [label(input({ placeholder: 'x'.repeat(101) }))] })],
  ['max_length 4001', modal({ components: [label(input({ max_length: 4001 }))] })],
  ['prefilled value of a modal has 6', modal({ components: [label(input({ max_length: 5, value: '123456' }))] })],
  ['described modal', modal({ colour: 'red' })],
  ['26 choices', choices(26)],
  ['name has 101', choices(1, 'x'.repeat(101))],
  ['impossible value', choices(1, 'x', 'x'.repeat(101))],
  ['allowed_mentions is missing', { type: 4, data: { content: 'x' } } as { type: number }],
])('an answer is reported: %s', async (fault, body) => {
  await answer(body);
  expect(platform.breaches.join('\n')).toContain(fault);
});

test('an answer that does not fit its interaction is turned down', async () => {
  await expect(answer({ type: 7 })).rejects.toMatchObject({ code: 50035 });
  expect(platform.breaches.join()).toContain('type 7 to an interaction of type 2');
});
