import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Command } from '../../src/chat/declaration.ts';
import { choice, text, typed, whole } from '../../src/chat/options.ts';
import { registry } from '../../src/chat/registry.ts';
import { command, type Desk, group, mix, part, studio } from './example.ts';

const run = () => Promise.reject(new Error('never run'));
const about = 'What it is';
const long = 'x'.repeat(101);
const withOption = (name: string, schema: z.ZodType) =>
  command({ name: 'odd', summary: 'Odd', options: { [name]: schema }, examples: ['x'], run });
const many = (count: number, from: (index: number) => z.ZodType) =>
  Object.fromEntries(Array.from({ length: count }, (_, index) => [`o${index}`, from(index)]));

describe('what is derived from a schema', () => {
  it.each([
    [text({ about }), { kind: 'string', required: true }],
    [text({ about }).optional(), { kind: 'string', required: false }],
    [text({ about }).default('x'), { kind: 'string', required: false }],
    [text({ about }).nullable(), { kind: 'string', required: true }],
    [z.string().min(2).max(9).meta({ about }), { kind: 'string', least: 2, most: 9 }],
    [typed(Number, { about }), { kind: 'string' }],
    [z.string().optional().meta({ about, free: true }), { kind: 'string', required: false, free: true }],
    [z.number().min(0.5).meta({ about }), { kind: 'number', least: 0.5, most: undefined }],
    [z.number().int().meta({ about }), { kind: 'integer', least: undefined, most: undefined }],
    [whole({ about, least: 1, most: 9 }), { kind: 'integer', least: 1, most: 9 }],
    [choice(['a', 'b'], { about }), { kind: 'choice', choices: ['a', 'b'] }],
    [z.boolean().meta({ about }), { kind: 'boolean' }],
    [z.string().meta({ about, person: true }), { kind: 'person' }],
    [z.string().meta({ about, attachment: true }), { kind: 'attachment' }],
    [text({ about }).optional().meta({ about: 'Outside' }), { about: 'Outside' }],
  ])('case %#', (schema, facts) => {
    const [option] = registry([withOption('odd', schema)]).declarations.get('odd')?.options ?? [];
    expect(option).toMatchObject({ about, ...facts });
  });
});

describe('what cannot be offered is told at start-up, by name', () => {
  const faults: [string, Command<Desk>[], RegExp][] = [
    ['a date', [withOption('day', z.date().meta({ about }))], /\/odd, option day: .*date/],
    ['a union', [withOption('day', z.union([z.string(), z.number()]).meta({ about }))], /\/odd, option day: .*union/],
    ['an array', [withOption('day', z.array(z.string()).meta({ about }))], /\/odd, option day/],
    ['a preprocessed value', [withOption('day', z.preprocess(String, z.string()).meta({ about }))], /\/odd, option day/],
    ['numeric choices', [withOption('day', z.enum({ a: 1 } as never).meta({ about }))], /\/odd, option day/],
    ['no about', [withOption('day', z.string())], /\/odd, option day: it lacks a description/],
    ['a long about', [withOption('day', text({ about: long }))], /\/odd, option day: 101 characters/],
    ['a name with a space', [withOption('a day', text({ about }))], /\/odd, option a day: the name/],
    ['an upper-case name', [withOption('Day', text({ about }))], /\/odd, option Day: the name/],
    ['a long name', [withOption('d'.repeat(33), text({ about }))], /option d+: the name/],
    [
      '26 choices',
      [withOption('day', z.enum(Array.from({ length: 26 }, (_, i) => `c${i}`)).meta({ about }))],
      /\/odd, option day: 26 choices/,
    ],
    ['a long choice', [withOption('day', choice([long], { about }))], /\/odd, option day, choice/],
    ['an empty choice', [withOption('day', choice([''], { about }))], /\/odd, option day: a choice is empty/],
    [
      '26 options',
      [command({ name: 'odd', summary: 'Odd', options: many(26, () => text({ about })), examples: [''], run })],
      /\/odd: 26 options/,
    ],
    [
      'no example',
      [command({ name: 'odd', summary: 'Odd', options: { a: text({ about }) }, examples: [], run })],
      /\/odd: it lacks an example/,
    ],
    ['no summary', [command({ name: 'odd', summary: '', options: {}, examples: [], run })], /\/odd: it lacks a description/],
    ['a command name', [command({ name: 'odd one', summary: 'Odd', options: {}, examples: [], run })], /\/odd one: the name/],
    ['two alike', [mix, mix], /\/mix: declared twice/],
    [
      'options alike',
      [
        command({
          name: 'odd',
          summary: 'Odd',
          options: { a: text({ about }), A: text({ about }) },
          examples: [''],
          run,
        }),
      ],
      /\/odd, option a: declared twice/,
    ],
    ['an empty group', [group({ name: 'odd', summary: 'Odd', commands: {} })], /\/odd: the group/],
    [
      'a part',
      [
        group({
          name: 'odd',
          summary: 'Odd',
          commands: { one: part({ summary: long, options: {}, examples: [], run }) },
        }),
      ],
      /\/odd one: 101 characters/,
    ],
    [
      'too many characters in all',
      [
        command({
          name: 'odd',
          summary: 'Odd',
          options: many(2, () => z.enum(Array.from({ length: 25 }, (_, i) => `${'c'.repeat(90)}${i}`)).meta({ about })),
          examples: [''],
          run,
        }),
      ],
      /\/odd: \d+ characters in all, the most are 8000/,
    ],
    [
      '101 commands',
      Array.from({ length: 101 }, (_, i) => command({ name: `c${i}`, summary: 'C', options: {}, examples: [], run })),
      /101 commands/,
    ],
  ];
  it.each(faults)('%s', (_, commands, says) => {
    expect(() => registry(commands)).toThrow(says);
  });

  it('names all that is wrong at once', () => {
    const options = { a: z.string(), b: text({ about: long }) };
    expect(() => registry([command({ name: 'odd', summary: 'Odd', options, examples: [''], run })])).toThrow(
      /option a: .*\n.*option b: /,
    );
  });
});

it('finds declarations by their paths', () => {
  expect([...studio.declarations.keys()]).toEqual(['mix', 'job start', 'job note', 'job list', 'check', 'shift set', 'help']);
  expect(studio.declarations.get('job start')?.examples[1]).toBe('/job start name:Left hand holder:@dana');
});
