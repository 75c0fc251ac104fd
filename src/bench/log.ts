import type { z } from 'zod';
import { isRefusal, type Refusal } from '../words/refusal.ts';
import { type EventStore, type Lock, VersionConflict } from './ports.ts';

/** How often a decision is made anew because another process wrote in between. */
const MOST_TRIES = 8;

type Numbered<E> = E & { readonly seq: number };

interface LogParts<E, S> {
  readonly store: EventStore;
  readonly lock: Lock;
  readonly schema: z.ZodType<E>;
  /** The state of an empty log. */
  readonly empty: S;
  /** The state once `fresh` has come to the end of what led to `state`; `log` is all of it, `fresh` included. */
  readonly advance: (state: S, fresh: readonly Numbered<E>[], log: readonly Numbered<E>[]) => S;
}

/** One stream of events in memory: read on from where it stands, decided upon and added to under its lock. */
export class Log<E extends object, S> {
  readonly #stream: string;
  readonly #parts: LogParts<E, S>;
  #events: Numbered<E>[] = [];
  #version = 0;
  #state: S;

  constructor(stream: string, parts: LogParts<E, S>) {
    this.#stream = stream;
    this.#parts = parts;
    this.#state = parts.empty;
  }

  /** Does `work` with nobody else at this stream; what it is given is up to date. */
  async alone<T>(work: (at: Standing<E, S>) => Promise<T>): Promise<T> {
    return this.#parts.lock.run(this.#stream, async () => {
      await this.#readOn();
      return work({ state: this.#state, log: this.#events, append: (events) => this.#append(events) });
    });
  }

  /**
   * Reads, decides and appends as one. Resolves when what was decided is durable. `decide` must have no effects of its own:
   * it is called again when another process wrote first.
   */
  async decide(decide: (state: S, log: readonly Numbered<E>[]) => readonly E[] | Refusal): Promise<Decided<E, S> | Refusal> {
    for (let tries = 1; ; tries += 1)
      try {
        return await this.alone(async ({ state, log, append }) => {
          const events = decide(state, log);
          if (isRefusal(events)) return events;
          const before = this.#state;
          await append(events);
          return { before, state: this.#state, events };
        });
      } catch (error) {
        if (!(error instanceof VersionConflict) || tries === MOST_TRIES) throw error;
      }
  }

  async read(): Promise<{ state: S; log: readonly Numbered<E>[] }> {
    return this.alone(async ({ state, log }) => ({ state, log }));
  }

  /** Deletes all of it; then it is as if it had never begun. */
  async forget(): Promise<void> {
    await this.#parts.lock.run(this.#stream, async () => {
      await this.#parts.store.forget(this.#stream);
      this.#empty();
    });
  }

  async #append(events: readonly E[]): Promise<S> {
    if (events.length === 0) return this.#state;
    this.#version = await this.#parts.store.append(this.#stream, this.#version, events);
    return this.#take(events);
  }

  async #readOn(): Promise<void> {
    const { events, version } = await this.#parts.store.load(this.#stream, this.#version);
    if (version < this.#version) {
      // Another process has forgotten it.
      this.#empty();
      return this.#readOn();
    }
    this.#version = version;
    if (events.length > 0) this.#take(events.map((event) => this.#parts.schema.parse(event)));
  }

  #empty(): void {
    this.#version = 0;
    this.#events = [];
    this.#state = this.#parts.empty;
  }

  #take(events: readonly E[]): S {
    const from = this.#events.length + 1;
    const fresh = events.map((event, index) => ({ ...event, seq: from + index }));
    this.#events.push(...fresh);
    this.#state = this.#parts.advance(this.#state, fresh, this.#events);
    return this.#state;
  }
}

export interface Standing<E, S> {
  readonly state: S;
  readonly log: readonly Numbered<E>[];
  /** Makes the events durable and gives the state that they lead to. */
  append(events: readonly E[]): Promise<S>;
}

export interface Decided<E, S> {
  readonly before: S;
  readonly state: S;
  readonly events: readonly E[];
}
