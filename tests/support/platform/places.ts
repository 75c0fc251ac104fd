import { guild, textChannel, threadChannel, USUAL_PERMISSIONS } from './fixtures.ts';
import type { Gateway } from './gateway.ts';
import type { Posted } from './posted.ts';
import { olderSnowflake, snowflake } from './snowflakes.ts';
import { user } from './users.ts';
import { type Person, type Room, type Server, World } from './world.ts';

/** Servers, channels and people: how they come about, change and go, and how the bot hears of it. */
export abstract class Places {
  readonly world = new World();
  abstract readonly gateway: Gateway;

  /** A server, months old. With `shard` its id falls on that shard. Before `start`, or announced at once with GUILD_CREATE. */
  server(
    name: string,
    more: Partial<Pick<Server, 'joined' | 'unavailable' | 'locale'>> & { shard?: readonly [number, number] } = {},
  ): Server {
    const { shard, ...rest } = more;
    const server: Server = { id: olderSnowflake(shard), name, locale: 'en-US', joined: true, unavailable: false, ...rest };
    this.world.servers.push(server);
    if (server.joined && !server.unavailable) this.gateway.tell('GUILD_CREATE', guild(server, this.world), server);
    return server;
  }

  /** A text channel of a server; bots that are there hear of it. */
  channel(server: Server, name: string): Room {
    const room = this.#room(name, 'channel', server, null);
    if (server.joined) this.gateway.tell('CHANNEL_CREATE', textChannel(room, this.world), server);
    return room;
  }

  /** A forum of a server. */
  forum(server: Server, name: string): Room {
    const room = this.#room(name, 'forum', server, null);
    if (server.joined) this.gateway.tell('CHANNEL_CREATE', textChannel(room, this.world), server);
    return room;
  }

  /** A public thread in a channel; bots that are there hear of it. */
  thread(parent: Room, name: string): Room {
    const room = this.#room(name, 'thread', parent.server, parent);
    if (parent.server?.joined) this.gateway.tell('THREAD_CREATE', { ...threadChannel(room), newly_created: true }, parent.server);
    return room;
  }

  #room(name: string, kind: 'channel' | 'forum' | 'thread', server: Server | null, parent: Room | null): Room {
    const room: Room = { id: snowflake(), name, kind, server, parent, recipient: null, botMay: USUAL_PERMISSIONS, messages: [] };
    this.world.rooms.set(room.id, room);
    return room;
  }

  /** Somebody. A member of every server, unless `servers` says of which. */
  person(name: string, more: Partial<Omit<Person, 'user'>> & { id?: string } = {}): Person {
    const { id = snowflake(), ...rest } = more;
    const usual = { permissions: USUAL_PERMISSIONS, nick: null, locale: 'en-US', acceptsDirect: true, servers: null } as const;
    const person: Person = { ...usual, ...rest, user: user(id, name) };
    this.world.people.push(person);
    return person;
  }

  /** The direct conversation with somebody, once the bot has opened one. */
  direct(person: Person): Room | undefined {
    return [...this.world.rooms.values()].find(({ recipient }) => recipient === person);
  }

  /** What stands in a channel now, oldest first, without what only one person sees. */
  messagesIn(room: Room): readonly Posted[] {
    return room.messages.filter(({ deleted, aside }) => !deleted && !aside);
  }

  /** The bot is invited. */
  join(server: Server): void {
    server.joined = true;
    this.comeBack(server);
  }

  /** The bot is thrown out. */
  kick(server: Server): void {
    server.joined = false;
    this.gateway.tell('GUILD_DELETE', { id: server.id }, server);
  }

  /** The server falls into an outage. */
  fallAway(server: Server): void {
    server.unavailable = true;
    this.gateway.tell('GUILD_DELETE', { id: server.id, unavailable: true }, server);
  }

  /** A server that was unavailable comes, or comes back. */
  comeBack(server: Server): void {
    server.unavailable = false;
    this.gateway.tell('GUILD_CREATE', guild(server, this.world), server);
  }

  /** The channel is deleted with everything in it. */
  deleteChannel(room: Room): void {
    const { id, server } = room;
    this.world.rooms.delete(id);
    if (server === null) return;
    if (room.kind === 'channel')
      this.gateway.tell('CHANNEL_DELETE', { ...textChannel(room, this.world), guild_id: server.id }, server);
    else this.gateway.tell('THREAD_DELETE', { id, guild_id: server.id, parent_id: room.parent?.id ?? id, type: 11 }, server);
  }

  /** Takes permission bits (`PermissionFlagsBits.SendMessages | …`) from the bot; without ViewChannel it is 50001, else 50013. */
  deny(room: Room, bits: bigint): void {
    this.#permit(room, room.botMay & ~bits);
  }

  allow(room: Room, bits: bigint): void {
    this.#permit(room, room.botMay | bits);
  }

  #permit(room: Room, bits: bigint): void {
    room.botMay = bits;
    if (room.kind === 'channel' && room.server !== null)
      this.gateway.tell('CHANNEL_UPDATE', textChannel(room, this.world), room.server);
  }
}
