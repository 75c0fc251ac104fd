import { PermissionFlagsBits, Routes } from 'discord.js';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { benchTag, keptId, pressId } from '../../../../src/adapters/discord/rendering/press.ts';
import { counters, MINUTE } from './counter.ts';
import { forms, written } from './forms.ts';

const { begin, close } = counters();
afterEach(close);
beforeEach(() => void written.splice(0));

it('answers a command in the channel, with buttons that work', async () => {
  const { platform, bench, dana, started, state, answered, troubles, quiet } = await begin();
  const message = await started();
  expect(message.text).toContain('Lion head has started');
  expect(message.aside).toBe(false);
  const pressed = await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  expect(pressed.text).toContain('done at');
  expect((await state()).jobs.get('lion-head')?.steps[0]?.done).toMatchObject({ by: dana.user.id });
  await quiet();
  expect(answered.map(({ command, how }) => [command, how])).toEqual([
    ['job start', 'answered'],
    ['done', 'answered'],
  ]);
  expect(troubles).toEqual([]);
});

it('tells the second of two who pressed first, and takes the buttons off', async () => {
  const { platform, bench, dana, kim, started, quiet, state } = await begin();
  const message = await started();
  await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  const second = await platform.press({ channel: bench, user: kim, message, label: 'Step done' }).answered();
  expect(second.message.aside).toBe(true);
  expect(second.text).toContain(`<@${dana.user.id}>`);
  expect(second.text).toContain('already logged');
  await quiet();
  expect(message.buttons).toEqual([]);
  expect(message.text).toContain('Lion head has started');
  expect((await state()).jobs.get('lion-head')?.steps.filter(({ done }) => done !== null)).toHaveLength(1);
});

