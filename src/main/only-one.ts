import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname, uptime } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Shards } from '../adapters/discord/client.ts';

const TOUCHED_EVERY_MS = 1000;
/** A process that lives touches its lock in this time, unless the machine sleeps. */
const QUIET_MS = 2500;
/** Not touched for so long, it is gone: its machine or container is another one now. */
const GONE_MS = 20_000;

interface Holder {
  readonly host: string;
  readonly process: number;
  readonly since: number;
  readonly shards: Shards;
}

/**
 * Makes sure that no second process answers for the same servers from the same folder: both would hear and do all that
 * people ask for. Resolves to what gives the place up again, or to null where another process holds it and lives.
 */
export async function onlyOne(folder: string, shards: Shards): Promise<(() => void) | null> {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `serving-${nameOf(shards)}.lock`);
  const mine = JSON.stringify({ host: hostname(), process: process.pid, since: Date.now(), shards } satisfies Holder);
  const end = Date.now() + GONE_MS + QUIET_MS;
  while (!oneAtATime(folder, () => taken(folder, path, shards, mine))) {
    // One that was killed elsewhere is seen only by its silence.
    if (Date.now() > end) return null;
    await pause(500);
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

const nameOf = (shards: Shards): string => (shards === 'auto' ? 'auto' : `${shards.ids.join('-')}-of-${shards.of}`);

/** Two who come together must not look past each other. False where another one is at it. */
function oneAtATime(folder: string, work: () => boolean): boolean {
  const door = join(folder, 'serving.door');
  try {
    writeFileSync(door, '', { flag: 'wx' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    // What happens behind it takes no time at all: whoever closed it was killed there.
    if (quietFor(door) > QUIET_MS) rmSync(door, { force: true });
    return false;
  }
  try {
    return work();
  } finally {
    rmSync(door, { force: true });
  }
}

/** Whether the place was free, and is this process's own now. */
function taken(folder: string, path: string, shards: Shards, mine: string): boolean {
  const locks = readdirSync(folder).filter((name) => /^serving-.+\.lock$/.test(name));
  for (const lock of locks.map((name) => join(folder, name))) {
    const holder = parsed(read(lock));
    const same = lock === path || (holder !== null && overlap(shards, holder.shards));
    if (same && !isDead(lock, holder)) return false;
  }
  writeFileSync(path, mine);
  return true;
}

function overlap(one: Shards, other: Shards): boolean {
  // Servers are shared out in another way where there are more shards, or as many as the platform wants.
  if (one === 'auto' || other === 'auto' || one.of !== other.of) return true;
  return one.ids.some((id) => other.ids.includes(id));
}

function isDead(path: string, holder: Holder | null): boolean {
  const quiet = quietFor(path);
  if (holder?.host !== hostname()) return quiet > GONE_MS;
  // Before this machine came up, all numbers of processes belonged to others.
  if (holder.since < Date.now() - uptime() * 1000) return true;
  return (holder.process === process.pid || !lives(holder.process)) && quiet > QUIET_MS;
}

/** How long ago it was touched, in milliseconds. A clock that was set back must not keep it alive. */
function quietFor(path: string): number {
  const touchedAt = statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  return Math.abs(Date.now() - touchedAt);
}

function read(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function parsed(text: string | null): Holder | null {
  try {
    const holder: unknown = text === null ? null : JSON.parse(text);
    return typeof holder === 'object' && holder !== null && 'shards' in holder ? (holder as Holder) : null;
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
