import type { InteractionReplyOptions } from 'discord.js';
import { describe, expect, it } from 'vitest';
import {
  channelBody,
  editBody,
  type MessageView,
  messageOf,
  replyOptions,
  withoutFiles,
} from '../../../../src/adapters/discord/rendering/message.ts';
import { keptId, markOf, pressOf } from '../../../../src/adapters/discord/rendering/press.ts';
import { type CardFile, card, type Tone } from '../../../../src/chat/card.ts';
import { Refusal, type Way } from '../../../../src/words/refusal.ts';
import { clock, person, plain, say, strong } from '../../../../src/words/text.ts';
import { all, buttons, expectWithinLimits, fileText, texts, words } from './limits.ts';

const now = Date.parse('2026-03-02T07:00:00Z');
const bench = '165511591545143296';
const view: MessageView = { now, zone: 'Europe/Berlin', kind: 'reply', bench };
const ANN = '80351110224678912';
const BOB = '80351110224678913';
const ROLE = '&103735883630395392';

const way = (label: string, options: Record<string, string> = {}): Way => ({ label, command: 'done', options });
const image = (name: string, size = 3): CardFile => ({ name, about: 'A board', type: 'image/png', bytes: new Uint8Array(size) });
const sheet = (name: string, size = 3): CardFile => ({ name, about: '', type: 'text/plain', bytes: new Uint8Array(size) });

describe('a card', () => {
  const ready = card(say`${'Lion'}: ready for coat 2`, [say`Mix ${strong(plain('240 g'))}.`, say``, say`With ${person(ANN)}.`], {
    data: { ping: { id: 'c/recoat-open/lion' } },
    tone: 'go',
    to: [ANN, ROLE, 'dana', ANN],
    buttons: [way('Coat done', { job: 'lion' }), way('Snooze'), way('Again')],
    files: [image('board.png'), sheet('plan.txt')],
  });

  it('says for whom, then the state and the number, then the rest, then what can be pressed', () => {
    const message = messageOf(ready, { ...view, kind: 'ping' });
    expectWithinLimits(message);
    expect(JSON.parse(JSON.stringify(message.components))).toEqual([
      { type: 10, content: `<@${ANN}> <@${ROLE}> @\u200bdana` },
      {
        type: 17,
        id: markOf('c/recoat-open/lion'),
        accent_color: 0x009e73,
        components: [
          { type: 10, content: '### GO · Lion: ready for coat 2' },
          { type: 10, content: `Mix **240 g**.\n\nWith <@${ANN}>.` },
          { type: 12, items: [{ media: { url: 'attachment://board.png' }, description: 'A board' }] },
          { type: 13, file: { url: 'attachment://plan.txt' } },
          {
            type: 1,
            components: [
              { type: 2, style: 3, label: 'Coat done', custom_id: expect.stringMatching(/^1p\..{6}\.done;job=lion;$/) },
              { type: 2, style: 2, label: 'Snooze', custom_id: expect.stringMatching(/^1p\..{6}\.done;$/) },
            ],
          },
        ],
      },
    ]);
    expect(message.mentions).toEqual({ parse: [], users: [ANN], roles: [ROLE.slice(1)] });
    expect([message.flags, message.ephemeral]).toEqual([32768, false]);
  });

  it('shows its state as a word and a colour of its own', () => {
    const look = (tone: Tone) => {
      const message = messageOf(card(say`Title`, [], { tone }), view);
      return [texts(message)[0], all(message)[0]?.accent_color];
    };
    expect([look('calm'), look('go'), look('soon'), look('late')]).toEqual([
      ['### Title', undefined],
      ['### GO · Title', 0x009e73],
      ['### SOON · Title', 0xe69f00],
      ['### LATE · Title', 0xd55e00],
    ]);
    const first = (tone: Tone) => buttons(messageOf(card(say`Title`, [], { tone, buttons: [way('Done')] }), view))[0]?.style;
    expect([first('calm'), first('go')]).toEqual([1, 3]);
  });

  it('mentions in an answer those whom its text does not name', () => {
    const offer = card(say`Handover to ${person(ANN)}`, [], { to: [ANN, BOB, 'dana'] });
    expect(texts(messageOf(offer, view))).toEqual([`<@${BOB}>`, `### Handover to <@${ANN}>`]);
    expect(texts(messageOf({ ...offer, aside: true }, view))).toEqual([`### Handover to <@${ANN}>`]);
    expect(messageOf({ ...offer, aside: true }, view).ephemeral).toBe(true);
  });

  it('mentions at most a hundred people and roles, and shows how many more there are', () => {
    const to = Array.from({ length: 130 }, (_, index) => String(80351110224678912n + BigInt(index)));
    const message = messageOf(card(say`All`, [say`${'x '.repeat(5000)}`], { to: [...to, ...to.map((id) => `&${id}`)] }), {
      ...view,
      kind: 'ping',
    });
    expectWithinLimits(message);
    expect([message.mentions.users.length, message.mentions.roles.length]).toEqual([100, 100]);
    const [, shown, more] = /^((?:<@\d+> )+)\+(\d+)$/.exec(texts(message)[0] ?? '') ?? [];
    expect((shown ?? '').trim().split(' ').length + Number(more)).toBe(260);
  });
});

