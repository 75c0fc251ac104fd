import type { Refusal } from '../words/refusal.ts';
import { type BenchEvent, benchEvent } from './events.ts';
import { advance, type BenchState, EMPTY, type NumberedEvent } from './fold.ts';
import { type Decided, Log } from './log.ts';
import { type Ping, pingsOf, urgencyOf } from './pings.ts';
import { type Clock, type EventStore, type Lock, type Turns, VersionConflict } from './ports.ts';
import type { Studio } from './studio.ts';

/** Tried again after this long when the chat platform would not take a ping, or the store would not answer. */
const TRY_AGAIN_MS = 30_000;
/** Tried again after this long where the channel cannot be reached: it was deleted, or the bot may not write there. */
const HELD_TRY_AGAIN_MS = 15 * 60_000;

/**
 * Brings one ping to the people. It may be called again with the same ping, after a kill between the sending and the
 * record of it; whoever implements it must then not show the message twice: `ping.id` says that it is the same one.
 * `held`: the channel cannot be reached now, and the ping stays to be sent.
 */
export type Announce = (ping: Ping, about: AboutPing) => Promise<'sent' | 'held'>;

export interface AboutPing {
  /** The studio's id. */
  readonly house: string;
  readonly channel: string;
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
  readonly late: boolean;
}

/** Overdue by more than this, a ping says that it is late. */
const LATE_MS = 60_000;

export interface BenchParts {
  readonly store: EventStore;
  readonly lock: Lock;
  readonly clock: Clock;
  readonly turns: Turns;
  readonly announce: Announce;
  /** Told when a ping could not be sent or recorded; it is tried again by itself. */
  readonly trouble: (error: unknown) => void;
  /** Told after everything that changed a bench. */
  readonly changed: (house: string, channel: string) => void;
}

interface Place {
  readonly house: string;
  readonly channel: string;
  readonly stream: string;
  readonly studio: () => Promise<Studio>;
  /** Told of every state that somebody's word has led to. */
  readonly settled: (state: BenchState) => void;
}

/** One channel: its log, and the pings that its clocks call for. */
export class Bench {
  readonly channel: string;
  readonly #place: Place;
  readonly #parts: BenchParts;
  readonly #log: Log<BenchEvent, BenchState>;
  #callOff: (() => void) | null = null;
  #ringing: Promise<void> | null = null;
  #again = false;
  #closed = false;
  /** What cannot be sent this time. */
  #held: ReadonlySet<string> = new Set();
  #urgency = 0;

  constructor(place: Place, parts: BenchParts) {
    this.channel = place.channel;
    this.#place = place;
    this.#parts = parts;
    this.#log = new Log<BenchEvent, BenchState>(place.stream, { ...parts, schema: benchEvent, empty: EMPTY, advance });
  }

  async state(): Promise<BenchState> {
    const { state } = await this.#log.read();
    // Another process may have written.
    this.#place.settled(state);
    return state;
  }

