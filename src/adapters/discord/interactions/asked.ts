import {
  ApplicationCommandOptionType,
  type AutocompleteInteraction,
  type ChatInputCommandInteraction,
  type CommandInteractionOption,
} from 'discord.js';
import { writeLine } from '../../../chat/line.ts';
import type { Option } from '../../../chat/option.ts';
import type { Refusal } from '../../../words/refusal.ts';
import { mentionOf } from '../rendering/markup.ts';
import { unknownPerson } from './refusals.ts';

/** A command that somebody asks for, its options written as they would be typed. */
export interface Asked {
  /** The path without the slash. */
  readonly command: string;
  readonly options: Readonly<Record<string, string>>;
  /** Somebody typed it, and no longer sees it: a command, or a form that has closed. */
  readonly typed?: boolean;
}

type Find = (name: string) => Promise<string | null>;

/** Each may cost a question to the platform. */
const MOST_NAMES = 12;

export const pathOf = ({ commandName, options }: ChatInputCommandInteraction | AutocompleteInteraction): string =>
  [commandName, options.getSubcommandGroup(false), options.getSubcommand(false)].filter((word) => word !== null).join(' ');

export function askedBySlash(interaction: ChatInputCommandInteraction): Asked {
  return { command: pathOf(interaction), options: optionsOf(interaction), typed: true };
}

/** The options as far as they are filled in, each as it would be typed. */
export const optionsOf = ({ options }: ChatInputCommandInteraction | AutocompleteInteraction): Record<string, string> =>
  Object.fromEntries(
    leaves(options.data).flatMap((option) => {
      const typed = typedOf(option);
      return typed === null ? [] : [[option.name, typed]];
    }),
  );

/** The options themselves, within however many subcommands. */
const leaves = (options: readonly CommandInteractionOption[]): CommandInteractionOption[] =>
  options.flatMap((option) => (option.options === undefined ? [option] : leaves(option.options)));

function typedOf({ type, value, attachment }: CommandInteractionOption): string | null {
  if (type === ApplicationCommandOptionType.Subcommand || type === ApplicationCommandOptionType.SubcommandGroup) return null;
  // The address comes from the platform; whoever fetches it looks all the same where it leads.
  if (type === ApplicationCommandOptionType.Attachment) return attachment?.url ?? null;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return value === undefined ? null : String(value);
}

/** Whether a file must be fetched for it, which takes longer than anything else. */
export const carriesFile = ({ options }: Pick<Asked, 'options'>, declared: readonly Option[]): boolean =>
  declared.some(({ name, kind }) => kind === 'attachment' && Object.hasOwn(options, name));

/** The line that was typed, with people as mentions and without files, which cannot be; null where no option was typed. */
export function typedLine({ command, options, typed }: Asked, declared: readonly Option[]): string | null {
  const kindOf = (name: string) => declared.find((option) => option.name === name)?.kind;
  const written = Object.entries(options).flatMap(([name, value]) => {
    const kind = kindOf(name);
    return kind === 'attachment' ? [] : [[name, kind === 'person' ? (mentionOf(value) ?? value) : value] as const];
  });
  return typed && written.length > 0 ? writeLine(command, Object.fromEntries(written)) : null;
}

interface Around {
  readonly find: Find;
  /** Whether somebody who is given by their id can be rung in this server. */
  readonly here: (id: string) => Promise<boolean>;
  /** What people of the server are called, whoever is the likeliest to be meant first. */
  readonly names: () => Iterable<string>;
}

/** The same with people as mentions where they were named; refused where a name leads to nobody, or to more than one. */
export async function withPeople(
  asked: Asked,
  declared: readonly Option[],
  { find, here, names }: Around,
): Promise<Asked | Refusal> {
  const { command, options } = asked;
  const known = { ...options };
  for (const { name, kind, complete } of declared) {
    const typed = Object.hasOwn(options, name) ? options[name] : undefined;
    if (typed === undefined || (complete !== 'person' && kind !== 'person')) continue;
    const people = await peopleIn(typed, find, here);
    if ('unknown' in people || (kind === 'person' && (people.length > 1 || people[0]?.startsWith('<@&')))) {
      const instead = { command, options: { ...options, [name]: await anyOf(names(), find) }, typed: true };
      return unknownPerson('unknown' in people ? people.unknown : typed, typedLine(instead, declared));
    }
    // Nobody at all is for the option itself to refuse.
    if (people.length > 0) known[name] = people.join(', ');
  }
  return { command, options: known };
}

/** Somebody's name that would do just as it is; "kim" where nobody has any. */
async function anyOf(names: Iterable<string>, find: Find): Promise<string> {
  for (const name of names) {
    // Whatever else could be read into it, a name without these is looked up whole.
    if (!/[,;\n<>@]|^and\s|\sand$|^&?\d+$/i.test(name) && (await find(name)) !== null) return name;
  }
  return 'kim';
}

/** A name that leads to nobody, or to more than one. */
interface Unknown {
  readonly unknown: string;
}

async function peopleIn(typed: string, find: Find, here: Around['here']): Promise<string[] | Unknown> {
  const found = new Map<string, Promise<string | null>>();
  const there = new Map<string, Promise<boolean>>();
  const mention = async (name: string): Promise<string | undefined> => {
    const [, id = name.replace(/^@/, '').trim()] = /^<@!?(&?\d+)>$/.exec(name) ?? [];
    const written = mentionOf(id);
    if (written !== undefined) {
      if (!there.has(id)) there.set(id, here(id));
      return (await there.get(id)) === false ? undefined : written;
    }
    if (id === '') return undefined;
    if (!found.has(id) && found.size < MOST_NAMES) found.set(id, find(id));
    return mentionOf((await found.get(id)) ?? '');
  };
  /** A name may have blanks in it, even an "and", so the whole of it comes first. */
  const read = async (words: string, [separator, ...finer]: readonly RegExp[]): Promise<string[] | Unknown> => {
    const whole = await mention(words);
    if (whole !== undefined) return [whole];
    return separator === undefined ? { unknown: words } : all(words.split(separator), finer);
  };
  const all = async (parts: readonly string[], finer: readonly RegExp[]): Promise<string[] | Unknown> => {
    const people: string[] = [];
    for (const part of parts) {
      const found = await read(part.trim(), finer);
      if ('unknown' in found) return found;
      people.push(...found);
    }
    return people;
  };
  const pieces = typed.split(/(<@[!&]?\d+>)|[,;\n]/).map((piece = '') => piece.trim().replace(/^and\s+|\s+and$|^and$/gi, ''));
  const people = await all(
    pieces.filter((piece) => piece !== ''),
    [/\s+(?:and|&|\+)\s+/i, /\s+/],
  );
  return 'unknown' in people ? people : [...new Set(people)];
}
