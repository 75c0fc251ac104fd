import { z } from 'zod';
import { MemoryLock } from '../../../bench/lock.ts';
import type { Way } from '../../../words/refusal.ts';
import type { Memory } from '../memory.ts';

const board = z.object({
  /** Null from before it is sent until it is known to stand there. */
  message: z.string().nullable(),
  /** Counts the messages that were made for this board. */
  generation: z.number(),
  /** A digest of what it shows. */
  shown: z.string(),
  /** It stands without a picture that it should have. */
  bare: z.boolean().default(false),
});
const keptWay = z.object({
  hash: z.string(),
  command: z.string(),
  options: z.record(z.string(), z.string()),
  asks: z.boolean().optional(),
});
const record = z.object({
  /** When the bot was thrown out; null while it is there. Milliseconds since the epoch. */
  leftAt: z.number().nullable().default(null),
  /** By channel. */
  boards: z.record(z.string(), board).default({}),
  /** Who was told of what by private message: digests, the oldest first. */
  told: z.array(z.string()).default([]),
  /** What buttons mean whose ids have no room for it, the oldest first. */
  kept: z.array(keptWay).default([]),
});

export type ServerRecord = z.infer<typeof record>;

const FRESH: ServerRecord = { leftAt: null, boards: {}, told: [], kept: [] };
export const MOST_TOLD = 500;
const MOST_KEPT = 500;

/** What the bot remembers of each server beside its benches. Changes of one server's record never overtake each other. */
export class Records {
  readonly #memory: Memory;
  readonly #lock = new MemoryLock();

  constructor(memory: Memory) {
    this.#memory = memory;
  }

  /** A fresh one where there is none, or none that can be read. */
  async read(server: string): Promise<ServerRecord> {
    const parsed = record.safeParse(await this.#memory.get(keyOf(server)));
    return parsed.success ? parsed.data : FRESH;
  }

  /** Resolves when the change is durable. Given back as it was, the record is not written. */
  change(server: string, change: (record: ServerRecord) => ServerRecord): Promise<ServerRecord> {
    return this.#lock.run(server, async () => {
      const before = await this.read(server);
      const after = change(before);
      if (after !== before) await this.#memory.set(keyOf(server), after);
      return after;
    });
  }

  forget(server: string): Promise<void> {
    return this.#lock.run(server, () => this.#memory.delete(keyOf(server)));
  }

  /** Keeps what a button means under `hash`; of many, only the newest stay. */
  async keep(server: string, hash: string, { command, options, asks }: Pick<Way, 'command' | 'options' | 'asks'>): Promise<void> {
    const way = { hash, command, options: { ...options }, ...(asks === undefined ? {} : { asks }) };
    await this.change(server, (before) => {
      // Whoever uses it again must not lose it soon; to move it at every use would be a write for each message.
      if (before.kept.slice(-MOST_KEPT / 2).some((each) => each.hash === hash)) return before;
      const others = before.kept.filter((each) => each.hash !== hash);
      return { ...before, kept: [...others, way].slice(-MOST_KEPT) };
    });
  }

  /** Undefined for what was never kept, or is so old that it had to go. */
  async kept(server: string, hash: string): Promise<Pick<Way, 'command' | 'options' | 'asks'> | undefined> {
    const way = (await this.read(server)).kept.find((each) => each.hash === hash);
    if (!way) return undefined;
    return { command: way.command, options: way.options, ...(way.asks === undefined ? {} : { asks: way.asks }) };
  }
}

const keyOf = (server: string) => `server:${server}`;
