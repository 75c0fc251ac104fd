import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import keyvTestSuite, { keyvIteratorTests } from '@keyv/test-suite';
import { Keyv } from 'keyv';
import * as vitest from 'vitest';
import { AlreadyWritten, LmdbStore } from '../../../src/adapters/lmdb/store.ts';

const { afterAll, describe, expect, it } = vitest;
const folder = mkdtempSync(join(tmpdir(), 'coatbell-keyv.'));
const stores: LmdbStore[] = [];

/** A new one each time, on the same folder: the suite gives several stores different namespaces. */
function store(writeOnce?: (key: string) => boolean): LmdbStore {
  const made = new LmdbStore(writeOnce ? { folder, writeOnce } : { folder });
  stores.push(made);
  return made;
}

afterAll(async () => {
  for (const made of stores) await made.disconnect();
  rmSync(folder, { recursive: true });
});

describe('the public Keyv storage suite', () => {
  keyvTestSuite(vitest, Keyv, () => store());
});

describe('the public Keyv iterator suite', () => {
  keyvIteratorTests(vitest, Keyv, () => store());
});

describe('what the public suite leaves open', () => {
  const keyv = (name: string, writeOnce?: (key: string) => boolean) =>
    new Keyv({ store: store(writeOnce), namespace: name, throwOnErrors: true });

  it('knows which keys it has, and forgets the expired ones', async () => {
    const some = keyv('has');
    await some.set('short', 1, 2000);
    await some.set('long', 2, 60_000);
    expect(await some.hasMany(['short', 'long', 'none'])).toEqual([true, true, false]);
    await vitest.vi.waitUntil(async () => !(await some.has('short')), { timeout: 10_000 });
    expect(await some.hasMany(['short', 'long', 'none'])).toEqual([false, true, false]);
    expect(await some.getMany(['short', 'long', 'none'])).toEqual([undefined, 2, undefined]);
    expect(await some.delete('short')).toBe(false);
  });

  it('sets many or none', async () => {
    const once = keyv('once', (key) => key === 'once:b');
    await once.set('b', 'first');
    const both = [
      { key: 'a', value: 'second' },
      { key: 'b', value: 'second' },
    ];
    await expect(once.setMany(both)).rejects.toBeInstanceOf(AlreadyWritten);
    expect(await once.getMany(['a', 'b'])).toEqual([undefined, 'first']);
    const tooLong = [
      { key: 'a', value: 'third' },
      { key: 'x'.repeat(5000), value: 'third' },
    ];
    await expect(once.setMany(tooLong)).rejects.toThrow();
    expect(await once.get('a')).toBeUndefined();
  });

  it('lets one of several writers have a write-once key, whichever store they use', async () => {
    const writers = Array.from({ length: 8 }, () => keyv('race', () => true));
    const results = await Promise.allSettled(writers.map((writer, index) => writer.set('key', index)));
    const winners = results.flatMap((result, index) => (result.status === 'fulfilled' ? [index] : []));
    expect(winners).toHaveLength(1);
    expect(await keyv('race').get('key')).toBe(winners[0]);
  });

  it('rejects once it is closed', async () => {
    const closed = keyv('closed');
    await closed.disconnect();
    await expect(closed.set('key', 1)).rejects.toThrow();
    await expect(closed.get('key')).rejects.toThrow();
  });
});
