import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readyFolder } from '../../../src/adapters/lmdb/folder.ts';
import { LmdbStore } from '../../../src/adapters/lmdb/store.ts';

const root = mkdtempSync(join(tmpdir(), 'ready-folder-'));
afterAll(() => rmSync(root, { recursive: true }));

test('a folder is made with all that leads to it, and left empty', () => {
  const folder = join(root, 'a', 'b.c', 'd');
  readyFolder(folder);
  expect(readdirSync(folder)).toEqual([]);
});

test('a store that is there already will do, and one that is still empty', async () => {
  const folder = join(root, 'store');
  await new LmdbStore({ folder }).disconnect();
  expect(existsSync(join(folder, 'data.mdb'))).toBe(true);
  expect(() => readyFolder(folder)).not.toThrow();
  mkdirSync(join(root, 'empty'));
  writeFileSync(join(root, 'empty', 'data.mdb'), '');
  expect(() => readyFolder(join(root, 'empty'))).not.toThrow();
});

test('what can hold no store is refused in words', () => {
  const file = join(root, 'notes.txt');
  writeFileSync(file, 'notes');
  expect(() => readyFolder(file)).toThrow(`${file} is not a folder`);
  expect(() => readyFolder(join(file, 'x', 'y'))).toThrow(`${file} is not a folder`);
  const link = join(root, 'link');
  symlinkSync(join(root, 'nowhere'), link);
  expect(() => readyFolder(link)).toThrow(`${link} cannot be made (EEXIST)`);
});

test.each(['short', 'x'.repeat(100_000)])('a data file that is no store is refused', (text) => {
  const folder = mkdtempSync(join(root, 'other-'));
  writeFileSync(join(folder, 'data.mdb'), text);
  expect(() => readyFolder(folder)).toThrow(/is damaged, or another program's file/);
});
