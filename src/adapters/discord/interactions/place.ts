import { type BaseInteraction, ChannelType, Routes } from 'discord.js';

const PATIENCE_MS = 1000;
const MOST_KNOWN = 5000;
const THREADS: readonly unknown[] = [ChannelType.AnnouncementThread, ChannelType.PublicThread, ChannelType.PrivateThread];
/** Nobody can write in these themselves, so nothing could be rung there: each of their posts is a bench of its own. */
const ONLY_POSTS: readonly unknown[] = [ChannelType.GuildForum, ChannelType.GuildMedia];

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
    if (channel !== null && !channel.isThread()) return this.#remember(channelId, null);
    if (channel?.isThread() && channel.parent)
      return this.#remember(channelId, ONLY_POSTS.includes(channel.parent.type) ? null : channel.parentId);
    const signal = AbortSignal.timeout(PATIENCE_MS);
    const told = (id: string) => client.rest.get(Routes.channel(id), { signal });
    try {
      const parent = channel?.isThread() ? channel.parentId : parentIn(await told(channelId));
      const posts = parent !== null && ONLY_POSTS.includes(typeIn(await told(parent)));
      return this.#remember(channelId, posts ? null : parent);
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

const typeIn = (told: unknown): unknown => (typeof told === 'object' && told !== null && 'type' in told ? told.type : undefined);

/** A channel's own parent is a category, which is no bench; only a thread's counts. */
function parentIn(told: unknown): string | null {
  if (typeof told !== 'object' || told === null || !('type' in told) || !('parent_id' in told)) return null;
  return THREADS.includes(told.type) && typeof told.parent_id === 'string' ? told.parent_id : null;
}
