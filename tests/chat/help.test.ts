import { describe, expect, it } from 'vitest';
import { helpFor } from '../../src/chat/help.ts';
import { parseLine } from '../../src/chat/parse.ts';
import { plainText } from '../../src/chat/plain.ts';
import { isRefusal } from '../../src/words/refusal.ts';
import { studio } from './example.ts';

const help = (topic?: string) => {
  const answer = helpFor(studio, topic);
  if (isRefusal(answer)) throw new Error(answer.code);
  const shown = (text: Parameters<typeof plainText>[0]) => plainText(text, { zone: 'utc', now: 0 });
  return { title: shown(answer.title), lines: answer.lines.map(shown), data: answer.data, aside: answer.aside };
};

describe('help', () => {
  it('has a line for each command', () => {
    const { lines, data, aside } = help();
    expect(lines).toEqual([
      '/mix How much of each part to pour',
      '/job start | note | list The jobs of the studio',
      '/check Say how a coat feels',
      '/shift set When the studio is open',
      '/help What there is to say',
      'For one of them, or for a part of one: /help topic:mix',
    ]);
    expect(aside).toBe(true);
    const { commands } = data.help as { commands: { name: string }[] };
    expect(commands.map(({ name }) => name)).toEqual([...studio.declarations.keys()]);
  });

  it('tells all about one command', () => {
    expect(help('/MIX')).toMatchObject({
      title: '/mix',
      lines: [
        'How much of each part to pour',
        'scale (optional) Digits that the scale shows. A whole number from 0 to 3.',
        'material (required) What is mixed.',
        'amount (required) How much of it.',
        'by (optional) What is measured. One of: weight, volume.',
        'brief (optional) Numbers only. Yes or no.',
        'Example: /mix material:brush-urethane amount:500 g',
      ],
      data: { help: { commands: [{ name: 'mix', options: [{ name: 'scale', kind: 'integer' }, {}, {}, {}, {}] }] } },
    });
  });

  it('tells of a group and of its parts', () => {
    expect(help('job').lines).toContain('/job list All open jobs. Example: /job list');
    expect(help(' job   start ').title).toBe('/job start');
    expect(help('shift set').lines).toContain('Only for those who manage the server.');
  });

  it('says how a file is given, and where the line with its path can be typed', () => {
    const { lines } = help('job start');
    expect(lines).toContain('photo (optional) What it looks like. Attach a file, or in the local chat give its path.');
    expect(lines).toContain('Example, in the local chat: /job start name:Left hand');
    expect(help('job').lines).toContain('/job start Begin a job. Example, in the local chat: /job start name:Left hand');
  });

  it('gives lines that can be copied, and that work on every surface', () => {
    const answer = helpFor(studio, 'mix');
    if (isRefusal(answer)) throw new Error(answer.code);
    expect(answer.lines.flat()).toContainEqual({ as: 'code', text: '/mix material:brush-urethane amount:500 g' });
    const last = help().lines.at(-1) ?? '';
    const call = parseLine(studio, last.slice(last.indexOf('/')));
    expect(isRefusal(call) ? call.code : call.raw).toEqual({ topic: 'mix' });
  });

  it('offers the nearest topic to an unknown one', () => {
    expect(helpFor(studio, 'mux')).toMatchObject({ code: 'unknown-topic', example: '/help topic:mix' });
    expect(helpFor(studio, 'zzzzzzzzz')).toMatchObject({ code: 'unknown-topic', example: '/help topic:mix' });
  });
});
