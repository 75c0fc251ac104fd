import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { MOST_PICTURES, saveFiles } from '../../../src/adapters/terminal/saved.ts';
import type { CardFile } from '../../../src/chat/card.ts';

const root = mkdtempSync(join(tmpdir(), 'coatbell-saved.'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
let folder = root;
let count = 0;
beforeEach(() => {
  count += 1;
  folder = join(root, `${count}`);
});

const picture = (bytes: string, name = 'board.png'): CardFile => ({
  name,
  about: 'The board',
  type: 'image/png',
  bytes: Buffer.from(bytes),
});
const list: CardFile = { name: 'materials.yaml', about: 'The list', type: 'text/plain', bytes: Buffer.from('materials: []') };
const dates: CardFile = { name: 'plan.ics', about: 'The plan', type: 'text/calendar', bytes: Buffer.from('BEGIN:VCALENDAR') };
const save = (...files: CardFile[]) => saveFiles(files, folder).map(({ path }) => path);
const pictures = () => readdirSync(join(folder, 'pictures'));

it('makes no folder for nothing', () => {
  expect(save()).toEqual([]);
  expect(() => readdirSync(folder)).toThrow();
});

it('gives each file its path, and what it is', () => {
  const saved = saveFiles([picture('a'), list, dates], folder);
  expect(saved.map(({ path, type, about }) => [path, type, about])).toEqual([
    [join(folder, 'pictures', 'board.png'), 'image/png', 'The board'],
    [join(folder, 'materials.yaml'), 'text/plain', 'The list'],
    [join(folder, 'plan.ics'), 'text/calendar', 'The plan'],
  ]);
  for (const { path, bytes } of saved) expect(readFileSync(path)).toEqual(bytes);
});

it('lays no file of a list over another, even where they are the same', () => {
  expect(save(list, list).map((path) => basename(path))).toEqual(['materials.yaml', 'materials-2.yaml']);
  expect(save(list).map((path) => basename(path))).toEqual(['materials-3.yaml']);
});

describe('pictures', () => {
  it('that are the same are one file, others a new one', () => {
    const [first] = save(picture('a'));
    const [second] = save(picture('b'));
    expect([first, second].map((path) => basename(path ?? ''))).toEqual(['board.png', 'board-2.png']);
    expect(save(picture('a'), picture('b'), picture('a'))).toEqual([first, second, first]);
    expect(pictures()).toHaveLength(2);
  });

  it('of another name are files of their own, also with the same bytes', () => {
    const names = save(picture('a'), picture('a', 'plan.png'), picture('b', 'plan-2.png'), picture('c', 'plan.png'));
    expect(names.map((path) => basename(path))).toEqual(['board.png', 'plan.png', 'plan-2.png', 'plan-3.png']);
  });

  it('do not pile up: the newest stay, and a path never comes again for something else', () => {
    const told = Array.from({ length: 3 * MOST_PICTURES }, (_, index) => save(picture(`${index}`))[0] ?? '');
    expect(new Set(told).size).toBe(told.length);
    expect(pictures()).toHaveLength(MOST_PICTURES);
    expect(pictures().sort()).toEqual(
      told
        .slice(-MOST_PICTURES)
        .map((path) => basename(path))
        .sort(),
    );
    // Asked for again, it is as good as new.
    const [oldest = ''] = told.slice(-MOST_PICTURES);
    expect(save(picture(`${2 * MOST_PICTURES}`))).toEqual([oldest]);
    for (let more = 1; more < MOST_PICTURES; more += 1) save(picture(`more ${more}`));
    expect(pictures()).toContain(basename(oldest));
    save(picture('one more'));
    expect(pictures()).not.toContain(basename(oldest));
  });

  it('never come again under a number that was told, also of a name that was not asked for long', () => {
    const told = [save(picture('a', 'plan.png')), save(picture('b', 'plan.png')), save(picture('a', 'plan.png'))].flat();
    for (let index = 0; index <= MOST_PICTURES; index += 1) save(picture(`${index}`));
    const next = save(picture('c', 'plan.png'));
    expect(next.map((path) => basename(path))).toEqual(['plan-3.png']);
    expect(told.map((path) => basename(path))).toEqual(['plan.png', 'plan-2.png', 'plan.png']);
  });

  it('are told apart by when they were asked for, also within one tick of the clock that dates files', () => {
    const [first = ''] = save(picture('0'));
    for (let index = 1; index < MOST_PICTURES; index += 1) save(picture(`${index}`));
    for (let round = 0; round < 40; round += 1) {
      expect(save(picture('0'))).toEqual([first]);
      save(picture(`round ${round}`));
      expect(pictures()).toContain(basename(first));
      expect(pictures()).toHaveLength(MOST_PICTURES);
    }
  });

  it('take nothing away that is no picture of theirs', () => {
    mkdirSync(join(folder, 'pictures', 'folder.png'), { recursive: true });
    writeFileSync(join(folder, 'lion.png'), 'mine');
    writeFileSync(join(folder, 'pictures', 'notes.txt'), 'mine');
    for (let index = 0; index <= MOST_PICTURES; index += 1) save(picture(`${index}`));
    expect(readdirSync(folder)).toContain('lion.png');
    expect(pictures()).toEqual(expect.arrayContaining(['folder.png', 'notes.txt']));
    expect(pictures()).toHaveLength(MOST_PICTURES + 2);
  });
});
