import { type BaseInteraction, ChannelType, type Client, Routes } from 'discord.js';

const PATIENCE_MS = 1000;
const MOST_KNOWN = 5000;
const THREADS: readonly unknown[] = [ChannelType.AnnouncementThread, ChannelType.PublicThread, ChannelType.PrivateThread];
/** Nobody can write in these themselves, so nothing could be rung there: each of their posts is a bench of its own. */
const ONLY_POSTS: readonly unknown[] = [ChannelType.GuildForum, ChannelType.GuildMedia];

interface Told {
  readonly type: unknown;
  /** A channel's own parent is a category, which is no bench; only a thread's counts. */
  readonly parent: string | null;
}

/** Which bench a channel belongs to: a thread shares that of the channel it hangs on. */
export class Places {
  readonly #benches = new Map<string, string>();
  readonly #told = new Map<string, Told>();

  /** What an interaction brings of its channel, which the client drops where it does not know the channel. */
  learn(channel: unknown): void {
    if (typeof channel !== 'object' || channel === null || !('id' in channel) || typeof channel.id !== 'string') return;
    const told = toldIn(channel);
    if (told) remember(this.#told, channel.id, told);
  }

  /**
   * The channel whose bench is meant; undefined where nothing was said in a channel of a server. Where the platform cannot
   * say within a second what kind of channel it is, the channel counts as one of its own. Never rejects.
   */
  async benchOf({ channelId, guildId, client }: BaseInteraction): Promise<string | undefined> {
    if (channelId === null || guildId === null) return undefined;
    const known = this.#benches.get(channelId);
    if (known !== undefined) return known;
    const signal = AbortSignal.timeout(PATIENCE_MS);
    try {
      const { parent } = await this.#toldOf(channelId, client, signal);
      const posts = parent !== null && ONLY_POSTS.includes((await this.#toldOf(parent, client, signal)).type);
      return remember(this.#benches, channelId, posts ? channelId : (parent ?? channelId));
    } catch {
      // Of a thread's parent it is known at least which it is; forums are rare.
      return this.#told.get(channelId)?.parent ?? channelId;
    }
  }

  async #toldOf(id: string, client: Client, signal: AbortSignal): Promise<Told> {
    const cached = client.channels.cache.get(id);
    if (cached) return { type: cached.type, parent: cached.isThread() ? cached.parentId : null };
    return this.#told.get(id) ?? toldIn(await client.rest.get(Routes.channel(id), { signal })) ?? { type: null, parent: null };
  }
}

function toldIn(channel: unknown): Told | null {
  if (typeof channel !== 'object' || channel === null || !('type' in channel)) return null;
  const { type } = channel;
  const parent = 'parent_id' in channel && typeof channel.parent_id === 'string' ? channel.parent_id : null;
  return { type, parent: THREADS.includes(type) ? parent : null };
}

function remember<T>(map: Map<string, T>, key: string, value: T): T {
  if (map.size >= MOST_KNOWN) map.clear();
  map.set(key, value);
  return value;
}
