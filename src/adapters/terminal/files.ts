import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import type { CardFile } from '../../chat/card.ts';
import type { Files } from '../../desk/desk.ts';
import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';

const MEBIBYTE = 1024 * 1024;

/** What people hand in is named by its path. */
export const givenFiles: Files = { read: readGiven, nameOf: (path) => basename(path) };

async function readGiven(path: string, mostBytes = 20 * MEBIBYTE): Promise<Uint8Array | Refusal> {
  const no = (code: string, why: ReturnType<typeof say>) => new Refusal(code, why, { example: './materials.yaml' });
  try {
    const { size } = statSync(path);
    if (size > mostBytes)
      return no(
        'file-too-large',
        say`Expected a file of at most ${mostBytes / MEBIBYTE} MiB, got one of ${size} bytes: ${path}.`,
      );
    return await readFile(path);
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException;
    return no('file-not-read', say`Expected a file that can be read, got ${path} (${code}).`);
  }
}

/** Puts a card's files into the folder, none over another, and gives their paths. */
export function saveFiles(files: readonly CardFile[], folder: string): string[] {
  if (files.length > 0) mkdirSync(folder, { recursive: true });
  return files.map(({ name, bytes }) => {
    const ending = extname(name);
    const stem = basename(name, ending);
    for (let number = 1; ; number += 1) {
      const path = join(folder, number === 1 ? `${stem}${ending}` : `${stem}-${number}${ending}`);
      try {
        writeFileSync(path, bytes, { flag: 'wx' });
        return path;
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
      }
    }
  });
}
