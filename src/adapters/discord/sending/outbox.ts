import type { Turn, Turns } from '../../../bench/ports.ts';
import type { Observer } from '../observer.ts';
import { faultOf } from './faults.ts';
import { Pace } from './pace.ts';

interface OutboxOptions {
  readonly observer: Pick<Observer, 'waiting'>;
  /** How many turns run at once. */
  readonly atOnce?: number;
  /** How many requests go out within any second, over all turns. The platform takes 50; answers need room, too. */
  readonly perSecond?: number;
  /** Milliseconds; only differences count. */
  readonly now?: () => number;
  /** Runs `work` after `ms` milliseconds; returns a function that calls it off. */
  readonly after?: (ms: number, work: () => void) => () => void;
}

interface Waiting {
  readonly turn: Turn;
  /** Who came first, comes first among equals. */
  readonly place: number;
  notBefore: number;
  readonly done: () => void;
  readonly failed: (error: unknown) => void;
}

/** What `take` and `room` reject with once the outbox is closed. */
export class OutboxClosed extends Error {
  override readonly name = 'OutboxClosed';
}

const unheldTimer = (ms: number, work: () => void): (() => void) => {
  const timeout = setTimeout(work, ms);
  timeout.unref();
  return () => clearTimeout(timeout);
};

/**
 * Everything that the bot sends by itself, the most urgent first. A turn that ends in a rate limit goes back to its place
 * and runs again when the limit allows; any other end is the end of it.
 */
export class Outbox implements Turns {
  readonly #observer: Pick<Observer, 'waiting'>;
  readonly #atOnce: number;
  readonly #now: () => number;
  readonly #after: (ms: number, work: () => void) => () => void;
  readonly #pace: Pace;
  readonly #waiting = new Set<Waiting>();
  /** Running turns that want to send one thing more. */
  readonly #wanting: Pick<Waiting, 'done' | 'failed'>[] = [];
  readonly #running = new Set<Promise<void>>();
  /** Until then the platform takes nothing from anybody. */
  #shutUntil = Number.NEGATIVE_INFINITY;
  #places = 0;
  #callOff: (() => void) | null = null;
  #closed = false;

  constructor({ observer, atOnce = 4, perSecond = 40, now = () => performance.now(), after = unheldTimer }: OutboxOptions) {
    this.#observer = observer;
    this.#atOnce = atOnce;
    this.#now = now;
    this.#after = after;
    this.#pace = new Pace(perSecond);
  }

  take(turn: Turn): Promise<void> {
    return new Promise((done, failed) => {
      if (this.#closed) return failed(new OutboxClosed());
      this.#places += 1;
      this.#waiting.add({ turn, place: this.#places, notBefore: Number.NEGATIVE_INFINITY, done, failed });
      this.#tell();
      this.#next();
    });
  }

  /** A turn's first request is counted with it. Resolves when one more may go out; it goes before turns that have not begun. */
  room(): Promise<void> {
    return new Promise((done, failed) => {
      if (this.#closed) return failed(new OutboxClosed());
      this.#wanting.push({ done, failed });
      this.#next();
    });
  }

  /** Begins nothing more, and resolves when what runs has come to its end. Whoever waits gets `OutboxClosed`. */
  async close(): Promise<void> {
    this.#closed = true;
    this.#callOff?.();
    for (const { failed } of [...this.#waiting, ...this.#wanting]) failed(new OutboxClosed());
    this.#waiting.clear();
    this.#wanting.length = 0;
    this.#tell();
    await Promise.allSettled(this.#running);
  }

  #next(): void {
    this.#callOff?.();
    this.#callOff = null;
    while (!this.#closed) {
      const now = this.#now();
      const open = Math.max(this.#shutUntil, this.#pace.freeAt());
      const wanting = this.#wanting.length > 0;
      if (!wanting && (this.#running.size >= this.#atOnce || this.#waiting.size === 0)) return;
      if (open > now) {
        this.#lookAt(open);
        return;
      }
      const wants = this.#wanting.shift();
      if (wants) {
        this.#pace.count(now);
        wants.done();
        continue;
      }
      const chosen = this.#mostUrgent(now);
      if (!chosen) {
        this.#lookAt(
          [...this.#waiting].reduce((soonest, { notBefore }) => Math.min(soonest, notBefore), Number.POSITIVE_INFINITY),
        );
        return;
      }
      this.#waiting.delete(chosen);
      this.#pace.count(now);
      this.#run(chosen);
    }
  }

  #mostUrgent(now: number): Waiting | undefined {
    let best: { waiting: Waiting; urgency: number } | undefined;
    for (const waiting of this.#waiting) {
      if (waiting.notBefore > now) continue;
      const urgency = waiting.turn.urgency();
      const sooner = !best || urgency < best.urgency || (urgency === best.urgency && waiting.place < best.waiting.place);
      if (sooner) best = { waiting, urgency };
    }
    return best?.waiting;
  }

  #run(waiting: Waiting): void {
    // Not before it is counted: what it does first may be to ask for room.
    const running = Promise.resolve()
      .then(() => this.#work(waiting))
      .finally(() => {
        this.#running.delete(running);
        this.#next();
      });
    this.#running.add(running);
    this.#tell();
  }

  async #work(waiting: Waiting): Promise<void> {
    try {
      await waiting.turn.work();
      waiting.done();
    } catch (error) {
      const fault = faultOf(error);
      if (fault.kind !== 'limited') return waiting.failed(error);
      if (this.#closed) return waiting.failed(new OutboxClosed());
      const until = this.#now() + fault.afterMilliseconds;
      if (fault.everybody) this.#shutUntil = Math.max(this.#shutUntil, until);
      waiting.notBefore = until;
      this.#waiting.add(waiting);
      this.#tell();
    }
  }

  #lookAt(at: number): void {
    // A timer may ring a little early, and must not ring for nothing over and over.
    this.#callOff = this.#after(Math.max(1, Math.ceil(at - this.#now())), () => this.#next());
  }

  #tell(): void {
    this.#observer.waiting(this.#waiting.size);
  }
}
