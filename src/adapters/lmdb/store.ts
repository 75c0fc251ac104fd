import { EventEmitter } from 'node:events';
import type { KeyvStoreAdapter, StoredData } from 'keyv';
import { open, type RootDatabase } from 'lmdb';
import { readyFolder } from './folder.ts';

/** The key is written once and for all, and already holds a value. */
export class AlreadyWritten extends Error {
  override readonly name = 'AlreadyWritten';
}

export interface LmdbOptions {
  /** Made when it does not exist. Several stores and several processes may share one. */
  readonly folder: string;
  /** Keys (as Keyv passes them on, so with the namespace in front) that may be set only while they hold nothing. */
  readonly writeOnce?: (key: string) => boolean;
}

/** `expires` is in milliseconds since the epoch, 0 for never. */
type Entry = readonly [expires: number, value: unknown];
type Setting = { key: string; value: unknown; ttl?: number };

/** Keyv's own test for expiry, so that both always agree. */
const live = (entry: Entry | undefined): entry is Entry => !!entry && !(entry[0] && Date.now() > entry[0]);

/** Keyv over LMDB. Every failure rejects; give `throwOnErrors` to Keyv, or it turns them into `false`. */
export class LmdbStore extends EventEmitter implements KeyvStoreAdapter {
  /** Keyv offers `iterator()` only for dialects from a list of its own; of those, this embedded one is the nearest kin. */
  readonly opts = { dialect: 'sqlite', url: 'lmdb' };
  namespace?: string | undefined;
  readonly #db: RootDatabase<Entry, string>;
  readonly #writeOnce: (key: string) => boolean;

  constructor({ folder, writeOnce = () => false }: LmdbOptions) {
    super();
    this.#writeOnce = writeOnce;
    readyFolder(folder);
    this.#db = open<Entry, string>({
      path: folder,
      // Else a dot in the folder's name would make it a file.
      noSubdir: false,
      // With overlapping sync a write resolves when it is visible, and `flushed` comes later and never rejects. Without
      // it the flush is part of the commit: a resolved write is on disk, and a flush that fails rejects that very write.
      overlappingSync: false,
      // With it, a commit that fails also rejects a promise that nobody can get at, and so ends the process.
      eventTurnBatching: false,
    });
  }

  async get<Value>(key: string): Promise<StoredData<Value> | undefined> {
    try {
      return (await this.getMany<Value>([key]))[0] as StoredData<Value>;
    } catch (error) {
      // The only rejection that Keyv swallows without an event when `throwOnErrors` is off.
      if (this.listenerCount('error') > 0) this.emit('error', error);
      throw error;
    }
  }

  async getMany<Value>(keys: string[]): Promise<StoredData<Value | undefined>[]> {
    const found = this.#look(keys);
    const values = found.map((entry) => (live(entry) ? (entry[1] as StoredData<Value>) : undefined));
    const expired = keys.filter((_, index) => found[index] && !live(found[index]));
    if (expired.length > 0) await this.#removeExpired(expired);
    return values;
  }

  async set(key: string, value: unknown, ttl?: number): Promise<void> {
    await this.setMany([ttl === undefined ? { key, value } : { key, value, ttl }]);
  }

  /** All of them or none. */
  async setMany(settings: Setting[]): Promise<void> {
    await this.#write(() => {
      for (const { key, value, ttl } of settings) {
        if (this.#writeOnce(key) && live(this.#db.get(key))) throw new AlreadyWritten(`${key} is already written`);
        this.#db.putSync(key, [ttl ? Date.now() + ttl : 0, value]);
      }
    });
  }

  async has(key: string): Promise<boolean> {
    return this.#look([key]).some(live);
  }

  async hasMany(keys: string[]): Promise<boolean[]> {
    return this.#look(keys).map(live);
  }

  async delete(key: string): Promise<boolean> {
    return this.deleteMany([key]);
  }

  /** True when every key was there. */
  deleteMany(keys: string[]): Promise<boolean> {
    return this.#write(() => keys.map((key) => live(this.#db.get(key)) && this.#db.removeSync(key)).every(Boolean));
  }

  /** Empties the namespace, or the whole store when there is none. */
  async clear(): Promise<void> {
    await this.#write(() => {
      for (const key of [...this.#db.getKeys(this.#range(this.namespace))]) this.#db.removeSync(key);
    });
  }

  /** Also gives what has expired: Keyv looks for itself, and deletes it. */
  async *iterator<Value>(namespace?: string): AsyncGenerator<Array<string | Awaited<Value> | undefined>, void> {
    this.#db.resetReadTxn();
    for (const { key, value } of this.#db.getRange(this.#range(namespace))) yield [key, value[1] as Awaited<Value>];
  }

  async disconnect(): Promise<void> {
    await this.#db.close();
  }

  /**
   * All from one snapshot, and a new one: lmdb keeps the last for a while, and would not see what another store or another
   * process has written and acknowledged since.
   */
  #look(keys: readonly string[]): (Entry | undefined)[] {
    this.#db.resetReadTxn();
    return keys.map((key) => this.#db.get(key));
  }

  /**
   * LMDB has one writer at a time, over all processes: what `work` reads still holds when it is committed. As a child
   * transaction it is rolled back alone when it throws, whatever else is in the same commit.
   */
  async #write<T>(work: () => T): Promise<T> {
    try {
      return await this.#db.childTransaction(work);
    } catch (error) {
      // A failed commit (a full disk, say) carries its cause as a promise, whose rejection would end the process too.
      (error as { commitError?: Promise<never> }).commitError?.catch(() => {});
      throw error;
    }
  }

  /** Looks again inside the transaction: another writer may have renewed the key meanwhile. */
  async #removeExpired(keys: string[]): Promise<void> {
    await this.#write(() => {
      for (const key of keys) if (!live(this.#db.get(key))) this.#db.removeSync(key);
    });
  }

  /** `;` is the character after `:`. */
  #range(namespace: string | undefined): { start?: string; end?: string } {
    return namespace ? { start: `${namespace}:`, end: `${namespace};` } : {};
  }
}
