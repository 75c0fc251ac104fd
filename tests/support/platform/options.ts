import type {
  APIApplicationCommand,
  APIApplicationCommandBasicOption,
  APIApplicationCommandInteractionDataBasicOption,
  APIAttachment,
  APIInteractionDataResolved,
} from 'discord-api-types/v10';
import { memberOf } from './fixtures.ts';
import { isRecord } from './pieces.ts';
import { snowflake } from './snowflakes.ts';
import type { Person } from './world.ts';

/** A file that somebody gives with a command. */
export interface Upload {
  readonly filename: string;
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** What somebody fills in. Its type on the wire comes from the registration. */
export type OptionValue = string | number | boolean | Person | Upload;
export type OptionValues = Readonly<Record<string, OptionValue>>;

/** The registered options of a command or of its subcommand. @throws when there is none of that name */
export function declaredOptions(
  command: APIApplicationCommand,
  subcommand: string | undefined,
): APIApplicationCommandBasicOption[] {
  const all = command.options ?? [];
  const parts = all.filter(({ type }) => type === 1);
  if (subcommand === undefined) {
    if (parts.length > 0) throw new Error(`/${command.name} needs one of: ${parts.map(({ name }) => name).join(', ')}`);
    return all as APIApplicationCommandBasicOption[];
  }
  const part = parts.find(({ name }) => name === subcommand);
  if (part === undefined) throw new Error(`/${command.name} has no subcommand ${subcommand}`);
  return 'options' in part ? ((part.options ?? []) as APIApplicationCommandBasicOption[]) : [];
}

/** Fills options as the platform's own client does: only what is declared, within bounds. `unchecked` lets anything through. */
export function fillOptions(
  declared: readonly APIApplicationCommandBasicOption[],
  values: OptionValues,
  store: (upload: Upload) => APIAttachment,
  unchecked: boolean,
): { options: APIApplicationCommandInteractionDataBasicOption[]; resolved: APIInteractionDataResolved } {
  const resolved: APIInteractionDataResolved = {};
  for (const { name, required } of declared)
    if (required && values[name] === undefined && !unchecked) throw new Error(`the option ${name} is required`);
  const options = Object.entries(values).map(([name, value]) => {
    const option = declared.find((one) => one.name === name);
    if (option === undefined) throw new Error(`there is no option ${name}, only ${declared.map((one) => one.name).join(', ')}`);
    const wire = wireOf(option, value, store, resolved);
    if (!unchecked) checkBounds(option, wire);
    return { name, type: option.type, value: wire } as APIApplicationCommandInteractionDataBasicOption;
  });
  return { options, resolved };
}

function wireOf(
  option: APIApplicationCommandBasicOption,
  value: OptionValue,
  store: (upload: Upload) => APIAttachment,
  resolved: APIInteractionDataResolved,
): string | number | boolean {
  const wrong = () => new Error(`the option ${option.name} of type ${option.type} cannot be filled with ${typeof value}`);
  switch (option.type) {
    case 6: {
      if (!isRecord(value) || !('user' in value)) throw wrong();
      const person = value as unknown as Person;
      const { user: _, ...member } = memberOf(person);
      resolved.users = { ...resolved.users, [person.user.id]: person.user };
      resolved.members = { ...resolved.members, [person.user.id]: { ...member, permissions: String(person.permissions) } };
      return person.user.id;
    }
    case 11: {
      if (!isRecord(value) || !('bytes' in value)) throw wrong();
      const attachment = store(value as unknown as Upload);
      resolved.attachments = { ...resolved.attachments, [attachment.id]: attachment };
      return attachment.id;
    }
    case 3:
      if (typeof value !== 'string') throw wrong();
      return value;
    case 4:
    case 10:
      if (typeof value !== 'number' || (option.type === 4 && !Number.isInteger(value))) throw wrong();
      return value;
    case 5:
      if (typeof value !== 'boolean') throw wrong();
      return value;
    default:
      throw new Error(`options of type ${option.type} cannot be played`);
  }
}

function checkBounds(option: APIApplicationCommandBasicOption, value: string | number | boolean): void {
  const outside = new Error(`${String(value)} is outside what the option ${option.name} allows`);
  if ('choices' in option && option.choices !== undefined && option.choices.length > 0)
    if (!option.choices.some((choice) => choice.value === value)) throw outside;
  if ('min_value' in option && option.min_value !== undefined && Number(value) < option.min_value) throw outside;
  if ('max_value' in option && option.max_value !== undefined && Number(value) > option.max_value) throw outside;
  if ('min_length' in option && option.min_length !== undefined && String(value).length < option.min_length) throw outside;
  if ('max_length' in option && option.max_length !== undefined && String(value).length > option.max_length) throw outside;
}

/** How long the address of a file holds. */
const ADDRESS_SECONDS = 24 * 60 * 60;

/**
 * Files that people gave, so that the bot can fetch them from the addresses in the payload. An address says until when it
 * holds (`ex`), in seconds since 1970 as hexadecimal digits, beside when it was made (`is`) and a signature (`hm`).
 */
export class Uploads {
  readonly stored = new Map<string, Upload>();
  /** By how much later than now the addresses take it to be. */
  aheadSeconds = 0;
  readonly #url: () => string;

  constructor(url: () => string) {
    this.#url = url;
  }

  store(upload: Upload): APIAttachment {
    const id = snowflake();
    this.stored.set(id, upload);
    const made = this.#seconds;
    const signed = `ex=${(made + ADDRESS_SECONDS).toString(16)}&is=${made.toString(16)}&hm=${'0'.repeat(64)}&`;
    const url = `${this.#url()}/${id}/${encodeURIComponent(upload.filename)}?${signed}`;
    const { filename, type, bytes } = upload;
    return { id, filename, size: bytes.length, url, proxy_url: url, content_type: type };
  }

  /** The file at an address, while that holds. */
  at(address: URL): Upload | 'over' | undefined {
    const found = this.stored.get(address.pathname.split('/')[2] ?? '');
    if (found === undefined) return undefined;
    return Number.parseInt(address.searchParams.get('ex') ?? '0', 16) > this.#seconds ? found : 'over';
  }

  get #seconds(): number {
    return Math.floor(Date.now() / 1000) + this.aheadSeconds;
  }
}
