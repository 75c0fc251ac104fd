import { execFileSync } from 'node:child_process';
import { closeSync, ftruncateSync, mkdirSync, mkdtempSync, openSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { code, room, roomEach } from '../../support/room.ts';
import { box } from '../discord/models.ts';

const MEBIBYTE = 1024 * 1024;
/** POSIX has it; Node cannot make one by itself. */
const PIPE_MAKER = 'mkfifo';
const folder = mkdtempSync(join(tmpdir(), 'coatbell-files.'));
const at = (name: string) => join(folder, name);
const sized = (name: string, bytes: number) => {
  const file = openSync(at(name), 'w');
  ftruncateSync(file, bytes);
  closeSync(file);
};

beforeAll(() => {
  // 200 x 100 x 50 mm: without the bottom 2 (200 · 50 + 100 · 50) + 200 · 100 mm² = 0.05 m².
  for (const name of ['brick.stl', 'a brick of ours.stl', 'brick: new.stl']) writeFileSync(at(name), box(200, 100, 50));
  symlinkSync(at('brick.stl'), at('link.stl'));
  mkdirSync(at('folder.stl'));
  sized('101.stl', 101 * MEBIBYTE);
  sized('holes.stl', 90 * MEBIBYTE);
  sized('100.stl', 100 * MEBIBYTE);
  sized('21.yaml', 21 * MEBIBYTE);
  sized('terabyte.stl', 1024 * 1024 * MEBIBYTE);
  sized('empty.stl', 0);
  execFileSync(PIPE_MAKER, [at('pipe.stl')]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const local = roomEach();

describe('a path', () => {
  it.each([
    ['as it is', at('brick.stl'), 'brick.stl'],
    ['with spaces', at('a brick of ours.stl'), 'a brick of ours.stl'],
    ['in quotes', `"${at('a brick of ours.stl')}"`, 'a brick of ours.stl'],
    ['in single quotes, as it is dragged into a terminal', `'${at('a brick of ours.stl')}'`, 'a brick of ours.stl'],
    ['with what would be an option, in quotes', `"${at('brick: new.stl')}"`, 'brick: new.stl'],
    ['that leads on', at('link.stl'), 'link.stl'],
  ])('%s is read, and the file called by its name', async (_, path, name) => {
    const [told] = await local.type(`/area model:${path} unit:mm`);
    expect(`${told?.title}\n${told?.text}`).toContain('0.05 m²');
    expect(told?.text).toContain(`${name}, in millimetres`);
  });

  it.each([
    ['./nothing.stl', 'file-not-read', `there is none of that name. It was looked for at ${process.cwd()}/nothing.stl.`],
    ['/nowhere/nothing.stl', 'file-not-read', 'got /nowhere/nothing.stl: there is none of that name.'],
    ['~/nothing.stl', 'file-not-read', 'Here ~ does not stand for your home folder'],
    [`${at('brick.stl')}/more.stl`, 'file-not-read', 'a part of the path is no folder'],
    [`${at('x'.repeat(300))}.stl`, 'file-not-read', 'the name is too long'],
    [at('folder.stl'), 'file-not-read', 'Expected a file, got a folder'],
    [at('pipe.stl'), 'file-not-read', 'Expected a file, got a pipe'],
    ['/dev/zero', 'file-not-read', 'Expected a file, got a device'],
    ['/dev/null', 'file-not-read', 'Expected a file, got a device'],
    [at('101.stl'), 'file-too-large', 'at most 100 MiB, got one of 101 MiB'],
    [at('terabyte.stl'), 'file-too-large', 'at most 100 MiB, got one of 1048576 MiB'],
    [at('holes.stl'), 'mesh-unreadable', 'Expected 0 triangles, as the STL file announces'],
    [at('100.stl'), 'mesh-unreadable', 'Expected 0 triangles, as the STL file announces'],
    [at('empty.stl'), 'mesh-empty', 'got an empty file'],
  ])('%s: %s', async (path, wrong, said) => {
    const [told] = await local.type(`/area model:${path}`);
    expect(code(told)).toBe(wrong);
    expect(told?.text).toContain(said);
    expect(told?.text).toContain('For example: /area model:./lion.stl');
  });
});

it.each(['nothing.yaml', folder, '/dev/zero', at('21.yaml')])(
  'a list at %s is refused with an example of a list',
  async (path) => {
    const [told] = await local.type(`/material load file:${path}`);
    expect(code(told)).toMatch(/^file-/);
    const [, example] = /For example: (.*)$/.exec(told?.text ?? '') ?? [];
    expect(example).toMatch(/^\/material load file:/);
    const other = await room();
    expect(code((await other.type(example ?? ''))[0])).toBeUndefined();
    await other.close();
  },
);
