import { join } from 'node:path';
import { Keyv } from 'keyv';
import { isEventKey, KeyvEventStore } from '../adapters/keyv/event-store.ts';
import { LmdbStore } from '../adapters/lmdb/store.ts';
import { type Configuration, loadConfiguration } from '../adapters/yaml/load.ts';
import type { Problem } from '../adapters/yaml/problem.ts';
import { House } from '../bench/house.ts';
import { MemoryLock } from '../bench/lock.ts';
import type { Clock } from '../bench/ports.ts';
import { pingCard } from '../cards/ping-card.ts';
import type { Card } from '../chat/card.ts';

export interface AppParts {
  /** The folder that the program is installed in. */
  readonly root: string;
  /** Where everything is stored; null keeps it in memory only. */
  readonly dataDir: string | null;
  /** Where the studio's own configuration files are; null for the shipped ones. */
  readonly configDir: string | null;
  /** Instead of the configured one. */
  readonly zone: string | null;
  readonly clock: Clock;
  /** Brings a ping to the people, once for each id. */
  readonly post: (card: Card, channel: string, pingId: string) => Promise<void>;
  readonly trouble: (error: unknown) => void;
}

/** Everything that stands behind a surface. */
export interface App {
  readonly house: House;
  readonly configuration: Configuration;
  /** Lets what has begun come to its end, then closes the store. */
  close(): Promise<void>;
}

/** Joins store, lock, clock and configuration; or gives the problems of the set-up. */
export function openApp({ root, dataDir, configDir, zone, clock, post, trouble }: AppParts): App | Problem[] {
  const configuration = loadConfiguration({ shippedDir: join(root, 'config'), ownDir: configDir });
  if (Array.isArray(configuration)) return configuration;
  const store = storeIn(dataDir);
  if (Array.isArray(store)) return store;
  const keyv = new Keyv({ ...(store === null ? {} : { store }), throwOnErrors: true });
  const lock = new MemoryLock();
  const house = new House({
    store: new KeyvEventStore(keyv),
    lock,
    clock,
    configured: zone === null ? configuration.studio : { ...configuration.studio, zone },
    announce: (ping, about) => post(pingCard(ping, about), about.channel, ping.id),
    trouble,
  });
  const close = async () => {
    // A ring that is under way sets a new timer at its end, so timers are called off until all is quiet.
    do {
      house.sleep();
      await new Promise((resolve) => setImmediate(resolve));
    } while (lock.busy > 0);
    house.sleep();
    await keyv.disconnect();
  };
  return { house, configuration, close };
}

function storeIn(folder: string | null): LmdbStore | Problem[] | null {
  if (folder === null) return null;
  try {
    return new LmdbStore({ folder, writeOnce: isEventKey });
  } catch (error) {
    const message = `cannot be used as the data folder: ${(error as Error).message}`;
    return [{ file: folder, line: 0, path: '', message, example: '--data ./my-data' }];
  }
}
