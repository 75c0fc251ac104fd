import { randomUUID } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import type {
  APIInteraction,
  APITextChannel,
  APIThreadChannel,
  APIUnavailableGuild,
  GatewayChannelDeleteDispatchData,
  GatewayGuildCreateDispatchData,
  GatewayReadyDispatchData,
} from 'discord-api-types/v10';
import { type WebSocket, WebSocketServer } from 'ws';
import { guild } from './fixtures.ts';
import { isRecord } from './pieces.ts';
import type { Settings } from './settings.ts';
import { shardOf } from './snowflakes.ts';
import type { Server, World } from './world.ts';

/** The events that this platform can tell of. */
export interface Events {
  READY: GatewayReadyDispatchData;
  RESUMED: Record<string, never>;
  GUILD_CREATE: GatewayGuildCreateDispatchData;
  GUILD_DELETE: { id: string; unavailable?: true };
  CHANNEL_CREATE: APITextChannel;
  CHANNEL_UPDATE: APITextChannel;
  CHANNEL_DELETE: GatewayChannelDeleteDispatchData;
  THREAD_CREATE: APIThreadChannel & { newly_created?: true };
  THREAD_DELETE: Pick<APIThreadChannel, 'id' | 'guild_id' | 'parent_id' | 'type'>;
  INTERACTION_CREATE: APIInteraction;
}

interface Session {
  readonly id: string;
  readonly shard: readonly [index: number, of: number];
  readonly intents: number;
  /** Everything told so far; the sequence number is the place in the list, from 1 on. */
  readonly told: { readonly t: string; readonly d: unknown }[];
  socket: WebSocket | null;
}

const GUILDS = 1;
/** Members, presences, content of messages: closed with 4014 unless they are allowed. */
const PRIVILEGED = 2 | 256 | 32768;

/** The socket side: sessions that can be resumed, heartbeats, and every way in which they end. */
export class Gateway {
  readonly sessions = new Map<string, Session>();
  readonly counts = { identifies: 0, resumes: 0, heartbeats: 0, connections: 0 };
  /** What bots said at each IDENTIFY. */
  readonly identified: Readonly<Record<string, unknown>>[] = [];
  acking = true;
  readonly #server = new WebSocketServer({ noServer: true });
  readonly #world: World;
  readonly #settings: Settings;
  readonly #url: () => string;

  constructor(world: World, settings: Settings, url: () => string) {
    this.#world = world;
    this.#settings = settings;
    this.#url = url;
  }

  accept(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    this.#server.handleUpgrade(request, socket, head, (ws) => this.#greet(ws));
  }

  /** Ends all connections without a word, as a broken line does. Sessions stay, so that they can be resumed. */
  cut(): void {
    for (const socket of this.#server.clients) socket.terminate();
  }

  close(code: number): void {
    for (const socket of this.#server.clients) socket.close(code);
  }

  send(payload: { readonly op: number; readonly d: unknown }): void {
    for (const { socket } of this.sessions.values()) this.#write(socket, payload);
  }

  /** Tells all sessions whose shard the server is on. What belongs to no server goes to the first shard. */
  tell<T extends keyof Events>(t: T, d: Events[T], server: Server | null): void {
    for (const session of this.sessions.values()) {
      const [index, of] = session.shard;
      if (index === (server === null ? 0 : shardOf(server.id, of))) this.#tell(session, t, d);
    }
  }

  #tell<T extends keyof Events>(session: Session, t: T, d: Events[T]): void {
    if (/^(GUILD|CHANNEL|THREAD)_/.test(t) && (session.intents & GUILDS) === 0) return;
    session.told.push({ t, d });
    this.#write(session.socket, { op: 0, t, d, s: session.told.length });
  }

  #write(socket: WebSocket | null, payload: unknown): void {
    if (socket?.readyState === socket?.OPEN) socket?.send(JSON.stringify(payload));
  }

  #greet(socket: WebSocket): void {
    this.counts.connections += 1;
    socket.on('message', (data) => this.#hear(socket, JSON.parse(String(data))));
    socket.on('close', (code) => {
      for (const session of this.sessions.values()) {
        if (session.socket !== socket) continue;
        session.socket = null;
        // A bot that says goodbye gives up its session.
        if (code === 1000 || code === 1001) this.sessions.delete(session.id);
      }
    });
    this.#write(socket, { op: 10, d: { heartbeat_interval: this.#settings.heartbeatMs } });
  }

  #hear(socket: WebSocket, payload: unknown): void {
    if (!isRecord(payload)) {
      socket.close(4002);
      return;
    }
    const d = isRecord(payload['d']) ? payload['d'] : {};
    switch (payload['op']) {
      case 1:
        this.counts.heartbeats += 1;
        if (this.acking) this.#write(socket, { op: 11, d: null });
        return;
      case 2:
        this.#identify(socket, d);
        return;
      case 6:
        this.#resume(socket, d);
        return;
      case 3:
      case 8:
        return;
      default:
        socket.close(4001);
    }
  }

  #identify(socket: WebSocket, d: Record<string, unknown>): void {
    this.counts.identifies += 1;
    this.identified.push(d);
    const intents = Number(d['intents']);
    const [index = 0, of = 1] = Array.isArray(d['shard']) ? d['shard'].map(Number) : [];
    if (d['token'] !== this.#settings.token) {
      socket.close(4004);
      return;
    }
    if (index >= of) {
      socket.close(4010);
      return;
    }
    if (of < this.#settings.shards) {
      socket.close(4011);
      return;
    }
    if ((intents & PRIVILEGED) !== 0 && !this.#settings.privileged) {
      socket.close(4014);
      return;
    }
    for (const old of this.sessions.values()) if (old.socket === null && old.shard[0] === index) this.sessions.delete(old.id);
    const session: Session = { id: randomUUID(), shard: [index, of], intents, told: [], socket };
    this.sessions.set(session.id, session);
    const servers = this.#world.servers.filter(({ id, joined }) => joined && shardOf(id, of) === index);
    this.#tell(session, 'READY', {
      v: 10,
      user: this.#world.bot,
      guilds: servers.map(({ id }): APIUnavailableGuild => ({ id, unavailable: true })),
      session_id: session.id,
      resume_gateway_url: this.#url(),
      shard: [index, of],
      application: { id: this.#world.applicationId, flags: 0 as number, flags_new: '0' },
    });
    for (const server of servers) if (!server.unavailable) this.#tell(session, 'GUILD_CREATE', guild(server, this.#world));
  }

  #resume(socket: WebSocket, d: Record<string, unknown>): void {
    this.counts.resumes += 1;
    const session = this.sessions.get(String(d['session_id']));
    if (session === undefined || d['token'] !== this.#settings.token) {
      this.#write(socket, { op: 9, d: false });
      return;
    }
    const from = Number(d['seq']);
    if (!(from >= 0 && from <= session.told.length)) {
      socket.close(4007);
      return;
    }
    if (session.socket !== socket) session.socket?.terminate();
    session.socket = socket;
    session.told.slice(from).forEach((one, index) => {
      this.#write(socket, { op: 0, ...one, s: from + index + 1 });
    });
    this.#tell(session, 'RESUMED', {});
  }
}
