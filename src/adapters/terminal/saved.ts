import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import type { CardFile } from '../../chat/card.ts';

/** A card's file, and where it was put. */
export interface SavedFile extends Pick<CardFile, 'about' | 'type' | 'bytes'> {
  readonly path: string;
}

/** So many pictures are kept; the program draws them anew whenever it is asked. */
export const MOST_PICTURES = 50;

/**
 * Puts a card's files into the folder, none over another: what a path was once told for never becomes something else. Pictures
 * go into a folder of their own below it, where the same picture is kept once and only the newest stay.
 */
export const saveFiles = (files: readonly CardFile[], folder: string): SavedFile[] =>
  files.map((file) => {
    const { about, type, bytes } = file;
    const path = type === 'image/png' ? savePicture(file, join(folder, 'pictures')) : written(file, folder, 1);
    return { about, type, bytes, path };
  });

function savePicture(file: CardFile, folder: string): string {
  const [stem, ending] = partsOf(file.name);
  const kept = picturesIn(folder);
  const ofName = kept.flatMap((each) => {
    const number = numberIn(basename(each.path), stem, ending);
    return number === null ? [] : [{ ...each, number }];
  });
  const same = ofName.find(({ path, size }) => size === file.bytes.length && readFileSync(path).equals(file.bytes));
  if (same) {
    const now = new Date();
    utimesSync(same.path, now, now);
    return same.path;
  }
  // A number that is gone does not come again, so the next is after the highest.
  const path = written(file, folder, Math.max(0, ...ofName.map(({ number }) => number)) + 1);
  const old = kept.sort((a, b) => b.touchedAt - a.touchedAt).slice(MOST_PICTURES - 1);
  for (const each of old) rmSync(each.path, { force: true });
  return path;
}

function picturesIn(folder: string): { path: string; size: number; touchedAt: number }[] {
  mkdirSync(folder, { recursive: true });
  return readdirSync(folder)
    .filter((name) => name.endsWith('.png'))
    .flatMap((name) => {
      const path = join(folder, name);
      // Another program on the same data may have taken it away meanwhile.
      const found = statSync(path, { throwIfNoEntry: false });
      return found?.isFile() ? [{ path, size: found.size, touchedAt: found.mtimeMs }] : [];
    });
}

const partsOf = (name: string): [stem: string, ending: string] => {
  const ending = extname(name);
  return [basename(name, ending), ending];
};

const numbered = (stem: string, ending: string, number: number) => `${stem}${number === 1 ? '' : `-${number}`}${ending}`;

/** Null for a name that is not one of these. */
function numberIn(name: string, stem: string, ending: string): number | null {
  const number = Number(/-(\d+)\.[^.]*$/.exec(name)?.[1] ?? 1);
  return [number, 1].find((each) => name === numbered(stem, ending, each)) ?? null;
}

/** Under the first free name from this number on. */
function written({ name, bytes }: CardFile, folder: string, first: number): string {
  mkdirSync(folder, { recursive: true });
  const [stem, ending] = partsOf(name);
  for (let number = first; ; number += 1) {
    const path = join(folder, numbered(stem, ending, number));
    try {
      writeFileSync(path, bytes, { flag: 'wx' });
      return path;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}
