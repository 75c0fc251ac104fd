import { resolve } from 'node:path';
import type { Shards } from '../adapters/discord/client.ts';
import { WrongUsage } from './usage.ts';

/** What the environment says of the chat platform and the service. */
export interface Settings {
  readonly token: string | null;
  readonly dataDir: string | null;
  readonly configDir: string | null;
  readonly shards: Shards;
  /** For health and metrics; null for none. */
  readonly port: number | null;
  readonly logLevel: string;
  readonly api: string | null;
}

/** Throws `WrongUsage` where a setting cannot be understood, naming it. The token itself is never named. */
export function settingsIn(env: Readonly<Record<string, string | undefined>>): Settings {
  const given = (value: string | undefined) => (value === undefined || value.trim() === '' ? null : value.trim());
  const data = given(env['COATBELL_DATA']);
  const config = given(env['COATBELL_CONFIG']);
  return {
    token: tokenOf(given(env['DISCORD_TOKEN'])),
    dataDir: data === null ? null : resolve(data),
    configDir: config === null ? null : resolve(config),
    shards: shardsOf(given(env['COATBELL_SHARDS'])),
    port: portOf(given(env['COATBELL_PORT'])),
    logLevel: given(env['COATBELL_LOG']) ?? 'info',
    api: addressOf(given(env['DISCORD_API'])),
  };
}

function tokenOf(typed: string | null): string | null {
  const token = typed?.replace(/^Bot\s+/i, '') ?? null;
  if (token !== null && /[^\x21-\x7e]/.test(token))
    throw new WrongUsage('DISCORD_TOKEN has a blank, a line break or another odd character in it. Copy the token once more.');
  return token;
}

function addressOf(typed: string | null): string | null {
  if (typed === null || (URL.canParse(typed) && /^https?:$/.test(new URL(typed).protocol))) return typed;
  throw new WrongUsage(`DISCORD_API takes an address. Got "${typed}". For example: DISCORD_API=http://127.0.0.1:8080/api`);
}

function portOf(typed: string | null): number | null {
  if (typed === null) return null;
  const port = Number(typed);
  if (/^\d+$/.test(typed) && port >= 0 && port <= 65_535) return port;
  throw new WrongUsage(`COATBELL_PORT takes a port from 0 to 65535. Got "${typed}". For example: COATBELL_PORT=9464`);
}

const MOST_SHARDS = 1024;

function shardsOf(typed: string | null): Shards {
  if (typed === null) return { ids: [0], of: 1 };
  if (typed.toLowerCase() === 'auto') return 'auto';
  const [, list, count] = /^(?:([\d,\s]+)\/)?\s*(\d+)$/.exec(typed) ?? [];
  const of = Number(count);
  const ids =
    list === undefined ? [...Array(Number.isInteger(of) && of <= MOST_SHARDS ? of : 0).keys()] : list.split(',').map(Number);
  if (of >= 1 && of <= MOST_SHARDS && new Set(ids).size === ids.length && ids.every((id) => id >= 0 && id < of))
    return { ids, of };
  throw new WrongUsage(
    `COATBELL_SHARDS takes auto, a number of shards, or some of them. Got "${typed}". For example: COATBELL_SHARDS=0,1/4`,
  );
}
