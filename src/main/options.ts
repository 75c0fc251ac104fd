import { resolve } from 'node:path';
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { plainText } from '../chat/plain.ts';
import { parseZone } from '../trade/time/calendar-text.ts';
import { nearest } from '../words/nearest.ts';
import { isRefusal } from '../words/refusal.ts';
import { startOf } from './at.ts';
import { WrongUsage } from './usage.ts';

export interface ChatOptions {
  readonly json: boolean;
  readonly at: string | null;
  readonly zone: string | null;
  readonly dataDir: string;
  readonly configDir: string | null;
}

export interface ServeOptions {
  readonly dataDir: string;
  readonly configDir: string | null;
}

export interface RegisterOptions {
  readonly dataDir: string;
  /** Null for all servers. */
  readonly server: string | null;
  readonly force: boolean;
}

export type Wanted =
  | { verb: 'chat'; options: ChatOptions }
  | { verb: 'serve'; options: ServeOptions }
  | { verb: 'register'; options: RegisterOptions }
  | { verb: 'check'; configDir: string | null }
  | { verb: 'demo' }
  | { verb: 'help' };

const VERBS = ['chat', 'serve', 'register', 'demo', 'check', 'help'];
const FOLDER = { type: 'string' } as const;
const FLAGS = {
  json: { type: 'boolean' },
  at: FOLDER,
  zone: FOLDER,
  data: FOLDER,
  config: FOLDER,
  server: FOLDER,
  force: { type: 'boolean' },
  help: { type: 'boolean' },
} as const;

/** What the environment says, where the arguments say nothing. */
interface Defaults {
  readonly dataDir: string | null;
  readonly configDir: string | null;
  readonly token: string | null;
}

/** What the arguments ask for. Throws `WrongUsage`. */
export function wantedBy(argv: readonly string[], root: string, defaults: Defaults): Wanted {
  const [first] = argv;
  const named = first !== undefined && !first.startsWith('-');
  const verb = named ? first : defaults.token === null || asksForHelp(argv) ? 'chat' : 'serve';
  const args = named ? argv.slice(1) : [...argv];
  if (!VERBS.includes(verb)) {
    const [close] = nearest(verb, VERBS);
    throw new WrongUsage(`There is no "${verb}"; there is ${VERBS.join(', ')}.${close ? ` Did you mean ${close}?` : ''}`);
  }
  const { help, config, server, ...values } = flagsOf(args, verb);
  for (const [name, folder] of Object.entries({ config, data: values.data }))
    if (folder?.trim() === '') throw new WrongUsage(`--${name} takes a folder, got nothing. For example: --${name} ./my-${name}`);
  const configDir = config === undefined ? defaults.configDir : resolve(config);
  if (help || verb === 'help') return { verb: 'help' };
  if (verb === 'check') return { verb, configDir };
  if (verb === 'demo') return { verb };
  if (values.at !== undefined && startOf(values.at, 'Etc/UTC') === null)
    throw new WrongUsage(`--at takes a date and a time. Got "${values.at}". For example: --at 2026-03-02T08:00`);
  const dataDir = values.data === undefined ? (defaults.dataDir ?? resolve(root, '.data')) : resolve(values.data);
  if (verb === 'serve') return { verb, options: { dataDir, configDir } };
  if (verb === 'register') {
    if (server !== undefined && !/^\d{5,20}$/.test(server))
      throw new WrongUsage(
        `--server takes a server's id, a long number. Got "${server}". For example: --server 123456789012345678`,
      );
    return { verb, options: { dataDir, server: server ?? null, force: values.force ?? false } };
  }
  return {
    verb: 'chat',
    options: { json: values.json ?? false, at: values.at ?? null, zone: zoneOf(values.zone), dataDir, configDir },
  };
}

const asksForHelp = (argv: readonly string[]) => argv.length === 1 && argv[0] === '--help';

function flagsOf(args: string[], verb: string) {
  const taken: Record<string, readonly (keyof typeof FLAGS)[]> = {
    chat: ['json', 'at', 'zone', 'data', 'config', 'help'],
    serve: ['data', 'config', 'help'],
    register: ['server', 'force', 'data', 'help'],
    check: ['config', 'help'],
  };
  const flags = (taken[verb] ?? ['help']).map((name) => [name, FLAGS[name]]);
  const options = Object.fromEntries(flags) as NonNullable<ParseArgsConfig['options']>;
  try {
    const { values, tokens } = parseArgs({ args, options, strict: true, allowPositionals: false, tokens: true });
    const given = tokens.flatMap((token) => (token.kind === 'option' ? [token.name] : []));
    const twice = given.find((name, index) => given.indexOf(name) < index);
    if (twice !== undefined) throw new WrongUsage(`--${twice} is given twice; give it once.`);
    return values as { json?: boolean; force?: boolean; help?: boolean } & Partial<
      Record<'at' | 'zone' | 'data' | 'config' | 'server', string>
    >;
  } catch (error) {
    throw new WrongUsage((error as Error).message);
  }
}

function zoneOf(typed: string | undefined): string | null {
  if (typed === undefined) return null;
  const zone = parseZone(typed);
  if (!isRefusal(zone)) return zone;
  const message = plainText(zone.message, { zone: 'Etc/UTC', now: 0 });
  const more = message.endsWith('?') ? '' : '.';
  throw new WrongUsage(`--zone: ${message}${more} For example: --zone ${zone.example ?? 'Europe/Berlin'}`);
}
