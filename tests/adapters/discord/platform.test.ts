import { ButtonStyle, MessageFlags, PermissionFlagsBits, Routes } from 'discord.js';
import { describe, expect, test, vi } from 'vitest';
import { loggedIn, message, replies, SILENT, seconds } from '../../support/platform/client.ts';

const row = (label: string, customId: string) => ({
  type: 1 as const,
  components: [{ type: 2 as const, style: ButtonStyle.Primary as const, label, custom_id: customId }],
});

describe.concurrent('people and their commands', () => {
  test('a command reaches the bot with every kind of option, and its reply comes back', async () => {
    const { platform, bench, dana, client } = await loggedIn({
      async hear(interaction) {
        if (!interaction.isChatInputCommand()) return;
        const { options } = interaction;
        const sheet = options.getAttachment('sheet', true);
        const text = await (await fetch(sheet.url)).text();
        const rest = [options.getInteger('cups'), options.getNumber('spare'), options.getBoolean('quiet')];
        const holder = options.getMember('holder');
        const all = [
          options.getString('amount'),
          ...rest,
          options.getUser('holder')?.username,
          holder !== null,
          sheet.name,
          text,
        ];
        const { resource } = await interaction.reply({ content: all.join('|'), allowedMentions: SILENT, withResponse: true });
        await interaction.followUp({ content: `${resource?.message?.content.length}`, allowedMentions: SILENT });
      },
    });
    const sheet = { filename: 'sheet.txt', type: 'text/plain', bytes: Buffer.from('pot life 18 min') };
    const options = { amount: '150 g', cups: 2, spare: 0.5, quiet: true, holder: dana, sheet };
    const exchange = await platform.command({ channel: bench, user: dana, name: 'mix', options }).answered();
    expect(exchange.text).toBe('150 g|2|0.5|true|dana|true|sheet.txt|pot life 18 min');
    expect(exchange.callbacks).toMatchObject([{ type: 4, data: { content: exchange.text } }]);
    expect(client.guilds.cache.first()?.name).toBe('studio');
    await vi.waitFor(() => expect(exchange.followUps[0]?.text).toBe(String(exchange.text.length)), seconds(2));
    expect(platform.messagesIn(bench)).toHaveLength(2);
    expect(platform.complaints).toEqual([]);
    expect(() => platform.command({ channel: bench, user: dana, name: 'mix' })).toThrow('amount is required');
    expect(() => platform.command({ channel: bench, user: dana, name: 'job' })).toThrow('needs one of: start');
    expect(() => platform.command({ channel: bench, user: dana, name: 'stir' })).toThrow('not registered');
  });

  test('a deferred answer counts only when it is edited, and brings its file', async () => {
    const { platform, bench, dana } = await loggedIn({
      async hear(interaction) {
        if (!interaction.isChatInputCommand()) return;
        await interaction.deferReply();
        await new Promise((resolve) => setTimeout(resolve, 500));
        const file = { attachment: Buffer.from('board'), name: 'board.txt' };
        await interaction.editReply({ content: 'done', files: [file], allowedMentions: SILENT });
        await interaction.followUp({ content: 'psst', flags: MessageFlags.Ephemeral, allowedMentions: SILENT });
      },
    });
    const exchange = platform.command({ channel: bench, user: dana, name: 'job start' });
    await exchange.answered();
    expect(exchange.acknowledgedAfterMs).toBeLessThan(490);
    expect(exchange.text).toBe('done');
    expect(exchange.message.files.map(({ name, bytes }) => [name, String(Buffer.from(bytes))])).toEqual([['board.txt', 'board']]);
    await vi.waitFor(() => expect(exchange.followUps[0]?.text).toBe('psst'), seconds(2));
    expect(platform.messagesIn(bench).map(({ text }) => text)).toEqual(['done']);
    expect(platform.complaints).toEqual([]);
  });

  test('what is delivered twice may be answered once', async () => {
    const { platform, bench, dana, failures } = await loggedIn({ hear: replies('once') });
    const exchange = platform.command({ channel: bench, user: dana, name: 'job start', deliverTwice: true });
    await exchange.turnedDown();
    expect(exchange.rejected).toMatchObject([{ code: 40060 }]);
    expect(platform.messagesIn(bench)).toHaveLength(1);
    await vi.waitFor(() => expect(failures).toMatchObject([{ code: 40060, status: 400 }]), seconds(2));
  });

  test('an answer that comes too late is unknown, and so is one after the token has run out', async () => {
    const { platform, bench, dana, failures } = await loggedIn({
      settings: { answerMs: 800 },
      async hear(interaction) {
        if (!interaction.isChatInputCommand()) return;
        if (interaction.commandName === 'job') await interaction.deferReply();
        await new Promise((resolve) => setTimeout(resolve, 1000));
        const body = { content: 'late', allowedMentions: SILENT };
        await (interaction.deferred ? interaction.editReply(body) : interaction.reply(body));
      },
    });
    const late = platform.command({ channel: bench, user: dana, name: 'mix', options: { amount: '1 kg' } });
    const tired = platform.command({ channel: bench, user: dana, name: 'job start' });
    await vi.waitFor(() => expect(tired.callbacks).toHaveLength(1), seconds(2));
    tired.expire();
    await Promise.all([late.turnedDown(), tired.turnedDown()]);
    expect([late.rejected[0]?.code, tired.rejected[0]?.code]).toEqual([10062, 50027]);
    await vi.waitFor(() => expect(failures).toMatchObject([{ status: 404 }, { status: 401 }]), seconds(2));
    await expect(late.answered({ ms: 20 })).rejects.toThrow('waited 20 ms for an answer');
  });

  test('completion knows what is typed and what is filled in', async () => {
    const { platform, bench, dana } = await loggedIn({
      async hear(interaction) {
        if (!interaction.isAutocomplete()) return;
        const { name, value } = interaction.options.getFocused(true);
        const amount = interaction.options.getString('amount');
        await interaction.respond([{ name: `${name} ${value} ${amount}`, value: 'skin' }]);
      },
    });
    const ask = { channel: bench, user: dana, name: 'mix', options: { amount: '1 kg' } };
    const choices = await platform.autocomplete({ ...ask, focused: { name: 'material', value: 'sk' } });
    expect(choices).toEqual([{ name: 'material sk 1 kg', value: 'skin' }]);
    await expect(platform.autocomplete({ ...ask, focused: { name: 'cups', value: '1' } })).rejects.toThrow('not completed');
  });

  test('a button updates its message, opens a modal, and the modal is sent, in a thread too', async () => {
    const { platform, bench, dana } = await loggedIn({
      async hear(interaction) {
        if (interaction.isChatInputCommand()) {
          const components = [row('Note', 'note')];
          const where = `${interaction.channel?.isThread()}`;
          await interaction.reply({ content: where, components, allowedMentions: SILENT });
        } else if (interaction.isButton()) {
          const input = { type: 4 as const, custom_id: 'text', style: 1 as const, label: 'What happened', required: true };
          await interaction.showModal({ custom_id: 'm', title: 'A note', components: [{ type: 1, components: [input] }] });
        } else if (interaction.isModalSubmit() && interaction.isFromMessage()) {
          const content = interaction.fields.getTextInputValue('text');
          await interaction.update({ content, components: [], allowedMentions: SILENT });
        }
      },
    });
    const thread = platform.thread(bench, 'a job');
    const first = await platform.command({ channel: thread, user: dana, name: 'job start' }).answered();
    expect(first.text).toBe('true');
    const who = { channel: thread, user: dana };
    expect(() => platform.press({ ...who, message: first.message, label: 'Stop' })).toThrow('only: Note');
    const modal = await platform.press({ ...who, message: first.message, label: 'Note' }).answered();
    expect(() => platform.submit({ ...who, modal, values: {} })).toThrow('What happened is required');
    const sent = await platform.submit({ ...who, modal, values: { 'What happened': 'a bubble' } }).answered();
    expect(sent.message).toBe(first.message);
    expect(first.text).toBe('a bubble');
    expect(first.message.buttons).toEqual([]);
    expect(platform.complaints).toEqual([]);
  });
});

