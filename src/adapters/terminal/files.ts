import type { Stats } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import type { Files } from '../../desk/desk.ts';
import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';

const MEBIBYTE = 1024 * 1024;

/** What people hand in is named by its path; `example` is a line that hands one in. */
export const givenFiles = (example: string): Files => ({
  read: (typed, mostBytes = 20 * MEBIBYTE) => readGiven(pathIn(typed), mostBytes, example),
  nameOf: (typed) => basename(pathIn(typed)),
});

/** Where a file is dragged into a terminal, many put its path in quotes. */
const pathIn = (typed: string): string => /^(['"])(.+)\1$/s.exec(typed.trim())?.[2] ?? typed;

async function readGiven(path: string, mostBytes: number, example: string): Promise<Uint8Array | Refusal> {
  const no = (code: string, why: ReturnType<typeof say>) => new Refusal(code, why, { example });
  try {
    const found = await stat(path);
    // What is no plain file might never come to an end.
    if (!found.isFile()) return no('file-not-read', say`Expected a file, got ${plain(kindOf(found))}: ${path}.`);
    if (found.size > mostBytes)
      return no(
        'file-too-large',
        say`Expected a file of at most ${mostBytes / MEBIBYTE} MiB, got one of ${Math.ceil(found.size / MEBIBYTE)} MiB: ${path}.`,
      );
    return await readFile(path);
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException;
    return no(
      'file-not-read',
      say`Expected a file that can be read, got ${path}: ${plain(WHY[code] ?? code)}.${where(path, code)}`,
    );
  }
}

const kindOf = (found: Stats): string =>
  found.isDirectory() ? 'a folder' : found.isFIFO() || found.isSocket() ? 'a pipe' : 'a device';

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'there is none of that name',
  ENOTDIR: 'a part of the path is no folder',
  EACCES: 'you may not read it',
  ENAMETOOLONG: 'the name is too long',
};

/** Where it was looked for, as a shell would not have done. */
function where(path: string, code: string) {
  if (code !== 'ENOENT') return say``;
  if (path.startsWith('~')) return say` Here ~ does not stand for your home folder: write the whole path.`;
  return resolve(path) === path ? say`` : say` It was looked for at ${resolve(path)}.`;
}