describe('a refusal', () => {
  const no = new Refusal('unknown-material', say`There is no ${'*rubber* @everyone'}.`, {
    example: 'material:brush-urethane',
    ways: Array.from({ length: 7 }, (_, index) => way(`Way ${index}`, { index: String(index) })),
  });

  it('says that nothing has changed, why, and what would do, to the asker alone', () => {
    const message = messageOf(no, view);
    expectWithinLimits(message);
    expect(texts(message)).toEqual([
      '### NO · Nothing has changed',
      'There is no \\*rubber\\* @\u200beveryone.\nFor example: `material:brush-urethane`',
    ]);
    expect(message).toMatchObject({ ephemeral: true, mentions: { parse: [], users: [], roles: [] } });
    expect(buttons(message).map(({ label, style }) => [label, style])).toEqual([
      ['Way 0', 1],
      ...[1, 2, 3, 4].map((index) => [`Way ${index}`, 2]),
    ]);
  });
});

describe('a text that is too long', () => {
  it('is shown in whole lines, and whole in a file', () => {
    const lines = Array.from({ length: 200 }, (_, index) => say`Line ${index}: *${'y'.repeat(40)} @dana ${clock(now)}`);
    const message = messageOf(card(say`Long`, lines), view);
    expectWithinLimits(message);
    const shown = (texts(message)[1] ?? '').split('\n');
    expect(shown.at(-1)).toBe(`… and ${201 - shown.length} more lines in the file`);
    expect(shown.at(-2)).toMatch(/^Line \d+: \\\*y{40} @\u200bdana <t:1772434800:t>$/);
    expect(words(message).length).toBeGreaterThan(3300);
    expect(fileText(message)).toBe(
      ['Long', ...Array.from({ length: 200 }, (_, index) => `Line ${index}: *${'y'.repeat(40)} @dana 08:00`)].join('\n'),
    );
  });

  it('of one line is cut in its words', () => {
    const line = say`${strong('*'.repeat(5000))} ${clock(now)}`;
    const message = messageOf(card(say`Long`, [line]), view);
    expectWithinLimits(message);
    expect(texts(message)[1]).toMatch(/^\*\*(?:\\\*){1600,}\*\*…\n… the rest is in the file$/);
    expect(fileText(message)).toBe(`Long\n${'*'.repeat(5000)} 08:00`);
  });

  it('of a title is cut as well', () => {
    const message = messageOf(card(say`${'🪣'.repeat(200)}`, []), view);
    expectWithinLimits(message);
    expect(texts(message)).toEqual([`### ${'🪣'.repeat(124)}…`, '… the rest is in the file']);
    expect(fileText(message)).toBe(`${'🪣'.repeat(200)}\n`.trimEnd());
  });

  it('keeps a heading on one line', () => {
    expect(texts(messageOf(card(say`Lion  ${'a\nb'}${plain('\n# c')}`, []), view))).toEqual(['### Lion  a b \\# c']);
  });

  it('keeps a gap between lines, but no empty text', () => {
    expect(texts(messageOf(card(say``, [say``, say`a`, say``, say`${'\u200b'}`, say`b`, say``]), view))).toEqual([
      '### …',
      'a\n\nb',
    ]);
    expect(texts(messageOf(card(say`Title`, [say``]), view))).toEqual(['### Title']);
  });
});

