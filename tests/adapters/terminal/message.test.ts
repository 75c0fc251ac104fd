import { describe, expect, it } from 'vitest';
import { humanText } from '../../../src/adapters/terminal/human.ts';
import { messageObject } from '../../../src/adapters/terminal/message.ts';
import { card } from '../../../src/chat/card.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { away, clock, person, say, strong } from '../../../src/words/text.ts';

const now = Date.parse('2026-03-02T07:00:00.123Z');
const reader = { zone: 'Europe/Berlin', now };
const way = { label: 'Coat done', command: 'done', options: { job: 'lion' } };
const opens = now + 45 * 60_000;
const ping = card(say`${'Lion'}: ready`, [say`From ${strong(clock(opens))}, ${away(opens)}.`, say`With ${person('dana')}.`], {
  to: ['dana'],
  tone: 'go',
  buttons: [way],
  data: { ping: { id: 'p1' } },
});
const no = new Refusal('unknown-material', say`Got ${'x\u001b[31my'}.`, { example: 'material:brush-urethane', ways: [way] });

it('writes a card as one object, at the wall-clock time of the studio', () => {
  expect(messageObject({ channel: 'bench', kind: 'ping', answer: ping, files: [] }, reader)).toEqual({
    at: '2026-03-02T08:00:00+01:00',
    channel: 'bench',
    kind: 'ping',
    to: ['dana'],
    title: 'Lion: ready',
    text: 'From 08:45, in 45 min.\nWith @dana.',
    data: { ping: { id: 'p1' } },
    buttons: [way],
    files: [],
  });
});

it('writes a refusal with its code, its example and its ways', () => {
  expect(messageObject({ channel: 'bench', kind: 'reply', answer: no, files: [] }, reader)).toMatchObject({
    kind: 'refusal',
    to: [],
    text: 'Got xy.\nFor example: material:brush-urethane',
    data: { refusal: { code: 'unknown-material', message: 'Got xy.' } },
    buttons: [way],
  });
});

it('has the offset of the day, also after the clocks change', () => {
  const summer = { ...reader, now: Date.parse('2026-07-01T06:00:00Z') };
  expect(messageObject({ channel: 'bench', kind: 'ping', answer: ping, files: [] }, summer).at).toBe('2026-07-01T08:00:00+02:00');
});

it('says the state as a word, and in colour only where there is colour', () => {
  const message = { channel: 'bench', kind: 'ping', answer: ping, files: [] } as const;
  const bare = humanText(message, { ...reader, colour: false });
  expect(bare).toBe('🔔 08:00 #bench @dana  GO  Lion: ready\n  From 08:45, in 45 min.\n  With @dana.\n  [Coat done]');
  const coloured = humanText(message, { ...reader, colour: true });
  expect(coloured).toContain('\u001b[38;5;36mGO\u001b[39m');
  expect(coloured).toContain('\u001b[1mLion: ready\u001b[22m');
  expect(coloured.replace(new RegExp(`${String.fromCharCode(27)}\\[[\\d;]*m`, 'g'), '')).toBe(bare);
});

it('lets nobody steer the terminal through an example', () => {
  const answer = new Refusal('x', say`No.`, { example: '/\u001b[2Jmix' });
  expect(humanText({ channel: 'bench', kind: 'reply', answer, files: [] }, { ...reader, colour: true })).not.toContain(
    '\u001b[2J',
  );
});

describe('files', () => {
  const board = {
    path: '/data/files/pictures/board.png',
    type: 'image/png',
    about: 'Lion:\nready',
    bytes: Buffer.from('p'),
  } as const;
  const list = { path: '/data/files/list.yaml', type: 'text/plain', about: '', bytes: Buffer.from('l') } as const;
  const message = {
    channel: 'bench',
    kind: 'reply',
    answer: card(say`Board`, [say`Now.`], { buttons: [way] }),
    files: [board, list],
  } as const;
  const lines = ['Board', '  Now.', '  Picture: /data/files/pictures/board.png', '    Lion: ready'];
  const rest = ['  File: /data/files/list.yaml', '  [Coat done]'];

  it('are named by their paths, with what is in them', () => {
    expect(humanText(message, { ...reader, colour: false })).toBe([...lines, ...rest].join('\n'));
  });

  it('are shown where they are pictures and the terminal can', () => {
    const asked: Uint8Array[] = [];
    const inline = (png: Uint8Array) => {
      asked.push(png);
      return 'PICTURE';
    };
    expect(humanText(message, { ...reader, colour: false, inline })).toBe([...lines, 'PICTURE', ...rest].join('\n'));
    expect(asked).toEqual([board.bytes]);
    expect(humanText(message, { ...reader, colour: false, inline: () => null })).toBe([...lines, ...rest].join('\n'));
  });

  it('are paths for a script, and what they are stands in the data', () => {
    expect(messageObject(message, reader)).toMatchObject({
      files: [board.path, list.path],
      data: {
        files: [
          { path: board.path, type: 'image/png', about: 'Lion:\nready' },
          { path: list.path, type: 'text/plain', about: '' },
        ],
      },
    });
    expect(messageObject({ ...message, files: [] }, reader)).toMatchObject({ files: [], data: {} });
    expect(messageObject({ ...message, files: [] }, reader).data).not.toHaveProperty('files');
  });

  it('cannot steer the terminal by what is said of them', () => {
    const odd = { ...board, about: 'x\u001b[2Jy\u0007' };
    expect(humanText({ ...message, files: [odd] }, { ...reader, colour: false })).toContain('\n    xy\n');
  });
});