  async log(): Promise<readonly NumberedEvent[]> {
    return (await this.#log.read()).log;
  }

  /** Reads, decides and appends as one; resolves when it is on disk. The timer then follows the new state. */
  async decide(
    decide: (state: BenchState, log: readonly NumberedEvent[]) => readonly BenchEvent[] | Refusal,
  ): Promise<Decided<BenchEvent, BenchState> | Refusal> {
    const decided = await this.#log.decide(decide);
    if ('state' in decided) this.#place.settled(decided.state);
    await this.arm();
    this.#tellChanged(decided);
    return decided;
  }

  /**
   * Sends what is due and has not gone out, each exactly once; then sets the timer for the next. Sending may take as long as
   * the platform wants: it happens outside of the channel's lock, so that nobody who asks something waits for it.
   */
  wake(): Promise<void> {
    if (this.#closed) return Promise.resolve();
    this.#again = true;
    if (this.#ringing) void this.#hasten();
    this.#ringing ??= this.#ring().finally(() => {
      this.#ringing = null;
    });
    return this.#ringing;
  }

  /**
   * Sets the timer for the next ping. A timer is only a hint: what it wakes looks for itself what is due. What is `held`
   * would be due at once, over and over, so it is tried again only after a while.
   */
  async arm(held: ReadonlySet<string> = new Set()): Promise<void> {
    const { clock, trouble } = this.#parts;
    try {
      const pings = pingsOf(await this.state(), await this.#place.studio(), clock.now());
      const next = pings.find(({ id }) => !held.has(id))?.dueAt ?? Number.POSITIVE_INFINITY;
      const at = held.size > 0 ? Math.min(next, clock.now() + HELD_TRY_AGAIN_MS) : next;
      if (at < Number.POSITIVE_INFINITY) this.#ringAt(at);
      else this.sleep();
    } catch (error) {
      // Whoever called has what they asked for on disk; only the look at what comes next must be taken again.
      trouble(error);
      this.#ringAt(clock.now() + TRY_AGAIN_MS);
    }
  }

  /** Rings no more, whoever wakes it. */
  close(): void {
    this.#closed = true;
    this.sleep();
  }

  sleep(): void {
    this.#callOff?.();
    this.#callOff = null;
  }

  /** Deletes everything that this channel holds. */
  async forget(): Promise<void> {
    this.sleep();
    await this.#log.forget();
    this.sleep();
  }

  /** While a digest waits for its turn, a pot life may have come up, which must not wait as long. */
  async #hasten(): Promise<void> {
    try {
      const due = await this.#mostUrgent(this.#held);
      if (due) this.#urgency = Math.min(this.#urgency, urgencyOf(due.ping));
    } catch {
      // Whoever rings meets the same trouble, and tells of it.
    }
  }

  async #ring(): Promise<void> {
    const { clock, turns, trouble } = this.#parts;
    const held = new Set<string>();
    this.#held = held;
    try {
      while (this.#again) {
        this.#again = false;
        for (let due = await this.#mostUrgent(held); due; due = await this.#mostUrgent(held)) {
          this.#urgency = urgencyOf(due.ping);
          await turns.take({ urgency: () => this.#urgency, work: () => this.#sendNext(held) });
        }
      }
    } catch (error) {
      if (!(error instanceof VersionConflict)) trouble(error);
      this.#ringAt(clock.now() + (error instanceof VersionConflict ? 0 : TRY_AGAIN_MS));
      return;
    }
    await this.arm(held);
  }

  /** Looks anew what is due: while it waited for its turn, somebody may have answered, or something may be more pressing. */
  async #sendNext(held: Set<string>): Promise<void> {
    const { clock, announce } = this.#parts;
    const due = await this.#mostUrgent(held);
    if (!due) return;
    const { ping, state, studio, seq } = due;
    const now = clock.now();
    const { house, channel } = this.#place;
    const how = await announce(ping, { house, channel, state, studio, now, late: now - ping.dueAt > LATE_MS });
    if (how === 'held') return void held.add(ping.id);
    // A shorter log: the studio was forgotten while this went out.
    const decided = await this.#log.decide((then, log) =>
      then.sent.has(ping.id) || log.length < seq ? [] : [sentEvent(ping, now, seq)],
    );
    this.#tellChanged(decided);
  }

  async #mostUrgent(held: ReadonlySet<string>) {
    const { state, log } = await this.#log.read();
    const seq = log.length;
    const studio = await this.#place.studio();
    const now = this.#parts.clock.now();
    const due = pingsOf(state, studio, now).filter((each) => each.dueAt <= now && !held.has(each.id));
    // They stand in the order of their times, which is kept among the equally urgent.
    const [ping] = due.sort((one, other) => urgencyOf(one) - urgencyOf(other));
    return ping ? { ping, state, studio, seq } : null;
  }

  #ringAt(at: number): void {
    this.sleep();
    if (this.#closed) return;
    this.#callOff = this.#parts.clock.wakeAt(at, () => this.wake());
  }

  #tellChanged(decided: Decided<BenchEvent, BenchState> | Refusal): void {
    if ('events' in decided && decided.events.length > 0) this.#parts.changed(this.#place.house, this.#place.channel);
  }
}

const sentEvent = (ping: Ping, now: number, seenSeq: number): BenchEvent => ({
  version: 1,
  type: 'PingSent',
  at: now,
  enteredAt: now,
  by: 'coatbell',
  ping: ping.id,
  kind: ping.kind,
  job: ping.job,
  dueAt: ping.dueAt,
  seenSeq,
});
