import { type Client, Events, GatewayDispatchEvents, type Interaction, Routes } from 'discord.js';
import type { Announce } from '../../bench/bench.ts';
import type { Clock, Turns } from '../../bench/ports.ts';
import type { Studios } from '../../bench/studios.ts';
import type { Office } from '../../desk/office.ts';
import { holds } from './client.ts';
import { attachedFiles } from './interactions/attachment.ts';
import { Interactions } from './interactions/interactions.ts';
import { People } from './interactions/people.ts';
import type { Memory } from './memory.ts';
import type { Observer } from './observer.ts';
import { Boards } from './sending/board.ts';
import type { ShownBoard } from './sending/board-pictures.ts';
import { Outbox } from './sending/outbox.ts';
import { Records } from './sending/records.ts';
import { announcer } from './sending/ring.ts';
import type { Sending } from './sending/sender.ts';
import { Servers } from './sending/servers.ts';

export interface BotParts {
  readonly client: Client;
  readonly token: string;
  readonly memory: Memory;
  readonly clock: Clock;
  readonly observer: Observer;
  /** What the live boards show. */
  readonly board: ShownBoard;
  readonly boardEveryMilliseconds?: number;
  /** Instead of the platform's own attachment hosts; for tests. */
  readonly attachmentOrigins?: readonly string[];
}

/** What the benches need of the platform. */
export interface Outgoing {
  readonly turns: Turns;
  readonly announce: Announce;
  readonly changed: (house: string, channel: string) => void;
  readonly forgot: (house: string) => Promise<void>;
}

/** The benches, once they stand. */
export interface Inside {
  readonly studios: Studios;
  readonly office: Office;
}

/** What is under way at the end gets this long, in each of three steps. */
const MOST_STOPPING_MS = 5000;
/** How long a start waits for the gateway before what is due is rung all the same: pings do not need it. */
const RING_WITHOUT_GATEWAY_MS = 20_000;

/**
 * The bot on the chat platform. The benches need it to ring, and it needs the benches to answer: it is made first, `outgoing`
 * is handed to the benches, and they are handed to `start`.
 */
export class Bot {
  readonly outgoing: Outgoing;
  readonly #parts: BotParts;
  readonly #outbox: Outbox;
  readonly #records: Records;
  readonly #people: People;
  readonly #sending: Sending;
  readonly #hear = (interaction: Interaction): void => void this.#interactions?.handle(interaction);
  #interactions: Interactions | null = null;
  #boards: Boards | null = null;
  #servers: Servers | null = null;
  #rung = false;
  #inside: Inside | null = null;
  #withoutGateway: NodeJS.Timeout | undefined;

