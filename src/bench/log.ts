import type { z } from 'zod';
import { isRefusal, type Refusal } from '../words/refusal.ts';
import { type EventStore, type Lock, VersionConflict } from './ports.ts';

/** How often a decision is made anew because another process wrote in between. */
const MOST_TRIES = 8;

/** One stream of events in memory: read on from where it stands, decided upon and added to under its lock. */
export class Log<E extends object, S> {
  readonly #stream: string;
  readonly #store: EventStore;
  readonly #lock: Lock;
  readonly #schema: z.ZodType<E>;
  readonly #fold: (log: readonly (E & { seq: number })[]) => S;
  #events: readonly (E & { seq: number })[] = [];
  #version = 0;
  #state: S;

  constructor(
    stream: string,
    parts: { store: EventStore; lock: Lock; schema: z.ZodType<E>; fold: (log: readonly (E & { seq: number })[]) => S },
  ) {
    this.#stream = stream;
    this.#store = parts.store;
    this.#lock = parts.lock;
    this.#schema = parts.schema;
    this.#fold = parts.fold;
    this.#state = parts.fold([]);
  }

  /** Does `work` with nobody else at this stream; what it is given is up to date. */
  async alone<T>(work: (at: Standing<E, S>) => Promise<T>): Promise<T> {
    return this.#lock.run(this.#stream, async () => {
      await this.#readOn();
      return work({ state: this.#state, log: this.#events, append: (events) => this.#append(events) });
    });
  }

  /**
   * Reads, decides and appends as one. Resolves when what was decided is durable. `decide` must have no effects of its own:
   * it is called again when another process wrote first.
   */
  async decide(
    decide: (state: S, log: readonly (E & { seq: number })[]) => readonly E[] | Refusal,
  ): Promise<Decided<E, S> | Refusal> {
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

  async read(): Promise<{ state: S; log: readonly (E & { seq: number })[] }> {
    return this.alone(async ({ state, log }) => ({ state, log }));
  }

  async #append(events: readonly E[]): Promise<S> {
    if (events.length === 0) return this.#state;
    this.#version = await this.#store.append(this.#stream, this.#version, events);
    return this.#take(events);
  }

  async #readOn(): Promise<void> {
    const { events, version } = await this.#store.load(this.#stream, this.#version);
    this.#version = version;
    if (events.length > 0) this.#take(events.map((event) => this.#schema.parse(event)));
  }

  #take(events: readonly E[]): S {
    const from = this.#events.length + 1;
    this.#events = [...this.#events, ...events.map((event, index) => ({ ...event, seq: from + index }))];
    this.#state = this.#fold(this.#events);
    return this.#state;
  }
}

export interface Standing<E, S> {
  readonly state: S;
  readonly log: readonly (E & { seq: number })[];
  /** Makes the events durable and gives the state that they lead to. */
  append(events: readonly E[]): Promise<S>;
}

export interface Decided<E, S> {
  readonly before: S;
  readonly state: S;
  readonly events: readonly E[];
}