describe('files', () => {
  it('are named so that they are found, each once', () => {
    const names = ['../Plan für Löwe.PNG', 'plan.txt', 'Plan.txt', 'card.txt', '', '...', `${'x'.repeat(300)}.txt`];
    const message = messageOf(card(say`Files`, [], { files: names.map((name) => sheet(name)) }), view);
    expectWithinLimits(message);
    expect(message.files.map(({ name }) => name)).toEqual([
      '_Plan_f_r_L_we.PNG',
      'plan.txt',
      'Plan-2.txt',
      'card-2.txt',
      'file',
      'file-2',
      `${'x'.repeat(80)}.txt`,
    ]);
  });

  it('that do not fit are left out, and named', () => {
    const mebibyte = 1024 * 1024;
    const big = [
      image('a.png', 10 * mebibyte),
      sheet('b*.txt', 10 * mebibyte + 1),
      sheet('c.txt', 10 * mebibyte),
      image('d.png', 6 * mebibyte),
    ];
    const message = messageOf(card(say`Files`, [], { files: big }), view);
    expectWithinLimits(message);
    expect(message.files.map(({ name }) => name)).toEqual(['a.png', 'c.txt']);
    expect(texts(message)[1]).toBe('Left out, as it would be too much for one message: b\\*.txt, d.png');
    const many = messageOf(
      card(say`Files`, [], { files: Array.from({ length: 12 }, (_, index) => image(`${index}.png`)) }),
      view,
    );
    expectWithinLimits(many);
    expect(texts(many)[1]).toBe('Left out, as it would be too much for one message: 9.png, 10.png, 11.png');
  });

  it('are left out where the platform takes none, and it says so where it is told to', () => {
    const files = [...Array.from({ length: 8 }, (_, index) => image(`board_${index}.png`)), sheet('plan.ics')];
    const ready = card(say`Board`, [say`Now.`], { files, to: [ANN], buttons: [way('Done')], data: { ping: { id: 'p' } } });
    const message = messageOf(ready, { ...view, kind: 'ping' });
    const named = withoutFiles(message, 'named');
    expectWithinLimits(named);
    expect(named.files).toEqual([]);
    expect(texts(named)).toEqual([
      `<@${ANN}>`,
      '### Board',
      'Now.',
      expect.stringMatching(/^-# Not sent along: board\\_0\.png, /),
    ]);
    expect(buttons(named)).toEqual(buttons(message));
    const unsaid = withoutFiles(message, 'unsaid');
    expect(texts(unsaid)).toEqual([`<@${ANN}>`, '### Board', 'Now.']);
    expect(all(unsaid).map(({ id }) => id)).toContain(all(message).find(({ type }) => type === 17)?.id);
    const long = messageOf(
      card(say`Long`, [say`${'*'.repeat(9000)}`], {
        files: files.map((file) => ({ ...file, name: `${'_'.repeat(70)}${file.name}` })),
      }),
      view,
    );
    expectWithinLimits(withoutFiles(long, 'named'));
  });
});

describe('a button', () => {
  const long = way('Note', { note: 'x'.repeat(100), job: 'lion' });

  it('whose meaning is too long is kept elsewhere, or typed', () => {
    const kept = messageOf(card(say`Title`, [], { buttons: [long] }), { ...view, room: () => keptId('abc', bench) });
    expect(pressOf(buttons(kept)[0]?.custom_id ?? '')).toMatchObject({ kept: 'abc' });
    const typed = messageOf(card(say`Title`, [], { buttons: [long, way('Done')] }), view);
    expect(texts(typed)[1]).toBe(`Type: \`/done note:${'x'.repeat(100)} job:lion\``);
    expect(buttons(typed).map(({ label, style }) => [label, style])).toEqual([['Done', 1]]);
    const useless = messageOf(card(say`Title`, [], { buttons: [long] }), { ...view, room: () => 'x'.repeat(101) });
    expect(buttons(useless)).toEqual([]);
  });

  it('has a label that can be read', () => {
    const labels = ['', ' \u200b\n', `${'🪣'.repeat(60)}`, 'Coat\ndone'].map((label, index) =>
      way(label, { index: String(index) }),
    );
    const message = messageOf(new Refusal('no', say`No.`, { ways: labels }), view);
    expectWithinLimits(message);
    expect(buttons(message).map(({ label }) => label)).toEqual(['/done', '/done', `${'🪣'.repeat(39)}…`, 'Coat done']);
  });
});

describe('what is sent', () => {
  const message = messageOf(card(say`Title`, [], { files: [image('a.png'), sheet('b.txt')], to: [ANN], aside: true }), view);

  it('names its files, and is posted once', () => {
    const attachments = [
      { id: '0', filename: 'a.png', description: 'A board' },
      { id: '1', filename: 'b.txt' },
    ];
    const body = {
      flags: 32768,
      components: message.components,
      allowed_mentions: { parse: [], users: [ANN], roles: [] },
      attachments,
    };
    expect(channelBody(message, 'n1')).toEqual({ ...body, nonce: 'n1', enforce_nonce: true });
    expect(channelBody(message)).toEqual(body);
    expect(editBody(message)).toEqual(body);
    expect(editBody(messageOf(card(say`Title`, []), view)).attachments).toEqual([]);
  });

  it('answers an interaction', () => {
    const options: InteractionReplyOptions = replyOptions(message);
    expect(options).toMatchObject({
      flags: 32768 | 64,
      allowedMentions: { parse: [], users: [ANN], roles: [] },
      files: [{ name: 'a.png', description: 'A board', attachment: Buffer.alloc(3) }, { name: 'b.txt' }],
    });
  });
});
