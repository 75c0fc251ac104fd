import type { Refusal } from '../words/refusal.ts';
import { type BenchEvent, benchEvent } from './events.ts';
import { advance, type BenchState, EMPTY, type NumberedEvent } from './fold.ts';
import { type Decided, Log } from './log.ts';
import { type Ping, pingsOf } from './pings.ts';
import { type Clock, type EventStore, type Lock, VersionConflict } from './ports.ts';
import type { Studio } from './studio.ts';

/** Tried again after this long when the chat platform would not take a ping, or the store would not answer. */
const TRY_AGAIN_MS = 30_000;

/**
 * Brings one ping to the people. It may be called again with the same ping, after a kill between the sending and the
 * record of it; whoever implements it must then not show the message twice: `ping.id` says that it is the same one.
 */
export type Announce = (
  ping: Ping,
  about: { channel: string; state: BenchState; studio: Studio; now: number; late: boolean },
) => Promise<void>;

/** Overdue by more than this, a ping says that it is late. */
const LATE_MS = 60_000;

export interface BenchParts {
  readonly store: EventStore;
  readonly lock: Lock;
  readonly clock: Clock;
  readonly studio: () => Promise<Studio>;
  readonly announce: Announce;
  /** Told when a ping could not be sent or recorded; it is tried again by itself. */
  readonly trouble: (error: unknown) => void;
}

/** One channel: its log, and the pings that its clocks call for. */
export class Bench {
  readonly channel: string;
  readonly #parts: BenchParts;
  readonly #log: Log<BenchEvent, BenchState>;
  #callOff: (() => void) | null = null;

  constructor(channel: string, parts: BenchParts) {
    this.channel = channel;
    this.#parts = parts;
    this.#log = new Log<BenchEvent, BenchState>(`bench:${channel}`, { ...parts, schema: benchEvent, empty: EMPTY, advance });
  }

  async state(): Promise<BenchState> {
    return (await this.#log.read()).state;
  }

  async log(): Promise<readonly NumberedEvent[]> {
    return (await this.#log.read()).log;
  }

  /** Reads, decides and appends as one; resolves when it is on disk. The timer then follows the new state. */
  async decide(
    decide: (state: BenchState, log: readonly NumberedEvent[]) => readonly BenchEvent[] | Refusal,
  ): Promise<Decided<BenchEvent, BenchState> | Refusal> {
    const decided = await this.#log.decide(decide);
    await this.arm();
    return decided;
  }

  /** Sends what is due and has not gone out, in order, each exactly once; then sets the timer for the next. */
  async wake(): Promise<void> {
    const { clock, announce, trouble } = this.#parts;
    try {
      const studio = await this.#parts.studio();
      await this.#log.alone(async (at) => {
        let { state } = at;
        for (;;) {
          const now = clock.now();
          const [ping] = pingsOf(state, studio, now);
          if (!ping || ping.dueAt > now) return;
          await announce(ping, { channel: this.channel, state, studio, now, late: now - ping.dueAt > LATE_MS });
          state = await at.append([sentEvent(ping, now)]);
        }
      });
    } catch (error) {
      if (!(error instanceof VersionConflict)) trouble(error);
      this.#ringAt(clock.now() + (error instanceof VersionConflict ? 0 : TRY_AGAIN_MS));
      return;
    }
    await this.arm();
  }

  /** Sets the timer for the next ping. A timer is only a hint: what it wakes looks for itself what is due. */
  async arm(): Promise<void> {
    const { clock, studio, trouble } = this.#parts;
    try {
      const [next] = pingsOf(await this.state(), await studio(), clock.now());
      if (next) this.#ringAt(next.dueAt);
      else this.sleep();
    } catch (error) {
      // Whoever called has what they asked for on disk; only the look at what comes next must be taken again.
      trouble(error);
      this.#ringAt(clock.now() + TRY_AGAIN_MS);
    }
  }

  sleep(): void {
    this.#callOff?.();
    this.#callOff = null;
  }

  #ringAt(at: number): void {
    this.sleep();
    this.#callOff = this.#parts.clock.wakeAt(at, () => this.wake());
  }
}

const sentEvent = (ping: Ping, now: number): BenchEvent => ({
  version: 1,
  type: 'PingSent',
  at: now,
  enteredAt: now,
  by: 'coatbell',
  ping: ping.id,
  kind: ping.kind,
  job: ping.job,
  dueAt: ping.dueAt,
});
