import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { Keyv } from 'keyv';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isEventKey, KeyvEventStore } from '../../src/adapters/keyv/event-store.ts';
import { LmdbStore } from '../../src/adapters/lmdb/store.ts';
import { batchOf, RACES } from './batch.ts';

const STREAM = 'bench:1';
const ROUNDS = 8;
// Inside the repository, so that the bundle finds `node_modules`.
const buildDir = fileURLToPath(new URL('../../.build/', import.meta.url));
const program = join(buildDir, `appender-${process.pid}.mjs`);
const folder = mkdtempSync(join(tmpdir(), 'coatbell-kill.'));
const children = new Set<ChildProcess>();

beforeAll(async () => {
  mkdirSync(buildDir, { recursive: true });
  await build({
    entryPoints: [fileURLToPath(new URL('appender.ts', import.meta.url))],
    outfile: program,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    logLevel: 'error',
  });
});

afterAll(() => {
  for (const child of children) child.kill('SIGKILL');
  rmSync(program, { force: true });
  rmSync(folder, { recursive: true, force: true });
});

/** Starts an appender; `lines` fills with what it says. */
function start(data: string, role: string) {
  const child = spawn(process.execPath, [program, data, STREAM, role], { stdio: ['pipe', 'pipe', 'inherit'] });
  children.add(child);
  const said = { lines: [] as string[], rest: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    const parts = (said.rest + text).split('\n');
    said.rest = parts.pop() ?? '';
    said.lines.push(...parts);
  });
  const closed = once(child, 'close').then(() => children.delete(child));
  const first = once(child.stdout, 'data');
  return { child, lines: said.lines, closed, first };
}

const acknowledged = (lines: string[]) => lines.flatMap((line) => (line.startsWith('at ') ? [Number(line.slice(3))] : []));

async function read(data: string) {
  const keyv = new Keyv({ store: new LmdbStore({ folder: data, writeOnce: isEventKey }), throwOnErrors: true });
  const store = new KeyvEventStore(keyv);
  const loaded = { ...(await store.load(STREAM, 0)), streams: await store.streams() };
  await keyv.disconnect();
  return loaded;
}

it('keeps every acknowledged batch, whole, through kills at any moment', async () => {
  const data = join(folder, 'killed');
  let last = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const { child, lines, closed, first } = start(data, 'endless');
    await first;
    await new Promise((resolve) => setTimeout(resolve, Math.random() * 150));
    child.kill('SIGKILL');
    await closed;

    const versions = acknowledged(lines);
    expect(versions[0]).toBeGreaterThan(last);
    last = versions.at(-1) ?? last;
    const { events, version, streams } = await read(data);
    // One more may be on disk than was said: the kill can fall between the write and the word.
    expect([last, last + 1]).toContain(version);
    expect(events).toEqual(Array.from({ length: version }, (_, index) => batchOf(index + 1)).flat());
    expect(streams).toEqual([STREAM]);
  }
  expect(last).toBeGreaterThan(ROUNDS);
}, 60_000);

it('lets exactly one of two processes append a version', async () => {
  const data = join(folder, 'raced');
  const racers = ['one', 'two'].map((role) => ({ role, ...start(data, role) }));
  await Promise.all(racers.map(({ first }) => first));
  for (const { child } of racers) child.stdin?.write('go\n');
  await Promise.all(racers.map(({ closed }) => closed));

  const winners = new Map<number, string>();
  for (const { role, lines } of racers)
    for (const version of acknowledged(lines)) {
      expect(winners.has(version)).toBe(false);
      winners.set(version, role);
    }
  const { events, version } = await read(data);
  expect(version).toBe(RACES);
  expect(events).toEqual(Array.from({ length: RACES }, (_, index) => winners.get(index + 1)));
}, 60_000);
