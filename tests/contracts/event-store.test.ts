import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Keyv } from 'keyv';
import { expect, it } from 'vitest';
import { isEventKey, KeyvEventStore } from '../../src/adapters/keyv/event-store.ts';
import { LmdbStore } from '../../src/adapters/lmdb/store.ts';
import { eventStoreContract } from './event-store.ts';

eventStoreContract('KeyvEventStore in memory', () => {
  const map = new Map();
  const again = () => new KeyvEventStore(new Keyv({ store: map, throwOnErrors: true }));
  return { store: again(), again, close: async () => {} };
});

// The namespace is one that stream names begin with, which is where Keyv's prefixes go wrong.
for (const namespace of ['coatbell', 'bench', 'events'])
  eventStoreContract(`KeyvEventStore on LMDB, namespace ${namespace}`, () => {
    const folder = mkdtempSync(join(tmpdir(), 'coatbell-store.'));
    const keyvs: Keyv[] = [];
    const again = () => {
      const keyv = new Keyv({ store: new LmdbStore({ folder, writeOnce: isEventKey }), namespace, throwOnErrors: true });
      keyvs.push(keyv);
      return new KeyvEventStore(keyv);
    };
    const close = async () => {
      for (const keyv of keyvs.splice(0)) await keyv.disconnect();
      rmSync(folder, { recursive: true, force: true });
    };
    return { store: again(), again, close };
  });

it('lists no stream whose first batch never came', async () => {
  const map = new Map();
  const keyv = new Keyv({ store: map, throwOnErrors: true });
  const write = keyv.set.bind(keyv);
  keyv.set = async (key: string, value: unknown) => {
    if (key.includes('bench:1')) throw new Error('the power went');
    return write(key, value);
  };
  const store = new KeyvEventStore(keyv);
  await expect(store.append('bench:1', 0, ['x'])).rejects.toThrow('the power went');
  expect(await store.streams()).toEqual([]);
  const restarted = new KeyvEventStore(new Keyv({ store: map, throwOnErrors: true }));
  expect(await restarted.streams()).toEqual([]);
  await restarted.append('bench:1', 0, ['x']);
  expect(await restarted.streams()).toEqual(['bench:1']);
});

it('does not take an unwritten batch for a written one', async () => {
  const keyv = new Keyv({ throwOnErrors: true });
  keyv.set = async () => false;
  await expect(new KeyvEventStore(keyv).append('bench:1', 0, ['x'])).rejects.toThrow('did not take');
});

it('knows the keys of events with and without a namespace', () => {
  for (const key of ['events/bench:1:0000000001', 'ns:events/bench:1:0000000001', 'events/:0000000001'])
    expect(isEventKey(key)).toBe(true);
  for (const key of ['ns:bench:1:0000000001', 'events/bench:1', 'other/events/x:0000000001', 'events/x:1'])
    expect(isEventKey(key)).toBe(false);
});
