import type { BaseInteraction } from 'discord.js';
import { Routes } from 'discord.js';

const PATIENCE_MS = 1000;
const MOST_KNOWN = 5000;
/** The platform's three kinds of threads. */
const THREADS: readonly unknown[] = [10, 11, 12];

/** Which bench a channel belongs to: a thread shares that of the channel it hangs on. */
export class Places {
  readonly #benches = new Map<string, string>();

  /**
   * The channel whose bench is meant; undefined where nothing was said in a channel of a server. Where the platform cannot
   * say within a second what kind of channel it is, the channel counts as one of its own. Never rejects.
   */
  async benchOf({ channelId, guildId, channel, client }: BaseInteraction): Promise<string | undefined> {
    if (channelId === null || guildId === null) return undefined;
    const known = this.#benches.get(channelId);
    if (known !== undefined) return known;
    if (channel !== null) return this.#remember(channelId, channel.isThread() ? channel.parentId : null);
    try {
      const told = await client.rest.get(Routes.channel(channelId), { signal: AbortSignal.timeout(PATIENCE_MS) });
      return this.#remember(channelId, parentIn(told));
    } catch {
      return channelId;
    }
  }

  #remember(channel: string, parent: string | null): string {
    const bench = parent ?? channel;
    if (this.#benches.size >= MOST_KNOWN) this.#benches.clear();
    this.#benches.set(channel, bench);
    return bench;
  }
}

/** A channel's own parent is a category, which is no bench; only a thread's counts. */
function parentIn(told: unknown): string | null {
  if (typeof told !== 'object' || told === null || !('type' in told) || !('parent_id' in told)) return null;
  return THREADS.includes(told.type) && typeof told.parent_id === 'string' ? told.parent_id : null;
}
