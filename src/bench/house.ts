import type { Refusal } from '../words/refusal.ts';
import { Bench, type BenchParts } from './bench.ts';
import { type BenchState, EMPTY, openJobs } from './fold.ts';
import { Learning } from './learning.ts';
import { Log } from './log.ts';
import type { Studio } from './studio.ts';
import { type StudioEvent, studioAfter, studioEvent } from './studio-events.ts';

export interface HouseParts extends BenchParts {
  /** The studio as its configuration has it, before anything was set from chat. */
  readonly configured: Studio;
  /** Told when a studio was forgotten, so that others forget what they keep of it. */
  readonly forgot: (house: string) => Promise<void>;
}

/** The names of a studio's streams in the store. */
export interface Streams {
  readonly studio: string;
  /** The stream of a channel is this and the channel's id. */
  readonly benches: string;
}

/** One studio with all its benches. */
export class House {
  readonly id: string;
  readonly #parts: HouseParts;
  readonly #streams: Streams;
  readonly #benches = new Map<string, Bench>();
  readonly #studio: Log<StudioEvent, Studio>;
  readonly #learning = new Learning((take) => this.#readAll(take));
  /** Benches that follow what another has learned, one after the other. */
  #following: Promise<void> = Promise.resolve();
  #asleep = false;

  constructor(id: string, streams: Streams, parts: HouseParts) {
    this.id = id;
    this.#parts = parts;
    this.#streams = streams;
    this.#studio = new Log<StudioEvent, Studio>(streams.studio, {
      ...parts,
      schema: studioEvent,
      empty: parts.configured,
      advance: studioAfter,
    });
  }

  /** The studio as it is now, with what it has learned. */
  studio = async (): Promise<Studio> => {
    const { state } = await this.#studio.read();
    return { ...state, paces: await this.#learning.paces(state) };
  };

  /** Changes the studio's settings; every bench's timer then follows them. */
  async changeStudio(decide: (studio: Studio) => readonly StudioEvent[] | Refusal): Promise<Studio | Refusal> {
    const decided = await this.#studio.decide(decide);
    if (!('state' in decided)) return decided;
    for (const bench of this.#benches.values()) {
      await bench.arm();
      this.#parts.changed(this.id, bench.channel);
    }
    return this.studio();
  }

  bench(channel: string): Bench {
    const known = this.#benches.get(channel);
    if (known) return known;
    const stream = `${this.#streams.benches}${channel}`;
    const settled = (state: BenchState) => this.#settled(channel, state);
    const bench = new Bench({ house: this.id, channel, stream, studio: this.studio, settled }, this.#parts);
    this.#benches.set(channel, bench);
    return bench;
  }

  /** The other benches of this studio, as far as anything was read of them by now. */
  others = (channel: string): Bench[] => [...this.#benches.values()].filter((bench) => bench.channel !== channel);

  /** The channels that have a history. */
  async channels(): Promise<string[]> {
    const { benches } = this.#streams;
    const streams = await this.#parts.store.streams();
    return streams.filter((stream) => stream.startsWith(benches)).map((stream) => stream.slice(benches.length));
  }

  /** After a start: every bench with a history sends what fell due meanwhile, and sets its timer. */
  async wakeAll(): Promise<void> {
    this.#asleep = false;
    for (const channel of await this.channels()) await this.bench(channel).wake();
  }

  /** Deletes all that this studio and its benches hold. The studio comes last: a kill in between leaves it to be found. */
  async forget(): Promise<void> {
    for (const channel of new Set([...(await this.channels()), ...this.#benches.keys()])) {
      await this.bench(channel).forget();
      this.#learning.take(channel, EMPTY);
    }
    await this.#studio.forget();
    await this.#parts.forgot(this.id);
  }

  /**
   * What a finger found on one bench moves the clocks of others: of those with a job under way. Whoever told it does not wait
   * for them.
   */
  #settled(channel: string, state: BenchState): void {
    if (!this.#learning.take(channel, state)) return;
    this.#following = this.#following.then(() => this.#follow(this.others(channel))).catch(this.#parts.trouble);
  }

  /** Resolves when the other benches have followed what was told so far. */
  followed = (): Promise<void> => this.#following;

  async #follow(benches: readonly Bench[]): Promise<void> {
    for (const bench of benches) {
      if (this.#asleep) return;
      if (openJobs(await bench.state()).length === 0) continue;
      await bench.arm();
      this.#parts.changed(this.id, bench.channel);
    }
  }

  /** A bench that cannot be read is left out, so that the others go on. */
  async #readAll(take: (channel: string, state: BenchState) => void): Promise<void> {
    for (const channel of await this.channels())
      try {
        take(channel, await this.bench(channel).state());
      } catch (error) {
        this.#parts.trouble(error);
      }
  }

  /** Calls off all timers. */
  sleep(): void {
    this.#asleep = true;
    for (const bench of this.#benches.values()) bench.sleep();
  }

  /** Rings no more. */
  close(): void {
    this.#asleep = true;
    for (const bench of this.#benches.values()) bench.close();
  }
}
