import { join } from 'node:path';
import { Keyv } from 'keyv';
import { isEventKey, KeyvEventStore } from '../adapters/keyv/event-store.ts';
import { LmdbStore } from '../adapters/lmdb/store.ts';
import { meshes } from '../adapters/mesh/meshes.ts';
import { pngPainter } from '../adapters/png/painter.ts';
import { type Configuration, loadConfiguration } from '../adapters/yaml/load.ts';
import type { Problem } from '../adapters/yaml/problem.ts';
import type { Announce } from '../bench/bench.ts';
import { MemoryLock } from '../bench/lock.ts';
import type { Clock, Turns } from '../bench/ports.ts';
import { Studios } from '../bench/studios.ts';
import type { Office } from '../desk/office.ts';
import type { Painter } from '../picture/painter.ts';
import { listsFor } from './lists.ts';
import { commands } from './registry.ts';

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
  readonly turns: Turns;
  readonly announce: Announce;
  readonly changed: (house: string, channel: string) => void;
  readonly forgot: (house: string) => Promise<void>;
  readonly trouble: (error: unknown) => void;
  /** Left out, one of its own. */
  readonly painter?: Painter;
}

/** Everything that stands behind a surface. */
export interface App {
  readonly studios: Studios;
  readonly configuration: Configuration;
  readonly office: Office;
  readonly keyv: Keyv;
  /** Lets what has begun come to its end, then closes the store. */
  close(): Promise<void>;
}

/** Joins store, lock, clock and configuration; or gives the problems of the set-up. */
export function openApp({ root, dataDir, configDir, zone, painter, ...parts }: AppParts): App | Problem[] {
  const configuration = loadConfiguration({ shippedDir: join(root, 'config'), ownDir: configDir });
  if (Array.isArray(configuration)) return configuration;
  const store = storeIn(dataDir);
  if (Array.isArray(store)) return store;
  const keyv = new Keyv({ ...(store === null ? {} : { store }), throwOnErrors: true });
  const lock = new MemoryLock();
  const studios = new Studios({
    ...parts,
    store: new KeyvEventStore(keyv),
    lock,
    configured: zone === null ? configuration.studio : { ...configuration.studio, zone },
  });
  const { materials, recipes } = configuration;
  const office: Office = {
    commands,
    clock: parts.clock,
    materials,
    recipes,
    lists: listsFor(configuration),
    meshes,
    painter: painter ?? pngPainter(parts.trouble),
  };
  const close = async () => {
    studios.close();
    do await new Promise((resolve) => setImmediate(resolve));
    while (lock.busy > 0);
    await keyv.disconnect();
  };
  return { studios, configuration, office, keyv, close };
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
