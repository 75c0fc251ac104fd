import {
  ApplicationCommandOptionType,
  type AutocompleteInteraction,
  type ChatInputCommandInteraction,
  type CommandInteractionOption,
} from 'discord.js';
import type { Option } from '../../../chat/option.ts';
import { isRefusal, type Refusal } from '../../../words/refusal.ts';
import { mentionOf } from '../rendering/markup.ts';
import { unknownPerson } from './refusals.ts';

/** A command that somebody asks for, its options written as they would be typed. */
export interface Asked {
  /** The path without the slash. */
  readonly command: string;
  readonly options: Readonly<Record<string, string>>;
}

type Find = (name: string) => Promise<string | null>;

/** Each may cost a question to the platform. */
const MOST_NAMES = 12;

export const pathOf = ({ commandName, options }: ChatInputCommandInteraction | AutocompleteInteraction): string =>
  [commandName, options.getSubcommandGroup(false), options.getSubcommand(false)].filter((word) => word !== null).join(' ');

export function askedBySlash(interaction: ChatInputCommandInteraction): Asked {
  const options = Object.fromEntries(
    leaves(interaction.options.data).flatMap((option) => {
      const typed = typedOf(option);
      return typed === null ? [] : [[option.name, typed]];
    }),
  );
  return { command: pathOf(interaction), options };
}

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

/** The same with people as mentions where they were named; refused where a name leads to nobody, or to more than one. */
export async function withPeople({ command, options }: Asked, declared: readonly Option[], find: Find): Promise<Asked | Refusal> {
  const known = { ...options };
  for (const { name, kind, complete } of declared) {
    const typed = Object.hasOwn(options, name) ? options[name] : undefined;
    if (typed === undefined || (complete !== 'person' && kind !== 'person')) continue;
    const people = await peopleIn(typed, find);
    if (isRefusal(people)) return people;
    if (kind === 'person' && (people.length > 1 || people[0]?.startsWith('<@&'))) return unknownPerson(typed);
    // Nobody at all is for the option itself to refuse.
    if (people.length > 0) known[name] = people.join(', ');
  }
  return { command, options: known };
}

async function peopleIn(typed: string, find: Find): Promise<string[] | Refusal> {
  const found = new Map<string, Promise<string | null>>();
  const mention = async (name: string): Promise<string | undefined> => {
    const [, id = name.replace(/^@/, '').trim()] = /^<@!?(&?\d+)>$/.exec(name) ?? [];
    const written = mentionOf(id);
    if (written !== undefined || id === '') return written;
    if (!found.has(id) && found.size < MOST_NAMES) found.set(id, find(id));
    return mentionOf((await found.get(id)) ?? '');
  };
  /** A name may have blanks in it, even an "and", so the whole of it comes first. */
  const read = async (words: string, [separator, ...finer]: readonly RegExp[]): Promise<string[] | Refusal> => {
    const whole = await mention(words);
    if (whole !== undefined) return [whole];
    return separator === undefined ? unknownPerson(words) : all(words.split(separator), finer);
  };
  const all = async (parts: readonly string[], finer: readonly RegExp[]): Promise<string[] | Refusal> => {
    const people: string[] = [];
    for (const part of parts) {
      const found = await read(part.trim(), finer);
      if (isRefusal(found)) return found;
      people.push(...found);
    }
    return people;
  };
  const pieces = typed.split(/(<@[!&]?\d+>)|[,;\n]/).map((piece = '') => piece.trim().replace(/^and\s+|\s+and$|^and$/gi, ''));
  const people = await all(
    pieces.filter((piece) => piece !== ''),
    [/\s+(?:and|&|\+)\s+/i, /\s+/],
  );
  return isRefusal(people) ? people : [...new Set(people)];
}
