import type { APIApplicationCommand, APIUser, Locale } from 'discord-api-types/v10';
import type { Posted } from './posted.ts';
import { unknownChannel, unknownMessage, unknownServer } from './refused.ts';
import { olderSnowflake } from './snowflakes.ts';
import { user } from './users.ts';

export interface Person {
  readonly user: APIUser;
  /** Permission bits in every channel. */
  permissions: bigint;
  nick: string | null;
  locale: `${Locale}`;
  /** Whether direct messages of the bot arrive. */
  acceptsDirect: boolean;
  /** Where they are a member; everywhere if it is left out. */
  servers: readonly Server[] | null;
}

export interface Server {
  readonly id: string;
  name: string;
  locale: `${Locale}`;
  /** The bot is in it. */
  joined: boolean;
  /** In an outage: announced at READY, and no GUILD_CREATE follows. */
  unavailable: boolean;
}

/** A channel, a thread or a direct conversation. */
export interface Room {
  readonly id: string;
  readonly name: string;
  /** A forum holds posts, which are threads, and no messages of its own. */
  readonly kind: 'channel' | 'forum' | 'thread' | 'direct';
  readonly server: Server | null;
  readonly parent: Room | null;
  readonly recipient: Person | null;
  /** Permission bits of the bot here. */
  botMay: bigint;
  /** Oldest first, those for one person's eyes included. */
  readonly messages: Posted[];
}

/** What there is: servers, people, channels and what is said there. It changes by itself in no way. */
export class World {
  readonly applicationId = olderSnowflake();
  readonly bot: APIUser = { ...user(olderSnowflake(), 'coatbell'), bot: true };
  readonly servers: Server[] = [];
  readonly people: Person[] = [];
  readonly rooms = new Map<string, Room>();
  /** By scope: `global`, or a server's id. */
  readonly commands = new Map<string, APIApplicationCommand[]>();

  /** A server that the bot is in. @throws Refused 10004 */
  server(id: string): Server {
    const server = this.servers.find((one) => one.id === id);
    if (!server?.joined) throw unknownServer();
    return server;
  }

  /** @throws Refused 10003 */
  room(id: string): Room {
    const room = this.rooms.get(id);
    if (room === undefined || (room.server !== null && !room.server.joined)) throw unknownChannel();
    return room;
  }

  /** @throws Refused 10008 */
  message(room: Room, id: string): Posted {
    const posted = room.messages.find((one) => one.id === id && !one.deleted);
    if (posted === undefined) throw unknownMessage();
    return posted;
  }

  roomsOf(server: Server): Room[] {
    return [...this.rooms.values()].filter((room) => room.server === server);
  }

  membersOf(server: Server): Person[] {
    return this.people.filter(({ servers }) => servers === null || servers.includes(server));
  }
}
