import { fileURLToPath } from 'node:url';
import { Events } from 'discord.js';
import { Keyv } from 'keyv';
import { expect } from 'vitest';
import { clientFor } from '../../../../src/adapters/discord/client.ts';
import { attachedFiles } from '../../../../src/adapters/discord/interactions/attachment.ts';
import { Interactions } from '../../../../src/adapters/discord/interactions/interactions.ts';
import { People } from '../../../../src/adapters/discord/interactions/people.ts';
import type { Memory } from '../../../../src/adapters/discord/memory.ts';
import type { Observer } from '../../../../src/adapters/discord/observer.ts';
import { Records } from '../../../../src/adapters/discord/sending/records.ts';
import { KeyvEventStore } from '../../../../src/adapters/keyv/event-store.ts';
import { meshes } from '../../../../src/adapters/mesh/meshes.ts';
import { pngPainter } from '../../../../src/adapters/png/painter.ts';
import { loadConfiguration } from '../../../../src/adapters/yaml/load.ts';
import { MemoryLock } from '../../../../src/bench/lock.ts';
import type { EventStore } from '../../../../src/bench/ports.ts';
import { StandingClock } from '../../../../src/bench/standing-clock.ts';
import { EVERYBODY_AT_ONCE, Studios } from '../../../../src/bench/studios.ts';
import { registration } from '../../../../src/chat/registration.ts';
import type { Registry } from '../../../../src/chat/registry.ts';
import type { Desk } from '../../../../src/desk/desk.ts';
import { listsFor } from '../../../../src/main/lists.ts';
import { commands as shipped } from '../../../../src/main/registry.ts';
import { Platform } from '../../../support/platform/platform.ts';
import type { Settings } from '../../../support/platform/settings.ts';
import type { Room } from '../../../support/platform/world.ts';

const root = fileURLToPath(new URL('../../../../', import.meta.url));

const EIGHT = Date.parse('2026-03-02T08:00:00+01:00');
export const MINUTE = 60_000;

/** A disk that takes its time, or fails. */
class Disk implements EventStore {
  readonly #store: EventStore;
  writeMilliseconds = 0;
  readMilliseconds = 0;
  broken = false;
  appends = 0;

  constructor(store: EventStore) {
    this.#store = store;
  }

  async load(stream: string, after: number) {
    await this.#turn(this.readMilliseconds);
    return this.#store.load(stream, after);
  }
  async append(stream: string, version: number, events: readonly unknown[]) {
    await this.#turn(this.writeMilliseconds);
    this.appends += 1;
    return this.#store.append(stream, version, events);
  }
  streams = () => this.#store.streams();
  forget = (stream: string) => this.#store.forget(stream);

  async #turn(milliseconds: number): Promise<void> {
    if (milliseconds > 0) await new Promise((resolve) => setTimeout(resolve, milliseconds));
    if (this.broken) throw new Error('the disk is gone');
  }
}

export class PlainMemory implements Memory {
  readonly kept = new Map<string, string>();
  async get(key: string) {
    const text = this.kept.get(key);
    return text === undefined ? undefined : JSON.parse(text);
  }
  async set(key: string, value: unknown) {
    this.kept.set(key, JSON.stringify(value));
  }
  async delete(key: string) {
    this.kept.delete(key);
  }
}

interface Given {
  commands?: Registry<Desk>;
  awaitMilliseconds?: number;
  settings?: Partial<Settings>;
}

/** The platform, a real client and everything behind it; Monday, 08:00 in Berlin. */
export async function counter({ commands = shipped, awaitMilliseconds, settings }: Given = {}) {
  const platform = new Platform(settings);
  const server = platform.server('studio');
  const bench = platform.channel(server, 'bench');
  const dana = platform.person('dana');
  const kim = platform.person('kim');
  platform.assumeRegistered(registration(commands));
  await platform.start();

  const configuration = loadConfiguration({ shippedDir: `${root}config`, ownDir: null });
  if (Array.isArray(configuration)) throw new Error(JSON.stringify(configuration));
  const told = { answered: [] as Parameters<Observer['answered']>[0][], happened: [] as string[], troubles: [] as unknown[] };
  const observer: Observer = {
    answered: (what) => void told.answered.push(what),
    rang: () => {},
    waiting: () => {},
    happened: (event) => void told.happened.push(event),
    trouble: (where, error) => void told.troubles.push([where, error]),
  };
  const clock = new StandingClock(EIGHT);
  const disk = new Disk(new KeyvEventStore(new Keyv({ throwOnErrors: true })));
  const rung: string[] = [];
  const studios = new Studios({
    store: disk,
    lock: new MemoryLock(),
    clock,
    turns: EVERYBODY_AT_ONCE,
    announce: async ({ kind }) => {
      rung.push(kind);
      return 'sent';
    },
    trouble: (error) => void told.troubles.push(['bench', error]),
    changed: () => {},
    configured: { ...configuration.studio, zone: 'Europe/Berlin' },
    forgot: async () => {},
  });
  const { materials, recipes } = configuration;
  const client = clientFor({ shards: 'auto', api: platform.api });
  const records = new Records(new PlainMemory());
  const people = new People({ rest: client.rest, trouble: observer.trouble });
  const interactions = new Interactions({
    office: { commands, clock, recipes, materials, lists: listsFor(configuration), meshes, painter: pngPainter() },
    studios,
    records,
    people,
    observer,
    files: attachedFiles({ origins: [`http://127.0.0.1:${platform.port}`] }),
    ...(awaitMilliseconds === undefined ? {} : { awaitMilliseconds }),
  });
  const working: Promise<void>[] = [];
  client.on(Events.InteractionCreate, (interaction) => void working.push(interactions.handle(interaction)));
  const ready = new Promise((resolve) => client.once(Events.ClientReady, resolve));
  await client.login(platform.settings.token);
  await ready;

  /** Everything that was begun has come to its end. */
  const quiet = async () => {
    await Promise.all(working);
    await new Promise((resolve) => setTimeout(resolve, 20));
  };
  return {
    platform,
    server,
    bench,
    dana,
    kim,
    client,
    clock,
    disk,
    studios,
    records,
    people,
    rung,
    quiet,
    ...told,
    /** A job, and the message that says so. */
    async started(channel: Room = bench, options: Readonly<Record<string, string>> = {}) {
      const asked = { skin: 'brush-urethane', shell: 'shell-paste', casting: 'casting-plaster', name: 'Lion head', ...options };
      const exchange = await platform.command({ channel, user: dana, name: 'job start', options: asked }).answered();
      return exchange.message;
    },
    state: (channel: Room = bench) => studios.house(server.id).bench(channel.id).state(),
    async close() {
      await quiet();
      studios.close();
      await client.destroy();
      await platform.stop();
    },
  };
}

type Counter = Awaited<ReturnType<typeof counter>>;

/** Begins at most one for each test, and closes it after: by then nothing may have been wrong with what was sent. */
export function counters() {
  let open: Counter | undefined;
  return {
    begin: async (...given: Parameters<typeof counter>) => (open = await counter(...given)),
    async close() {
      const last = open;
      open = undefined;
      await last?.close();
      expect(last?.platform.complaints ?? []).toEqual([]);
    },
  };
}
