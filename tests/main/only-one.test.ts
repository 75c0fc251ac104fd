import { mkdtempSync, readdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { onlyOne } from '../../src/main/only-one.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'coatbell-only-one.'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const lock = (more: object, agoSeconds: number) => {
  const path = join(folder, 'serving-0-of-1.lock');
  const holder = { host: hostname(), process: process.ppid, since: Date.now(), shards: { ids: [0], of: 1 }, ...more };
  writeFileSync(path, typeof holder === 'object' ? JSON.stringify(holder) : holder);
  const at = new Date(Date.now() - agoSeconds * 1000);
  utimesSync(path, at, at);
};
/** Whether it gets the place within this time. */
const within = async (milliseconds: number, shards: Parameters<typeof onlyOne>[1] = { ids: [0], of: 1 }) =>
  Promise.race([onlyOne(folder, shards), new Promise<'waits'>((resolve) => setTimeout(resolve, milliseconds, 'waits'))]);

it('takes a free place, and gives it up without a trace', async () => {
  const giveUp = await within(1000);
  expect(readdirSync(folder)).toEqual(['serving-0-of-1.lock']);
  if (typeof giveUp === 'function') giveUp();
  expect(readdirSync(folder)).toEqual([]);
});

it.each([
  ['a process that was killed', { process: 2 ** 30 }, 3],
  ['another machine that has long been silent', { host: 'elsewhere' }, 30],
  ['a process before this machine came up', { since: 0 }, 0],
  ['another machine whose clock is ahead', { host: 'elsewhere' }, -3600],
])('takes the place of %s', async (_, holder, agoSeconds) => {
  lock(holder, agoSeconds);
  expect(await within(1500)).toBeTypeOf('function');
});

it.each([
  ['a process that lives', {}, 0],
  ['one that was there a moment ago', { process: 2 ** 30 }, 0],
  ['another machine', { host: 'elsewhere' }, 5],
])('waits for %s', async (_, holder, agoSeconds) => {
  lock(holder, agoSeconds);
  expect(await within(1200)).toBe('waits');
});

it('lets one of several serve who come at once', async () => {
  const all = await Promise.all([within(1500), within(1500), within(1500)]);
  expect(all.map((each) => (typeof each === 'function' ? 'serves' : each)).sort()).toEqual(['serves', 'waits', 'waits']);
});

it.each([
  ['auto', { ids: [0], of: 1 }, false],
  [{ ids: [0, 1], of: 4 }, { ids: [1], of: 4 }, false],
  [{ ids: [0], of: 2 }, { ids: [0], of: 4 }, false],
  [{ ids: [0, 1], of: 4 }, { ids: [2, 3], of: 4 }, true],
] as const)('beside %j, lets %j serve: %s', async (one, other, both) => {
  expect(await within(1000, one)).toBeTypeOf('function');
  expect(await within(1200, other)).toEqual(both ? expect.any(Function) : 'waits');
});
