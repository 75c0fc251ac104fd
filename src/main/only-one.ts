import { mkdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const TOUCHED_EVERY_MS = 5_000;
/** Not touched for so long, its process is gone: it was killed, or its machine or container is another one now. */
const DEAD_AFTER_MS = 20_000;

/**
 * Makes sure that no second process answers for the same servers from the same folder: both would hear and do all that
 * people ask for. Resolves to what gives the place up again, or to null where another process holds it and lives.
 */
export async function onlyOne(folder: string, what: string): Promise<(() => void) | null> {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `serving-${what}.lock`);
  const mine = JSON.stringify({ host: hostname(), process: process.pid, since: Date.now() });
  for (let waited = 0; ; waited += 1000) {
    try {
      writeFileSync(path, mine, { flag: 'wx' });
      break;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    if (isDead(path)) rmSync(path, { force: true });
    // One that was killed elsewhere is seen only by its silence.
    else if (waited > DEAD_AFTER_MS) return null;
    else await pause(1000);
  }
  const touch = setInterval(() => {
    try {
      utimesSync(path, new Date(), new Date());
    } catch {
      // It is made anew by whoever comes next; this process goes on.
    }
  }, TOUCHED_EVERY_MS);
  touch.unref();
  return () => {
    clearInterval(touch);
    if (read(path) === mine) rmSync(path, { force: true });
  };
}

function isDead(path: string): boolean {
  const holder = parsed(read(path));
  if (holder?.host === hostname()) return holder.process === process.pid || !lives(holder.process);
  const touchedAt = statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return Date.now() - touchedAt > DEAD_AFTER_MS;
}

function read(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function parsed(text: string | null): { host: string; process: number } | null {
  try {
    return text === null ? null : JSON.parse(text);
  } catch {
    return null;
  }
}

function lives(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
