import { Client, type ClientOptions, GatewayIntentBits, Options, REST } from 'discord.js';
import { rejectsOnRateLimit } from './sending/faults.ts';

/** Which shards of how many this process holds. */
export type Shards = 'auto' | { readonly ids: readonly number[]; readonly of: number };

export interface ClientParts {
  readonly shards: Shards;
  /** Another address of the platform's interface; null for the platform itself. */
  readonly api: string | null;
}

/**
 * The platform's client with as little as it can do with: servers and their channels, and no messages, members or presences.
 * An unavailable server must not hold back what people ask for elsewhere, so it is hardly waited for.
 */
export function clientFor({ shards, api }: ClientParts): Client {
  const options: ClientOptions = {
    intents: [GatewayIntentBits.Guilds],
    waitGuildTimeout: 200,
    makeCache: Options.cacheWithLimits({
      ...Options.DefaultMakeCacheSettings,
      MessageManager: 0,
      GuildMemberManager: { maxSize: 200, keepOverLimit: (member) => member.id === member.client.user.id },
      UserManager: { maxSize: 200, keepOverLimit: (user) => user.id === user.client.user.id },
    }),
    allowedMentions: { parse: [] },
    rest: { rejectOnRateLimit: rejectsOnRateLimit, ...(api === null ? {} : { api }) },
    ...(shards === 'auto' ? { shards } : { shards: [...shards.ids], shardCount: shards.of }),
  };
  return new Client(options);
}

/** Only asks and tells, without a connection. */
export const restFor = ({ token, api }: { token: string; api: string | null }): REST =>
  new REST(api === null ? {} : { api }).setToken(token);

/** Whether a server belongs to one of these shards, by the platform's own rule. */
export const holds = (ids: readonly number[], of: number, server: string): boolean =>
  ids.includes(Number((BigInt(server) >> 22n) % BigInt(of)));
