import { House, type HouseParts, type Streams } from './house.ts';

/** The studio of the local chat. */
export const LOCAL = 'local';

const SERVER = /^server:([^/]+)\//;

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

  /** The servers of which anything is stored. */
  async servers(): Promise<string[]> {
    const ids = (await this.#parts.store.streams()).flatMap((stream) => SERVER.exec(stream)?.[1] ?? []);
    return [...new Set(ids)];
  }

  /** Calls off all timers. */
  sleep(): void {
    for (const house of this.#houses.values()) house.sleep();
  }
}

/** For a surface that can take any number of messages at once. */
export const EVERYBODY_AT_ONCE = { take: ({ work }: { work: () => Promise<void> }) => work() };
