import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { type EventStore, VersionConflict } from '../../src/bench/ports.ts';

export interface EventStoreHarness {
  readonly store: EventStore;
  /** Another store over the same data, as after a restart or in a second process. */
  again(): EventStore;
  close(): Promise<void>;
}

export function eventStoreContract(name: string, make: () => EventStoreHarness): void {
  describe(`EventStore: ${name}`, () => {
    const made: EventStoreHarness[] = [];
    const fresh = () => {
      const harness = make();
      made.push(harness);
      return harness;
    };
    afterEach(async () => {
      for (const harness of made.splice(0)) await harness.close();
    });

    it('is empty at first', async () => {
      const { store } = fresh();
      expect(await store.load('bench:1', 0)).toEqual({ events: [], version: 0 });
      expect(await store.streams()).toEqual([]);
    });

    it('gives back what was appended, oldest first, also to another store', async () => {
      const { store, again } = fresh();
      expect(await store.append('bench:1', 0, [{ n: 1 }, { n: 2 }])).toBe(1);
      expect(await store.append('bench:1', 1, [{ n: 3 }])).toBe(2);
      for (const each of [store, again()]) {
        expect(await each.load('bench:1', 0)).toEqual({ events: [{ n: 1 }, { n: 2 }, { n: 3 }], version: 2 });
        expect(await each.load('bench:1', 1)).toEqual({ events: [{ n: 3 }], version: 2 });
        expect(await each.load('bench:1', 2)).toEqual({ events: [], version: 2 });
      }
    });

    it.each([-1, 0, 2, 9, 0.5, Number.NaN])('refuses the version %d of a stream at 1, and changes nothing', async (wrong) => {
      const { store } = fresh();
      await store.append('bench:1', 0, ['kept']);
      await expect(store.append('bench:1', wrong, ['lost'])).rejects.toBeInstanceOf(VersionConflict);
      expect(await store.load('bench:1', 0)).toEqual({ events: ['kept'], version: 1 });
    });

    it('lets one of two appends for one version win, whichever store they came through', async () => {
      const { store, again } = fresh();
      const other = again();
      for (let version = 0; version < 5; version++) {
        const results = await Promise.allSettled([
          store.append('bench:1', version, ['one']),
          store.append('bench:1', version, ['two']),
        ]);
        expect(results.map((result) => result.status)).toEqual(['fulfilled', 'rejected']);
      }
      await expect(other.append('bench:1', 4, ['three'])).rejects.toBeInstanceOf(VersionConflict);
      expect((await other.load('bench:1', 0)).events).toEqual(Array(5).fill('one'));
    });

    it('lists the streams that hold a batch', async () => {
      const { store, again } = fresh();
      const names = ['bench:1', 'bench:2', 'studio:a b', 'bench:1:0000000001', 'keyv:x', 'events/x', 'ü/🜍'];
      await Promise.all(names.map((name) => store.append(name, 0, [name])));
      await store.append('bench:2', 1, ['more']);
      await expect(store.append('bench:none', 3, ['x'])).rejects.toThrow();
      for (const each of [store, again()]) expect((await each.streams()).sort()).toEqual([...names].sort());
      for (const name of names) expect((await store.load(name, 0)).events[0]).toBe(name);
    });

    it('forgets a stream as a whole, and lets it begin anew', async () => {
      const { store, again } = fresh();
      for (let version = 0; version < 30; version++) await store.append('bench:1', version, [{ n: version }]);
      await store.append('bench:2', 0, ['stays']);
      await store.forget('bench:1');
      for (const each of [store, again()]) {
        expect(await each.load('bench:1', 0)).toEqual({ events: [], version: 0 });
        expect(await each.load('bench:1', 30)).toEqual({ events: [], version: 0 });
        expect(await each.streams()).toEqual(['bench:2']);
        await expect(each.append('bench:1', 30, ['lost'])).rejects.toBeInstanceOf(VersionConflict);
      }
      expect(await store.append('bench:1', 0, ['new'])).toBe(1);
      expect(await store.load('bench:1', 1)).toEqual({ events: [], version: 1 });
      // Somebody who knew more than there is now is told so.
      expect(await store.load('bench:1', 2)).toEqual({ events: [], version: 0 });
      expect((await again().streams()).sort()).toEqual(['bench:1', 'bench:2']);
      await store.forget('bench:nothing');
    });

    it('refuses what it cannot store', async () => {
      const { store } = fresh();
      const round: unknown[] = [];
      round.push(round);
      await expect(store.append('bench:1', 0, [])).rejects.toThrow();
      await expect(store.append('bench:1', 0, round)).rejects.toThrow();
      await expect(store.append('bench:1', 0, [1n])).rejects.toThrow();
      expect(await store.load('bench:1', 0)).toEqual({ events: [], version: 0 });
      expect(await store.streams()).toEqual([]);
    });

    it('gives copies', async () => {
      const { store } = fresh();
      const event = { list: [1] };
      await store.append('bench:1', 0, [event]);
      event.list.push(2);
      ((await store.load('bench:1', 0)).events[0] as typeof event).list.push(3);
      expect((await store.load('bench:1', 0)).events).toEqual([{ list: [1] }]);
    });

    it('equals an array of batches under random appends and loads', async () => {
      const json = fc.jsonValue().map((value) => JSON.parse(JSON.stringify(value)));
      const step = fc.record({
        stream: fc.constantFrom('bench:1', 'bench:2', 'studio:s'),
        off: fc.constantFrom(0, 0, 0, 0, -1, 1),
        batch: fc.array(json, { minLength: 1, maxLength: 3 }),
        after: fc.nat({ max: 1000 }),
        elsewhere: fc.boolean(),
      });
      await fc.assert(
        fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
          const { store, again } = fresh();
          const oracle = new Map<string, unknown[][]>();
          const other = again();
          for (const { stream, off, batch, after, elsewhere } of steps) {
            const at = elsewhere ? other : store;
            const batches = oracle.get(stream) ?? [];
            if (off === 0) {
              expect(await at.append(stream, batches.length, batch)).toBe(batches.length + 1);
              oracle.set(stream, [...batches, batch]);
            } else await expect(at.append(stream, batches.length + off, batch)).rejects.toBeInstanceOf(VersionConflict);
            const now = oracle.get(stream) ?? [];
            const from = after % (now.length + 1);
            expect(await at.load(stream, from)).toEqual({ events: now.slice(from).flat(1), version: now.length });
          }
          expect((await again().streams()).sort()).toEqual([...oracle.keys()].sort());
        }),
        { numRuns: 25 },
      );
    }, 60_000);
  });
}
