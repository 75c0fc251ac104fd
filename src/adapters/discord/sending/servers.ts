import { MemoryLock } from '../../../bench/lock.ts';
import type { Clock } from '../../../bench/ports.ts';
import type { Studios } from '../../../bench/studios.ts';
import type { Observer } from '../observer.ts';
import type { Records } from './records.ts';

interface ServersParts {
  readonly studios: Pick<Studios, 'house' | 'servers'>;
  readonly records: Records;
  readonly clock: Clock;
  readonly observer: Pick<Observer, 'trouble' | 'happened'>;
}

const KEPT_MS = 30 * 24 * 60 * 60_000;
const TRY_AGAIN_MS = 60 * 60_000;
/** Whoever sets up permissions does it in many small steps. */
const GATHER_MS = 5000;
/** So many histories are read at the same time. */
const READ_AT_ONCE = 16;

/**
 * The servers that come and go. What a server holds is kept for 30 days after the bot was thrown out, which may have been a
 * mistake, and then forgotten.
 */
export class Servers {
  readonly #parts: ServersParts;
  /** By server: calls off the forgetting. */
  readonly #forgettings = new Map<string, () => void>();
  readonly #gathered = new Set<string>();
  #gathering: (() => void) | null = null;
  /** Whoever is thrown out and invited again at once must not count as gone in the end. */
  readonly #inOrder = new MemoryLock();

  constructor(parts: ServersParts) {
    this.#parts = parts;
  }

  /** The bot is in this server, for the first time or again. */
  async joined(server: string): Promise<void> {
    await this.#inOrder.run(server, () => this.#isHere(server));
    await this.wakeAll([server]);
  }

  /** The bot was thrown out. An outage of the server is none of this. */
  left(server: string): Promise<void> {
    const { records, studios } = this.#parts;
    return this.#inOrder.run(server, async () => {
      // Of a server where nobody ever started anything there is nothing to keep.
      if ((await studios.servers()).has(server)) await this.#isGone(server);
      else await records.forget(server);
    });
  }

  /**
   * At the start: who left while nobody listened, and who came back. `present` holds all servers that the bot is in, those
   * in an outage too, as of whenever it is asked; `ours` says which servers this process answers for.
   */
  async look(present: { has(server: string): boolean }, ours: (server: string) => boolean): Promise<void> {
    for (const server of [...(await this.#parts.studios.servers()).keys()].filter(ours))
      await this.#inOrder.run(server, () => (present.has(server) ? this.#isHere(server) : this.#isGone(server)));
  }

  /** A channel may be reachable again: in a few seconds, its server's benches look at what they hold back. */
  maybeReachable(server: string): void {
    const { clock } = this.#parts;
    this.#gathered.add(server);
    // After an outage all servers come back at once: they are looked after together.
    this.#gathering ??= clock.wakeAt(clock.now() + GATHER_MS, () => {
      const servers = [...this.#gathered];
      this.#gathered.clear();
      this.#gathering = null;
      return this.wakeAll(servers);
    });
  }

  /**
   * Wakes all benches of these servers. Few histories are read at a time, but all that have something to send wait for
   * their turn together, so that the most urgent goes first. Resolves when all have sent what was due.
   */
  async wakeAll(servers: Iterable<string>): Promise<void> {
    const { studios, observer } = this.#parts;
    const awake: Promise<void>[] = [];
    const known = await studios.servers();
    await eachOf(servers, READ_AT_ONCE, async (server) => {
      for (const channel of known.get(server) ?? []) {
        const bench = studios.house(server).bench(channel);
        try {
          await bench.state();
          awake.push(bench.wake());
        } catch (error) {
          observer.trouble('wake', error);
        }
      }
    });
    await Promise.all(awake);
  }

  /** Calls off all timers. */
  close(): void {
    for (const callOff of this.#forgettings.values()) callOff();
    this.#forgettings.clear();
    this.#gathering?.();
    this.#gathering = null;
  }

  async #isHere(server: string): Promise<void> {
    this.#forgettings.get(server)?.();
    this.#forgettings.delete(server);
    await this.#parts.records.change(server, (record) => (record.leftAt === null ? record : { ...record, leftAt: null }));
  }

  async #isGone(server: string): Promise<void> {
    const { records, clock } = this.#parts;
    const { leftAt } = await records.change(server, (record) =>
      record.leftAt === null ? { ...record, leftAt: clock.now() } : record,
    );
    if (leftAt !== null) this.#forgetAt(server, leftAt + KEPT_MS);
  }

  #forgetAt(server: string, at: number): void {
    this.#forgettings.get(server)?.();
    this.#forgettings.set(
      server,
      this.#parts.clock.wakeAt(at, () => this.#inOrder.run(server, () => this.#forget(server))),
    );
  }

  async #forget(server: string): Promise<void> {
    const { records, studios, clock, observer } = this.#parts;
    this.#forgettings.delete(server);
    try {
      // Should a kill come in between, all that is left of it is that it was left.
      const { leftAt } = await records.change(server, (record) =>
        record.leftAt === null ? record : { ...record, boards: {}, told: [], kept: [] },
      );
      if (leftAt === null) return;
      await studios.house(server).forget();
      observer.happened('server-forgotten', { server });
    } catch (error) {
      observer.trouble('forget', error);
      this.#forgetAt(server, clock.now() + TRY_AGAIN_MS);
    }
  }
}

/** Works through all of them, so many at a time. */
async function eachOf<T>(all: Iterable<T>, atOnce: number, work: (one: T) => Promise<void>): Promise<void> {
  const rest = all[Symbol.iterator]();
  const worker = async () => {
    for (let next = rest.next(); !next.done; next = rest.next()) await work(next.value);
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
}
