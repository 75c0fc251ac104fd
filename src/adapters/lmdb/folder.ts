import {
  accessSync,
  closeSync,
  constants,
  mkdirSync,
  openSync,
  readSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';

const SMALLEST_PAGE = 4096;
const MARK = Buffer.from('dec0efbe', 'hex');

/** Null where there is nothing, or where what stands before it is no folder. */
function entryAt(path: string): Stats | null {
  try {
    return statSync(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    throw new Error(`${path} cannot be looked at (${code})`);
  }
}

/**
 * Makes `folder` where it does not exist, and throws where nothing can be stored in it. LMDB itself would end the whole
 * process on a path that is no folder, and so would Node hang on making folders, all in one call, where none can be made.
 */
export function readyFolder(folder: string): void {
  const missing: string[] = [];
  let there = resolve(folder);
  while (!entryAt(there) && dirname(there) !== there) {
    missing.unshift(there);
    there = dirname(there);
  }
  if (!entryAt(there)?.isDirectory()) throw new Error(`${there} is not a folder`);
  try {
    accessSync(there, constants.W_OK | constants.X_OK);
  } catch {
    throw new Error(`nothing can be written in ${there}`);
  }
  for (const level of missing) makeFolder(level);
  const path = join(folder, 'data.mdb');
  const data = entryAt(path);
  if (!data) tryWriting(folder);
  else if (!data.isFile()) throw new Error(`${path} is not a file`);
  else if (data.size > 0 && !isStore(path, data.size)) throw new Error(`${path} is damaged, or another program's file`);
}

/** Whether LMDB's mark stands in the first of its two head pages; without it, LMDB would end the whole process. */
function isStore(path: string, size: number): boolean {
  if (size < 2 * SMALLEST_PAGE) return false;
  const head = Buffer.alloc(64);
  let file: number;
  try {
    file = openSync(path, 'r+');
  } catch (error) {
    throw new Error(`${path} cannot be opened (${(error as NodeJS.ErrnoException).code})`);
  }
  try {
    readSync(file, head, 0, head.length, 0);
  } finally {
    closeSync(file);
  }
  return head.includes(MARK) || head.includes(Buffer.from(MARK).reverse());
}

function makeFolder(path: string): void {
  try {
    mkdirSync(path);
  } catch (error) {
    // Another process may have made it meanwhile.
    if (!entryAt(path)?.isDirectory()) throw new Error(`${path} cannot be made (${(error as NodeJS.ErrnoException).code})`);
  }
}

/** The rights alone do not tell: the superuser has them in folders that take no files. */
function tryWriting(folder: string): void {
  const probe = join(folder, `.probe-${process.pid}`);
  try {
    writeFileSync(probe, '');
    rmSync(probe, { force: true });
  } catch (error) {
    throw new Error(`nothing can be written in ${folder} (${(error as NodeJS.ErrnoException).code})`);
  }
}
