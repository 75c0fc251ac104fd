import { House, type HouseParts, type Streams } from './house.ts';

/** The studio of the local chat. */
export const LOCAL = 'local';

const SERVER = /^server:([^/]+)\/(?:bench:(.+))?/s;

const streamsOf = (id: string): Streams =>
  id === LOCAL
    ? { studio: 'studio:local', benches: 'bench:' }
    : { studio: `server:${id}/studio`, benches: `server:${id}/bench:` };

/** All studios that one store holds: one for each server, and the local chat's. */
export class Studios {
  readonly #parts: HouseParts;
  readonly #houses = new Map<string, House>();

  constructor(parts: HouseParts) {
    this.#parts = parts;
  }

  house(id: string): House {
    const known = this.#houses.get(id);
    if (known) return known;
    const house = new House(id, streamsOf(id), this.#parts);
    this.#houses.set(id, house);
    return house;
  }

  /** The servers of which anything is stored, and of each the channels with a history. */
  async servers(): Promise<Map<string, string[]>> {
    const servers = new Map<string, string[]>();
    for (const stream of await this.#parts.store.streams()) {
      const [, id, channel] = SERVER.exec(stream) ?? [];
      if (id === undefined) continue;
      const channels = servers.get(id) ?? [];
      if (channel !== undefined) channels.push(channel);
      servers.set(id, channels);
    }
    return servers;
  }

  /** Rings no more. */
  close(): void {
    for (const house of this.#houses.values()) house.close();
  }
}

/** For a surface that can take any number of messages at once. */
export const EVERYBODY_AT_ONCE = { take: ({ work }: { work: () => Promise<void> }) => work() };
