import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Platform } from './platform/platform.ts';

const start = fileURLToPath(new URL('../../src/main/start.mjs', import.meta.url));

/** The real program in a process of its own, with only these settings. */
export interface Served {
  readonly child: ChildProcess;
  /** The lines of its log. */
  readonly log: Record<string, unknown>[];
  readonly errors: () => string;
  /** Resolves to the exit code, or to the signal that ended it. */
  readonly ended: Promise<number | string | null>;
  /** Resolves with the first line whose event this is, from the start on. */
  event(name: string): Promise<Record<string, unknown>>;
}

export function program(args: readonly string[], settings: Readonly<Record<string, string>>): Served {
  const { PATH = '', HOME = '' } = process.env;
  const child = spawn(process.execPath, [start, ...args], { env: { PATH, HOME, DISCORD_TOKEN: '', ...settings } });
  const log: Record<string, unknown>[] = [];
  const listeners = new Set<() => void>();
  let [rest, errors] = ['', ''];
  child.stdout.on('data', (chunk) => {
    const lines = `${rest}${chunk}`.split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) log.push(line.startsWith('{') ? JSON.parse(line) : { event: 'text', line });
    for (const listener of listeners) listener();
  });
  child.stderr.on('data', (chunk) => {
    errors += chunk;
  });
  const ended = new Promise<number | string | null>((resolve) => child.on('close', (code, signal) => resolve(code ?? signal)));
  const event = (name: string) =>
    new Promise<Record<string, unknown>>((resolve, reject) => {
      const look = () => {
        const found = log.find((line) => line['event'] === name);
        if (!found) return;
        listeners.delete(look);
        resolve(found);
      };
      listeners.add(look);
      look();
      ended.then((how) => reject(new Error(`it ended (${how}) without "${name}": ${errors}`)));
    });
  return { child, log, errors: () => errors, ended, event };
}

/** Serves against this platform. */
export const serving = (platform: Platform, dataDir: string, more: Readonly<Record<string, string>> = {}): Served =>
  program(['serve', '--data', dataDir], {
    DISCORD_TOKEN: platform.settings.token,
    DISCORD_API: platform.api,
    ...more,
  });