it('keeps the pictures where it takes the buttons off', async () => {
  const { platform, bench, dana, quiet } = await begin({ commands: forms });
  const { message } = await platform.command({ channel: bench, user: dana, name: 'shown' }).answered();
  // The platform hands files out by their addresses.
  const addressed = JSON.stringify(message.body.components).replaceAll('attachment://', `${platform.api}/files/1/`);
  message.body.components = JSON.parse(addressed.replaceAll(/(png|txt)"/g, '$1?ex=1&hm=2"'));
  await platform.press({ channel: bench, user: dana, message, label: 'Press' }).answered();
  await quiet();
  expect(message.buttons).toEqual([]);
  expect(message.files.map(({ name }) => name)).toEqual(['board.png', 'list.txt']);
  const sent = JSON.stringify(message.body.components);
  expect(sent).toContain('"url":"attachment://board.png"');
  expect(sent).toContain('"url":"attachment://list.txt"');
  expect(sent).toContain('The board');
});

it('leaves the board its buttons', async () => {
  const { platform, bench, server, dana, kim, started, quiet, records } = await begin();
  const message = await started();
  await records.change(server.id, (before) => ({
    ...before,
    boards: { [bench.id]: { message: message.id, generation: 1, shown: '', bare: false } },
  }));
  const buttons = message.buttons.length;
  for (const user of [dana, kim]) await platform.press({ channel: bench, user, message, label: 'Step done' }).answered();
  await quiet();
  expect(message.buttons).toHaveLength(buttons);
});

it('says of last week’s button that its job is closed', async () => {
  const { platform, bench, dana, started, clock, quiet } = await begin();
  const message = await started();
  await platform.command({ channel: bench, user: dana, name: 'job close', options: { job: 'lion-head' } }).answered();
  await clock.advanceTo(clock.now() + 7 * 24 * 60 * MINUTE);
  const late = await platform.press({ channel: bench, user: dana, message, label: 'Step done' }).answered();
  expect(late.message.aside).toBe(true);
  expect(late.text).toContain('closed');
  await quiet();
  expect(message.buttons).toEqual([]);
});

it.each([
  ['of another version', () => '9p.abcdef.done;', 'another version'],
  ['of somebody else', () => 'a-button', 'another version'],
  ['that was copied from another channel', () => pressId({ command: 'job list', options: {} }, '123456'), 'another channel'],
  ['whose meaning is gone', (channel: string) => keptId('never', channel), 'no longer kept'],
  ['of a command that is gone', (channel: string) => pressId({ command: 'melt', options: {} }, channel), 'no such command'],
])('stays calm about a button %s', async (_, idFor, words) => {
  const { platform, bench, dana, started, troubles, disk } = await begin();
  const message = await started();
  const { appends } = disk;
  const customId = idFor(bench.id) ?? '';
  const pressed = await platform.press({ channel: bench, user: dana, message, customId, unchecked: true }).answered();
  expect(pressed.message.aside).toBe(true);
  expect(pressed.text).toContain(words);
  expect([troubles, disk.appends]).toEqual([[], appends]);
});

it('stays calm about a selection, which it never offers', async () => {
  const { platform, bench, dana, client, happened, troubles } = await begin();
  const menu = { type: 3, custom_id: 'menu', options: [{ label: 'x', value: 'x' }] };
  const body = {
    flags: 32768,
    allowed_mentions: { parse: [] },
    nonce: 'menu',
    enforce_nonce: true,
    components: [{ type: 1, components: [menu] }],
  };
  await client.rest.post(Routes.channelMessages(bench.id), { body });
  const message = platform.messagesIn(bench).at(-1);
  if (!message) throw new Error('nothing was posted');
  const chosen = await platform.press({ channel: bench, user: dana, message, customId: 'menu', values: ['x'] }).answered();
  expect([chosen.message.aside, chosen.text.includes('another version')]).toEqual([true, true]);
  expect([happened, troubles]).toEqual([['unknown-interaction'], []]);
});

it('remembers what a button means that has no room for it', async () => {
  const { platform, bench, dana } = await begin({ commands: forms });
  const material = 'rubber '.repeat(20).trim();
  const first = await platform.command({ channel: bench, user: dana, name: 'offer', options: { material } }).answered();
  const same = first.message.buttons.find(({ label }) => label === 'Same');
  expect(same?.customId).toMatch(/^1k\./);
  const pressed = await platform.press({ channel: bench, user: dana, message: first.message, label: 'Same' }).answered();
  expect(pressed.text).toContain('Offered');
  const asked = await platform.press({ channel: bench, user: dana, message: first.message, label: 'Fix' }).answered();
  const sent = await platform
    .submit({ channel: bench, user: dana, modal: asked, values: { 'Part A': '1', 'Part B': '2' } })
    .answered();
  expect(sent.text).toContain(`${material}: 1 A, 2 B`);
});

it('asks for the rest in a form, and works off what comes back', async () => {
  const { platform, bench, dana, kim, answered, quiet } = await begin({ commands: forms });
  const offered = await platform
    .command({ channel: bench, user: dana, name: 'offer', options: { material: 'rubber' } })
    .answered();
  const asked = await platform.press({ channel: bench, user: kim, message: offered.message, label: 'Fix' }).answered();
  expect(asked.modal.title).toBe('Fix');
  const values = { 'Part A': '171 g', 'Part B': '200 g' };
  const sent = await platform.submit({ channel: bench, user: kim, modal: asked, values }).answered();
  expect(sent.text).toContain('rubber: 171 g A, 200 g B');
  expect(sent.message.aside).toBe(false);

  const noting = await platform.press({ channel: bench, user: kim, message: offered.message, label: 'Note' }).answered();
  expect(noting.modal.title).toBe('Note on lion-head');
  await platform.submit({ channel: bench, user: kim, modal: noting, values: { Note: 'thin\non the nose @everyone' } }).answered();
  expect(written).toEqual([{ job: 'lion-head', text: 'thin\non the nose @everyone' }]);
  await quiet();
  expect(answered.map(({ command }) => command)).toEqual(['offer', 'fix', 'fix', 'paper note', 'paper note']);
});

it('gives back what was typed into a form that is refused', async () => {
  const { platform, bench, dana } = await begin({ commands: forms });
  const offered = await platform
    .command({ channel: bench, user: dana, name: 'offer', options: { material: 'rubber' } })
    .answered();
  const asked = await platform.press({ channel: bench, user: dana, message: offered.message, label: 'Fix' }).answered();
  const values = { 'Part A': 'nonsense', 'Part B': '200 g' };
  const sent = await platform.submit({ channel: bench, user: dana, modal: asked, values }).answered();
  expect(sent.message.aside).toBe(true);
  expect(sent.text).toContain('/fix material:rubber poured:nonsense A, 200 g B');
});

it('opens no form where there is nothing to ask', async () => {
  const { platform, bench, dana } = await begin({ commands: forms });
  const offered = await platform.command({ channel: bench, user: dana, name: 'offer', options: { material: 'lost' } }).answered();
  const press = (customId: string | undefined) =>
    platform
      .press({ channel: bench, user: dana, message: offered.message, customId: customId ?? '', unchecked: true })
      .answered();
  const refused = await press(offered.message.buttons[0]?.customId);
  expect([refused.message.aside, refused.text.includes('There is no lost')]).toEqual([true, true]);
  const formless = await press(`1f.${benchTag(bench.id)}.manage;`);
  expect([formless.message.aside, formless.text.includes('Type the command')]).toEqual([true, true]);
});

it('says to press again where the form cannot come in time', async () => {
  const { platform, bench, dana, disk } = await begin({ commands: forms });
  const offered = await platform
    .command({ channel: bench, user: dana, name: 'offer', options: { material: 'rubber' } })
    .answered();
  disk.readMilliseconds = 2500;
  const asked = await platform.press({ channel: bench, user: dana, message: offered.message, label: 'Fix' }).answered();
  expect(asked.acknowledgedAfterMs).toBeLessThan(3000);
  expect(asked.message.aside || asked.followUps[0]?.aside).toBe(true);
  disk.readMilliseconds = 0;
});

it('stays calm where the form comes too late', async () => {
  const { platform, bench, dana, happened, troubles, quiet } = await begin({ commands: forms });
  const offered = await platform
    .command({ channel: bench, user: dana, name: 'offer', options: { material: 'rubber' } })
    .answered();
  platform.settings.answerMs = 0;
  const asked = await platform.press({ channel: bench, user: dana, message: offered.message, label: 'Fix' }).turnedDown();
  await quiet();
  expect(asked.callbacks).toEqual([]);
  expect([happened, troubles]).toEqual([['form-not-opened'], []]);
});

it('keeps what is for managers to those who manage', async () => {
  const { platform, bench, dana, answered } = await begin({ commands: forms });
  const ask = async (user: typeof dana) =>
    (await platform.command({ channel: bench, user, name: 'manage', unchecked: true }).answered()).text;
  expect(await ask(dana)).toContain('for those who may manage');
  expect(await ask(platform.person('boss', { permissions: PermissionFlagsBits.ManageGuild }))).toContain('Managed');
  expect(await ask(platform.person('owner', { permissions: PermissionFlagsBits.Administrator }))).toContain('Managed');
  expect(answered[0]).toMatchObject({ command: 'manage', how: 'refused' });
});

it('works in servers only', async () => {
  const { platform, dana, client } = await begin();
  await client.rest.post(Routes.userChannels(), { body: { recipient_id: dana.user.id } });
  const direct = platform.direct(dana);
  if (!direct) throw new Error('no direct channel');
  const exchange = await platform.command({ channel: direct, user: dana, name: 'job list' }).answered();
  expect(exchange.message.aside).toBe(true);
  expect(exchange.text).toContain('works in a server');
  const completing = { channel: direct, user: dana, name: 'mix', focused: { name: 'material', value: '' } };
  expect(await platform.autocomplete(completing)).toEqual([]);
});

it('corrects a pour and takes a note through the forms of the shipped commands', async () => {
  const { platform, bench, dana, started, state } = await begin();
  await started();
  const mix = { material: 'brush-urethane', amount: '200 g' };
  const mixed = await platform.command({ channel: bench, user: dana, name: 'mix', options: mix }).answered();
  const pour = await platform.press({ channel: bench, user: dana, message: mixed.message, label: 'Poured wrong' }).answered();
  const inputs = pour.modal.components.flatMap((each) => ('label' in each ? [each.label] : []));
  expect(inputs.length).toBeGreaterThan(1);
  const values = Object.fromEntries(inputs.map((label, index) => [label, `${100 + 60 * index} g`]));
  const fixed = await platform.submit({ channel: bench, user: dana, modal: pour, values }).answered();
  expect(fixed.text).toContain('It is off by');

  const job = await platform.command({ channel: bench, user: dana, name: 'job show' }).answered();
  const asked = await platform.press({ channel: bench, user: dana, message: job.message, label: 'Write a note' }).answered();
  const [input = ''] = asked.modal.components.flatMap((each) => ('label' in each ? [each.label] : []));
  await platform.submit({ channel: bench, user: dana, modal: asked, values: { [input]: 'left ear: thin @everyone' } }).answered();
  expect((await state()).jobs.get('lion-head')?.notes.at(-1)).toMatchObject({ text: 'left ear: thin @everyone' });
});
