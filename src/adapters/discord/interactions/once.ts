/** For longer than the platform takes answers to anything. */
const KEPT_MS = 16 * 60_000;
const MOST_KEPT = 10_000;

/** Knows again what the platform delivers twice, as it does where two sessions overlap. */
export class Once {
  /** By id, when it came; the oldest first. */
  readonly #seen = new Map<string, number>();

  /** Whether it is the first time. `now` in milliseconds, from any clock that only goes on. */
  first(id: string, now: number): boolean {
    if (this.#seen.has(id)) return false;
    this.#seen.set(id, now);
    for (const [oldest, at] of this.#seen) {
      if (this.#seen.size <= MOST_KEPT && now - at < KEPT_MS) break;
      this.#seen.delete(oldest);
    }
    return true;
  }
}