  constructor(parts: BotParts) {
    this.#parts = parts;
    const { client, token, memory, observer } = parts;
    client.rest.setToken(token);
    this.#outbox = new Outbox({ observer });
    this.#records = new Records(memory);
    this.#people = new People({
      rest: client.rest,
      me: () => client.user?.id,
      role: (server, id) => id !== server && rolesIn(client, server)?.has(id),
      trouble: (where, error) => observer.trouble(where, error),
    });
    this.#sending = {
      rest: client.rest,
      records: this.#records,
      room: () => this.#outbox.room(),
      me: () => client.user?.id,
      names: (server, id) => this.#people.name(server, id),
    };
    this.outgoing = {
      turns: this.#outbox,
      announce: announcer({ ...this.#sending, observer }),
      changed: (house, channel) => this.#boards?.changed(house, channel),
      forgot: async (house) => {
        await this.#boards?.remove(house);
        await this.#records.forget(house);
      },
    };
  }

  /** Connected to the platform with all its shards. */
  get connected(): boolean {
    const { ws } = this.#parts.client;
    return ws.shards.size > 0 && ws.shards.every(({ status }) => status === 0);
  }

  /** Makes everything ready, and rings what is due even if the gateway takes long. Then `knock` and `connect`. */
  begin(inside: Inside): void {
    const { studios, office } = inside;
    this.#inside = inside;
    const { client, clock, observer, board, boardEveryMilliseconds, attachmentOrigins } = this.#parts;
    const look = async (house: string, channel: string) => ({
      state: await studios.house(house).bench(channel).state(),
      studio: await studios.house(house).studio(),
    });
    this.#boards = new Boards({
      ...this.#sending,
      turns: this.#outbox,
      observer,
      board,
      look,
      now: () => clock.now(),
      ...(boardEveryMilliseconds === undefined ? {} : { everyMilliseconds: boardEveryMilliseconds }),
    });
    const servers = new Servers({ studios, records: this.#records, clock, observer });
    this.#servers = servers;
    const origins = attachmentOrigins === undefined ? {} : { origins: attachmentOrigins };
    const interactions = new Interactions({
      office,
      studios,
      records: this.#records,
      people: this.#people,
      observer,
      files: attachedFiles(origins),
    });
    this.#interactions = interactions;
    client.on(Events.Raw, ({ t, d }: { t: unknown; d?: { channel?: unknown } }) => {
      if (t === GatewayDispatchEvents.InteractionCreate) interactions.learn(d?.channel);
    });
    client.on(Events.InteractionCreate, this.#hear);
    this.#follow(servers);
    client.on(Events.ClientReady, () => void this.#ring(studios, servers));
    this.#withoutGateway = setTimeout(() => void this.#ring(studios, servers), RING_WITHOUT_GATEWAY_MS);
  }

  /** Rejects when the platform cannot be asked, or does not take the token. May be tried as often as need be. */
  async knock(): Promise<void> {
    await this.#parts.client.rest.get(Routes.gatewayBot());
  }

  /** Connects. A client whose login has failed is of no use any more, so `knock` first. */
  async connect(): Promise<void> {
    await this.#parts.client.login(this.#parts.token);
  }

  /** Lets every bench look for itself what is due, in case a timer was lost. */
  async wake(): Promise<void> {
    if (this.#rung && this.#inside && this.#servers) await this.#servers.wakeAll(await this.#mine(this.#inside.studios));
  }

  /** Hears nothing more, and lets what is under way come to its end, as far as that does not take too long. */
  async stop(): Promise<void> {
    const { client } = this.#parts;
    clearTimeout(this.#withoutGateway);
    client.off(Events.InteractionCreate, this.#hear);
    await atMost(MOST_STOPPING_MS, this.#interactions?.idle());
    this.#boards?.close();
    this.#servers?.close();
    await atMost(MOST_STOPPING_MS, this.#outbox.close());
    await atMost(MOST_STOPPING_MS, client.destroy());
  }

  #follow(servers: Servers): void {
    const { client, observer } = this.#parts;
    const trouble = (error: unknown) => observer.trouble('servers', error);
    // A new session tells which servers there are. One that is not among them any more has thrown the bot out meanwhile.
    client.ws.on(GatewayDispatchEvents.Ready, ({ guilds }: { guilds: readonly { id: string }[] }, shard: number) => {
      const present = new Set(guilds.map(({ id }) => id));
      const { shardCount } = client.options;
      const ours = (server: string) => holds([shard], shardCount ?? 1, server);
      for (const id of client.guilds.cache.keys()) if (ours(id) && !present.has(id)) client.guilds.cache.delete(id);
      servers.look(present, ours).catch(trouble);
    });
    client.on(Events.GuildCreate, (server) => {
      observer.happened('server-joined', { server: server.id });
      servers.joined(server.id).catch(trouble);
      this.#boards?.resume([server.id]).catch(trouble);
    });
    client.on(Events.GuildDelete, (server) => {
      observer.happened('server-left', { server: server.id });
      servers.left(server.id).catch(trouble);
    });
    const reachable = (server: string) => {
      servers.maybeReachable(server);
      this.#boards?.resume([server]).catch(trouble);
    };
    client.on(Events.GuildAvailable, ({ id }) => reachable(id));
    client.on(Events.GuildUpdate, (_, { id }) => reachable(id));
    client.on(Events.GuildRoleUpdate, (_, { guild }) => reachable(guild.id));
    client.on(Events.GuildMemberUpdate, (_, { guild }) => reachable(guild.id));
    client.on(Events.ChannelUpdate, (_, channel) => {
      if (!channel.isDMBased()) reachable(channel.guildId);
    });
    client.on(Events.ShardReady, (shard) => observer.happened('ready', { shard }));
    client.on(Events.ShardDisconnect, ({ code }, shard) => observer.happened('disconnected', { shard, code }));
    client.on(Events.ShardReconnecting, (shard) => observer.happened('reconnecting', { shard }));
    client.on(Events.ShardResume, (shard, replayed) => {
      observer.happened('resumed', { shard, replayed });
      // What could not be sent meanwhile need not wait for its next try.
      for (const [id, { shardId }] of client.guilds.cache) if (shardId === shard) servers.maybeReachable(id);
    });
    client.on(Events.ShardError, (error) => observer.trouble('gateway', error));
    client.on(Events.Error, (error) => observer.trouble('client', error));
    client.on(Events.Invalidated, () => observer.happened('session-invalidated'));
  }

  /** Once, when the gateway stands or takes too long: what fell due is rung, the boards are looked after. */
  async #ring(studios: Studios, servers: Servers): Promise<void> {
    const { client, observer } = this.#parts;
    clearTimeout(this.#withoutGateway);
    try {
      if (client.isReady()) await servers.look(client.guilds.cache, this.#ours);
      if (this.#rung) return;
      this.#rung = true;
      const mine = await this.#mine(studios);
      await servers.wakeAll(mine);
      await this.#boards?.resume(mine);
    } catch (error) {
      observer.trouble('start', error);
    }
  }

  /** The servers with a history that this process answers for. */
  async #mine(studios: Studios): Promise<string[]> {
    return [...(await studios.servers()).keys()].filter(this.#ours);
  }

  /** By the client's shards; with `auto` it knows them itself once it has connected, and holds all of them. */
  #ours = (server: string): boolean => {
    const { shards, shardCount } = this.#parts.client.options;
    return !Array.isArray(shards) || holds(shards, shardCount ?? shards.length, server);
  };
}

const rolesIn = (client: Client, server: string) => client.guilds.cache.get(server)?.roles.cache;

/** Waits for it, but not for longer. */
async function atMost(milliseconds: number, work: Promise<unknown> | undefined): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  await Promise.race([
    work,
    new Promise((resolve) => {
      timer = setTimeout(resolve, milliseconds);
    }),
  ]);
  clearTimeout(timer);
}
