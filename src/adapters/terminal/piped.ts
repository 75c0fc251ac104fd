import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';

/** Hands on the lines of a pipe or a file, one at a time and in order; resolves at the end of the input. */
export async function piped(input: Readable, line: (typed: string) => Promise<void>): Promise<void> {
  const lines = createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY, terminal: false });
  for await (const typed of lines) await line(typed);
}
