import type {
  APIApplicationCommandBasicOption,
  APIApplicationCommandSubcommandOption,
  RESTPostAPIChatInputApplicationCommandsJSONBody,
} from 'discord-api-types/v10';
import type { Declaration, Entry } from './declaration.ts';
import { LIMITS } from './limits.ts';
import type { Option } from './option.ts';
import type { Registry } from './registry.ts';

/** The permission bit "manage server", as the platform wants it: a number in a string. */
const MANAGE_SERVER = String(1 << 5);

/** The commands as the chat platform is told of them. */
export function registration<Desk>({ entries }: Registry<Desk>): RESTPostAPIChatInputApplicationCommandsJSONBody[] {
  return entries.map(commandOf);
}

function commandOf<Desk>(entry: Entry<Desk>): RESTPostAPIChatInputApplicationCommandsJSONBody {
  // The platform restricts a command as a whole only. A group that anybody may use in part stays open, and the parts
  // that need it are checked when they run.
  const restricted = entry.declarations.every(({ manage }) => manage);
  return {
    type: 1,
    name: entry.name,
    description: entry.summary,
    options: entry.grouped ? entry.declarations.map(partOf) : optionsOf(entry.declarations[0]?.options ?? []),
    ...(restricted ? { default_member_permissions: MANAGE_SERVER } : {}),
    contexts: [0],
    integration_types: [0],
  };
}

function partOf<Desk>({ part, summary, options }: Declaration<Desk>): APIApplicationCommandSubcommandOption {
  return { type: 1, name: part, description: summary, options: optionsOf(options) };
}

/** The platform wants the required options first. Otherwise they stay as declared. */
function optionsOf(options: readonly Option[]): APIApplicationCommandBasicOption[] {
  return [...options.filter(({ required }) => required), ...options.filter(({ required }) => !required)].map(optionOf);
}

function optionOf(option: Option): APIApplicationCommandBasicOption {
  const { name, least, most } = option;
  const base = { name, description: option.about, required: option.required };
  const autocomplete = option.complete === undefined ? {} : { autocomplete: true as const };
  const bounds = {
    ...(least === undefined ? {} : { min_value: least }),
    ...(most === undefined ? {} : { max_value: most }),
  };
  switch (option.kind) {
    case 'choice':
      return { ...base, type: 3, choices: option.choices.map((value) => ({ name: value, value })) };
    case 'boolean':
      return { ...base, type: 5 };
    case 'person':
      return { ...base, type: 6 };
    case 'attachment':
      return { ...base, type: 11 };
    case 'integer':
      return { ...base, type: 4, ...bounds, ...autocomplete };
    case 'number':
      return { ...base, type: 10, ...bounds, ...autocomplete };
    case 'string':
      return {
        ...base,
        type: 3,
        ...(least === undefined ? {} : { min_length: Math.min(least, LIMITS.value) }),
        max_length: Math.min(Math.max(most ?? LIMITS.value, 1), LIMITS.value),
        ...autocomplete,
      };
  }
}
