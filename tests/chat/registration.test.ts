import { ApplicationCommandOptionType as Kind } from 'discord-api-types/v10';
import { describe, expect, it } from 'vitest';
import { registration } from '../../src/chat/registration.ts';
import { studio } from './example.ts';

const commands = registration(studio);
const of = (name: string) => commands.find((command) => command.name === name);

interface Loose {
  name: string;
  description: string;
  type?: number;
  required?: boolean;
  autocomplete?: boolean;
  max_length?: number;
  options?: Loose[];
  choices?: { name: string; value: string | number }[];
}

/** The platform's limits, checked on what would be sent, apart from the check that the program makes itself. */
function breaches(node: Loose, depth = 0): string[] {
  const options = node.options ?? [];
  const firstOptional = options.findIndex(({ required }) => !required);
  const rules: [boolean, string][] = [
    [/^[-_'\p{L}\p{N}]{1,32}$/u.test(node.name) && node.name === node.name.toLowerCase(), 'name'],
    [node.description.length >= 1 && node.description.length <= 100, 'description'],
    [options.length <= 25, 'options'],
    [new Set(options.map(({ name }) => name)).size === options.length, 'unique'],
    [firstOptional < 0 || options.slice(firstOptional).every(({ required }) => !required), 'order'],
    [(node.choices ?? []).length <= 25, 'choices'],
    [(node.choices ?? []).every(({ name }) => name.length >= 1 && name.length <= 100), 'choice'],
    [!(node.autocomplete && node.choices), 'autocomplete beside choices'],
    [node.max_length === undefined || node.max_length <= 6000, 'length'],
    [depth === 0 || [1, 3, 4, 5, 6, 10, 11].includes(node.type ?? 0), 'type'],
    [depth > 0 || JSON.stringify(node).length <= 8000, 'size'],
  ];
  const own = rules.filter(([kept]) => !kept).map(([, rule]) => `${node.name}: ${rule}`);
  return [...own, ...options.flatMap((option) => breaches(option, depth + 1))];
}

describe('registration', () => {
  it('keeps to the limits of the platform', () => {
    expect(commands.flatMap((command) => breaches(command as Loose))).toEqual([]);
    expect(new Set(commands.map(({ name }) => name)).size).toBe(commands.length);
  });

  it('gives every option its type, the required ones first', () => {
    expect(of('mix')?.options).toEqual([
      {
        type: Kind.String,
        name: 'material',
        description: 'What is mixed',
        required: true,
        autocomplete: true,
        max_length: 6000,
      },
      { type: Kind.String, name: 'amount', description: 'How much of it', required: true, max_length: 6000 },
      {
        type: Kind.Integer,
        name: 'scale',
        description: 'Digits that the scale shows',
        required: false,
        min_value: 0,
        max_value: 3,
      },
      {
        type: Kind.String,
        name: 'by',
        description: 'What is measured',
        required: false,
        choices: [
          { name: 'weight', value: 'weight' },
          { name: 'volume', value: 'volume' },
        ],
      },
      { type: Kind.Boolean, name: 'brief', description: 'Numbers only', required: false },
    ]);
  });

  it('makes groups out of subcommands', () => {
    expect(of('job')?.options).toMatchObject([
      { type: Kind.Subcommand, name: 'start', options: [{}, { type: Kind.User }, { type: Kind.Attachment }] },
      { type: Kind.Subcommand, name: 'note' },
      { type: Kind.Subcommand, name: 'list', options: [] },
    ]);
  });

  it('restricts a group only where all its parts are restricted, and everything to servers', () => {
    expect(of('shift')?.default_member_permissions).toBe('32');
    expect(of('job')).not.toHaveProperty('default_member_permissions');
    for (const command of commands) expect(command).toMatchObject({ contexts: [0], integration_types: [0] });
  });
});
