/** What a bench needs from outside. Each comment tells an implementer what to keep; `tests/contracts` holds them to it. */

/**
 * Append-only streams of events, one stream per channel and one per studio.
 *
 * Implement it so that:
 * - `append` resolves only when the batch is durable: after a power cut it is there, whole. It is all or nothing.
 * - `append` with an `expectedVersion` that is not the stream's current one rejects with `VersionConflict` and changes
 *   nothing, also when another process wrote in between.
 * - any other failure to write rejects; it is never swallowed.
 * - what was loaded is a copy: changing it changes nothing that is stored.
 * - `forget` resolves when nothing of the stream is left; it goes as a whole or not at all, and may begin anew from 0.
 */
export interface EventStore {
  /**
   * The events of the batches after version `after` (0 for all), oldest first, and the version they lead to. Nothing and
   * version 0 where the stream does not reach to `after`: it was forgotten meanwhile.
   */
  load(stream: string, after: number): Promise<Loaded>;
  /** Adds one batch (at least one event) and resolves to the new version, which is `expectedVersion + 1`. */
  append(stream: string, expectedVersion: number, events: readonly unknown[]): Promise<number>;
  /** The names of all streams that hold at least one batch, in any order. */
  streams(): Promise<string[]>;
  /** Deletes the stream with all that it holds. */
  forget(stream: string): Promise<void>;
}

export interface Loaded {
  readonly events: readonly unknown[];
  /** How many batches the stream has. */
  readonly version: number;
}

export class VersionConflict extends Error {
  override readonly name = 'VersionConflict';
}

/**
 * Runs work for one key at a time, in the order asked for; works for different keys do not wait for each other. A work
 * that fails lets the next one in, and its own error reaches its caller.
 */
export interface Lock {
  run<T>(key: string, work: () => Promise<T>): Promise<T>;
}

/**
 * Who may send next. `take` runs the work of each turn, again only where the platform put it off, and resolves or rejects
 * with it. Where more is to be sent than may be, the most urgent (the smallest number, asked anew each time somebody is
 * chosen) goes first.
 */
export interface Turns {
  take(turn: Turn): Promise<void>;
}

export interface Turn {
  readonly urgency: () => number;
  readonly work: () => Promise<void>;
}

/**
 * Tells the time and rings. A ring is only a hint: whoever gets one looks for itself what is due, so an early, a late or a
 * repeated ring does no harm, and none survives a restart.
 */
export interface Clock {
  /** Milliseconds since the epoch. */
  now(): number;
  /** Rings once, as soon as the clock shows `at` or later. Returns a function that calls it off. */
  wakeAt(at: number, ring: () => Promise<void>): () => void;
}
