import type { Lock } from './ports.ts';

/** A lock within one process. */
export class MemoryLock implements Lock {
  /** For each key in use, the end of its last work. */
  readonly #tails = new Map<string, Promise<void>>();

  /** How many keys have work that runs or waits. */
  get busy(): number {
    return this.#tails.size;
  }

  run<T>(key: string, work: () => Promise<T>): Promise<T> {
    const done = (this.#tails.get(key) ?? Promise.resolve()).then(work);
    const release = () => {
      if (this.#tails.get(key) === tail) this.#tails.delete(key);
    };
    // A failure is the caller's to see; the next in line only needs to know that it is over.
    const tail = done.then(release, release);
    this.#tails.set(key, tail);
    return done;
  }
}
