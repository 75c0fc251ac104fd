import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import type { CardFile } from '../../chat/card.ts';

/** A card's file, and where it was put. */
export interface SavedFile extends Pick<CardFile, 'about' | 'type' | 'bytes'> {
  readonly path: string;
}

/** So many pictures are kept, and the last of each name; the program draws them anew whenever it is asked. */
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
    markNewest(same.path, kept);
    return same.path;
  }
  // A number that is gone does not come again, so the next is after the highest.
  const highest = ofName.reduce<number>((most, { number }) => Math.max(most, number), 0);
  const path = written(file, folder, highest + 1);
  markNewest(path, kept);
  for (const each of beyondNewest(picturesIn(folder))) rmSync(each.path, { force: true });
  return path;
}

/**
 * The clock that dates what is written may stand still for some milliseconds, and lag behind the program's own: what is told
 * last is therefore dated after all the others.
 */
function markNewest(path: string, kept: readonly Kept[]): void {
  const at = kept.reduce((latest, { touchedAt }) => Math.max(latest, touchedAt + 1), Date.now());
  utimesSync(path, at / 1000, at / 1000);
}

/** Those beyond the newest; but of each name the highest number stays, so that none comes again. */
function beyondNewest(kept: readonly Kept[]): Kept[] {
  const highest = new Map<string, Kept & { number: number }>();
  for (const each of kept) {
    const [, stem = '', number = '1'] = /^(.*?)(?:-(\d+))?\.png$/.exec(basename(each.path)) ?? [];
    if (Number(number) > (highest.get(stem)?.number ?? 0)) highest.set(stem, { ...each, number: Number(number) });
  }
  const staying = new Set([...highest.values()].map(({ path }) => path));
  return [...kept]
    .sort((a, b) => b.touchedAt - a.touchedAt)
    .slice(MOST_PICTURES)
    .filter(({ path }) => !staying.has(path));
}

interface Kept {
  readonly path: string;
  readonly size: number;
  readonly touchedAt: number;
}

function picturesIn(folder: string): Kept[] {
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
