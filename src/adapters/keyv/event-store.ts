import type { Keyv } from 'keyv';
import { MemoryLock } from '../../bench/lock.ts';
import { type EventStore, type Loaded, VersionConflict } from '../../bench/ports.ts';

const PREFIX = 'events/';
/** The directory of streams is itself a stream, the one without a name: each batch of it holds a stream's name. */
const DIRECTORY = '';

/**
 * The prefix does more than keep order: Keyv leaves a key that begins with `<namespace>:` as it is on `set`, but not on
 * `getMany`, so a stream `bench:1` in a namespace `bench` would be written under one key and read under another.
 */
const batchKey = (stream: string, version: number): string => `${PREFIX}${stream}:${String(version).padStart(10, '0')}`;

/** Whether a key, with or without a namespace in front, holds a batch of events. Such keys are written once. */
export const isEventKey = (key: string): boolean => /^(?:[^/]*:)?events\/.*:\d{10}$/s.test(key);

const conflict = (stream: string, version: number, cause?: unknown): VersionConflict =>
  new VersionConflict(`${stream} is not at version ${version}`, { cause });

/**
 * One batch is one key, so that an append is one write. Give it a Keyv with `throwOnErrors` and no ttl. Against other
 * processes it relies on a storage that rejects a second `set` of an event key with an error named `AlreadyWritten`.
 */
export class KeyvEventStore implements EventStore {
  readonly #keyv: Keyv;
  /** Storages without write-once keys need it, so that two appends in this process cannot pass the check together. */
  readonly #lock = new MemoryLock();
  readonly #listed = new Set<string>();
  #listedVersion = 0;

  constructor(keyv: Keyv) {
    this.#keyv = keyv;
  }

  async load(stream: string, after: number): Promise<Loaded> {
    const events: unknown[] = [];
    // The last known batch is asked for too: without it, the stream was forgotten.
    let version = Math.max(0, after - 1);
    // Most loads find nothing new, so the first look is short.
    for (let size = 2; ; size = Math.min(size * 8, 512)) {
      const keys = Array.from({ length: size }, (_, index) => batchKey(stream, version + 1 + index));
      for (const batch of await this.#keyv.getMany<string>(keys)) {
        if (batch === undefined) return version < after ? { events: [], version: 0 } : { events, version };
        version += 1;
        if (version > after) for (const event of JSON.parse(batch)) events.push(event);
      }
    }
  }

  async append(stream: string, expectedVersion: number, events: readonly unknown[]): Promise<number> {
    if (stream === DIRECTORY) throw new RangeError('A stream needs a name.');
    if (events.length === 0) throw new RangeError('A batch needs at least one event.');
    return this.#lock.run(stream, async () => {
      const [last, next] = await this.#keyv.hasMany([0, 1].map((step) => batchKey(stream, expectedVersion + step)));
      if (next || !(last || expectedVersion === 0)) throw conflict(stream, expectedVersion);
      if (expectedVersion === 0) await this.#register(stream);
      return this.#write(stream, expectedVersion, events);
    });
  }

  async streams(): Promise<string[]> {
    await this.#lock.run(DIRECTORY, () => this.#readDirectory());
    const names = [...this.#listed];
    // A name whose first batch never came (a crash, a conflict, a full disk) is no stream.
    const begun = await this.#keyv.hasMany(names.map((name) => batchKey(name, 1)));
    return names.filter((_, index) => begun[index]);
  }

  /** Its name stays in the directory: without a batch it is no stream, and it may begin anew. */
  async forget(stream: string): Promise<void> {
    await this.#lock.run(stream, async () => {
      const { version } = await this.load(stream, 0);
      const keys = Array.from({ length: version }, (_, index) => batchKey(stream, index + 1));
      if (keys.length > 0) await this.#keyv.deleteMany(keys);
    });
  }

  /** Before the first batch: a name without a batch is harmless, a batch without a name would be lost to a restart. */
  #register(stream: string): Promise<void> {
    return this.#lock.run(DIRECTORY, async () => {
      for (;;) {
        await this.#readDirectory();
        if (this.#listed.has(stream)) return;
        try {
          await this.#write(DIRECTORY, this.#listedVersion, [stream]);
        } catch (error) {
          // Another process wrote a name in between: read it and try again.
          if (!(error instanceof VersionConflict)) throw error;
        }
      }
    });
  }

  async #readDirectory(): Promise<void> {
    const { events, version } = await this.load(DIRECTORY, this.#listedVersion);
    for (const name of events) this.#listed.add(name as string);
    this.#listedVersion = version;
  }

  /** As text of our own, because Keyv's serializer looks into every value, and trips over one named `toJSON`. */
  async #write(stream: string, version: number, events: readonly unknown[]): Promise<number> {
    try {
      const stored = await this.#keyv.set(batchKey(stream, version + 1), JSON.stringify(events));
      if (!stored) throw new Error(`${stream}: the storage did not take batch ${version + 1}`);
    } catch (error) {
      if (error instanceof Error && error.name === 'AlreadyWritten') throw conflict(stream, version, error);
      throw error;
    }
    return version + 1;
  }
}
