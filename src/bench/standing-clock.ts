import type { Clock } from './ports.ts';

interface Waiting {
  readonly at: number;
  readonly ring: () => Promise<void>;
}

/** A clock that stands still until it is told to go on, so that a job of three days takes a second. */
export class StandingClock implements Clock {
  #now: number;
  readonly #waiting = new Set<Waiting>();

  constructor(start: number) {
    this.#now = start;
  }

  now(): number {
    return this.#now;
  }

  wakeAt(at: number, ring: () => Promise<void>): () => void {
    const waiting = { at, ring };
    this.#waiting.add(waiting);
    return () => this.#waiting.delete(waiting);
  }

  /**
   * Goes on to `instant`, and on the way stands at the time of each ring until it is done. Rings that are added on the
   * way count too. A ring that fails stops the clock at its time, and its error comes out here.
   */
  async advanceTo(instant: number): Promise<void> {
    if (!(instant >= this.#now)) throw new RangeError(`The clock shows ${this.#now} and cannot go to ${instant}`);
    for (let next = this.#next(instant); next; next = this.#next(instant)) {
      this.#waiting.delete(next);
      this.#now = Math.max(this.#now, next.at);
      await next.ring();
    }
    this.#now = Math.max(this.#now, instant);
  }

  /** Rings what is due already, and stays where it is. */
  settle(): Promise<void> {
    return this.advanceTo(this.#now);
  }

  /** The earliest ring up to `instant`; of two for one time, the one that was set first. */
  #next(instant: number): Waiting | undefined {
    let next: Waiting | undefined;
    for (const waiting of this.#waiting) if (waiting.at <= instant && (!next || waiting.at < next.at)) next = waiting;
    return next;
  }
}
