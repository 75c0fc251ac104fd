import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const MOST = 500;

/** What was typed before, the newest first, kept in a file of the data folder; without a folder it is not kept. */
export function historyIn(folder: string | null, trouble: (error: unknown) => void) {
  const file = folder === null ? null : join(folder, 'typed-lines.txt');
  const read = (): string[] => {
    try {
      return file === null ? [] : readFileSync(file, 'utf8').split('\n').filter(Boolean).slice(0, MOST);
    } catch {
      return []; // None was kept yet; and a broken one is no reason not to start.
    }
  };
  const keep = (lines: readonly string[]) => {
    try {
      if (file !== null) writeFileSync(file, lines.slice(0, MOST).join('\n'), { mode: 0o600 });
    } catch (error) {
      trouble(error);
    }
  };
  return { read, keep, most: MOST };
}
