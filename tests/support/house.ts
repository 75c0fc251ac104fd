import { Keyv } from 'keyv';
import { KeyvEventStore } from '../../src/adapters/keyv/event-store.ts';
import type { Announce } from '../../src/bench/bench.ts';
import { MemoryLock } from '../../src/bench/lock.ts';
import type { Clock } from '../../src/bench/ports.ts';
import type { Studio } from '../../src/bench/studio.ts';
import { EVERYBODY_AT_ONCE, LOCAL, Studios } from '../../src/bench/studios.ts';

/** A disk that can fail: what cannot be written is not there afterwards, and what was written stays. */
export class Disk extends Map<string, unknown> {
  /** So many writes fail from now on. */
  failures = 0;

  override set(key: string, value: unknown): this {
    if (this.failures > 0) {
      this.failures -= 1;
      throw new Error('the disk is full');
    }
    return super.set(key, value);
  }
}

/** The process as it comes up: nothing but what is on the disk. */
export const openHouse = (
  disk: Disk,
  clock: Clock,
  studio: Studio,
  announce: Announce,
  trouble: (error: unknown) => void = () => {},
) =>
  new Studios({
    store: new KeyvEventStore(new Keyv({ store: disk, throwOnErrors: true })),
    lock: new MemoryLock(),
    clock,
    configured: studio,
    announce,
    trouble,
    turns: EVERYBODY_AT_ONCE,
    changed: () => {},
    forgot: async () => {},
  }).house(LOCAL);
