import type { Refusal } from '../words/refusal.ts';
import { Bench, type BenchParts } from './bench.ts';
import { Log } from './log.ts';
import type { Studio } from './studio.ts';
import { type StudioEvent, studioAfter, studioEvent } from './studio-events.ts';

/** One studio with all its benches. */
export class House {
  readonly #parts: Omit<BenchParts, 'studio'>;
  readonly #benches = new Map<string, Bench>();
  readonly #studio: Log<StudioEvent, Studio>;

  constructor(parts: Omit<BenchParts, 'studio'> & { configured: Studio }) {
    this.#parts = parts;
    this.#studio = new Log<StudioEvent, Studio>('studio:local', {
      ...parts,
      schema: studioEvent,
      empty: parts.configured,
      advance: studioAfter,
    });
  }

  /** The studio as it is now. */
  studio = async (): Promise<Studio> => (await this.#studio.read()).state;

  /** Changes the studio's settings; every bench's timer then follows them. */
  async changeStudio(decide: (studio: Studio) => readonly StudioEvent[] | Refusal): Promise<Studio | Refusal> {
    const decided = await this.#studio.decide(decide);
    if (!('state' in decided)) return decided;
    for (const bench of this.#benches.values()) await bench.arm();
    return decided.state;
  }

  bench(channel: string): Bench {
    const known = this.#benches.get(channel);
    if (known) return known;
    const bench = new Bench(channel, { ...this.#parts, studio: this.studio });
    this.#benches.set(channel, bench);
    return bench;
  }

  /** After a start: every bench with a history sends what fell due meanwhile, and sets its timer. */
  async wakeAll(): Promise<void> {
    for (const stream of await this.#parts.store.streams())
      if (stream.startsWith('bench:')) await this.bench(stream.slice('bench:'.length)).wake();
  }

  /** Calls off all timers. */
  sleep(): void {
    for (const bench of this.#benches.values()) bench.sleep();
  }
}