describe.concurrent('servers, channels and permissions', () => {
  test('come and go before the eyes of the bot', async () => {
    const { platform, bench, studio, client } = await loggedIn();
    const other = platform.server('other', { joined: false });
    expect(client.guilds.cache.has(other.id)).toBe(false);
    platform.join(other);
    const thread = platform.thread(bench, 'a job');
    await vi.waitFor(
      () => expect(client.channels.cache.has(thread.id) && client.guilds.cache.has(other.id)).toBe(true),
      seconds(2),
    );
    platform.deleteChannel(bench);
    platform.kick(other);
    await vi.waitFor(
      () => expect(client.channels.cache.has(bench.id) || client.guilds.cache.has(other.id)).toBe(false),
      seconds(2),
    );
    await expect(client.rest.post(Routes.channelMessages(bench.id), message('x', 'n'))).rejects.toMatchObject({ code: 10003 });
    await expect(client.rest.get(Routes.guild(other.id))).rejects.toMatchObject({ code: 10004 });
    expect(await client.rest.get(Routes.guild(studio.id))).toMatchObject({ name: 'studio' });
  });

  test('permissions, direct messages, members and messages are refused or found as on the platform', async () => {
    const { platform, bench, studio, dana, client } = await loggedIn();
    const path = Routes.channelMessages(bench.id);
    const { id } = (await client.rest.post(path, message('one', 'n1'))) as { id: string };
    await client.rest.post(path, message('two', 'n2'));
    expect(await client.rest.get(`${path}?limit=1`)).toMatchObject([{ content: 'two', author: { bot: true } }]);
    expect(await client.rest.patch(Routes.channelMessage(bench.id, id), message('three'))).toMatchObject({ content: 'three' });
    await client.rest.delete(Routes.channelMessage(bench.id, id));
    await expect(client.rest.get(Routes.channelMessage(bench.id, id))).rejects.toMatchObject({ code: 10008 });
    platform.deny(bench, PermissionFlagsBits.SendMessages);
    await expect(client.rest.post(path, message('x', 'n3'))).rejects.toMatchObject({ status: 403, code: 50013 });
    platform.deny(bench, PermissionFlagsBits.ViewChannel);
    await expect(client.rest.post(path, message('x', 'n4'))).rejects.toMatchObject({ status: 403, code: 50001 });
    platform.allow(bench, PermissionFlagsBits.ViewChannel | PermissionFlagsBits.SendMessages);
    await client.rest.post(path, message('x', 'n5'));

    dana.acceptsDirect = false;
    const direct = (await client.rest.post(Routes.userChannels(), { body: { recipient_id: dana.user.id } })) as { id: string };
    const there = Routes.channelMessages(direct.id);
    await expect(client.rest.post(there, message('psst', 'd'))).rejects.toMatchObject({ status: 403, code: 50007 });
    dana.acceptsDirect = true;
    await client.rest.post(there, message('psst', 'd'));
    expect(platform.direct(dana)?.messages.map(({ text }) => text)).toEqual(['psst']);
    const found = await client.rest.get(`${Routes.guildMembersSearch(studio.id)}?query=DA&limit=5`);
    expect(found).toMatchObject([{ user: { username: 'dana' } }]);
    expect(await client.rest.get(Routes.guildMember(studio.id, dana.user.id))).toMatchObject({ user: { id: dana.user.id } });
    await expect(client.rest.get(Routes.guildMember(studio.id, bench.id))).rejects.toMatchObject({ code: 10007 });
    expect(platform.complaints).toEqual([]);
    await expect(client.rest.get('/voice/regions')).rejects.toMatchObject({ status: 404 });
    expect(platform.unknownRequests).toEqual(['GET /voice/regions']);
  });
});
