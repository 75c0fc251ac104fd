// A process of its own that appends to an event store on LMDB; `kill.test.ts` bundles, starts and kills it.
// Arguments: folder, stream, `endless` or the name under which it races. It says `at N` once batch N is acknowledged.
import { writeSync } from 'node:fs';
import { Keyv } from 'keyv';
import { isEventKey, KeyvEventStore } from '../../src/adapters/keyv/event-store.ts';
import { LmdbStore } from '../../src/adapters/lmdb/store.ts';
import { VersionConflict } from '../../src/bench/ports.ts';
import { batchOf, RACES } from './batch.ts';

const [folder = '', stream = '', role = ''] = process.argv.slice(2);
const keyv = new Keyv({ store: new LmdbStore({ folder, writeOnce: isEventKey }), throwOnErrors: true });
const store = new KeyvEventStore(keyv);
/** At once and whole, whatever kills the process next. */
const say = (text: string) => void writeSync(1, `${text}\n`);

if (role === 'endless') {
  for (let { version } = await store.load(stream, 0); ; ) {
    version = await store.append(stream, version, batchOf(version + 1));
    say(`at ${version}`);
  }
}

say('ready');
await new Promise((resolve) => process.stdin.once('data', resolve));
process.stdin.destroy();
for (let version = 0; version < RACES; version++) {
  try {
    say(`at ${await store.append(stream, version, [role])}`);
  } catch (error) {
    if (!(error instanceof VersionConflict)) throw error;
    say(`conflict ${version + 1}`);
    // The other one is ahead: wait until its batch can be seen here.
    while ((await store.load(stream, version)).version === version) await new Promise((resolve) => setImmediate(resolve));
  }
}
await keyv.disconnect();
