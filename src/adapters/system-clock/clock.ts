import type { Clock } from '../../bench/ports.ts';

export interface SystemClockOptions {
  /** Reads the wall clock. */
  readonly now?: () => number;
  /** Runs `work` after `ms` milliseconds; returns a function that calls it off. */
  readonly after?: (ms: number, work: () => void) => () => void;
  /** True lets the process end while rings are still to come. */
  readonly unref?: boolean;
  /** Gets the error of a ring that failed. Without it the process ends, as for any rejection that nobody handles. */
  readonly failed?: (error: unknown) => void;
}

/** Timers count running time, not wall time, and hold 24 days at most; so none is trusted for longer than this. */
const LONGEST_WAIT = 60_000;

/**
 * The computer's own clock. It looks at the wall clock once a minute, so that a ring is right within a minute after the
 * machine slept or somebody set the clock, and to the millisecond otherwise.
 */
export class SystemClock implements Clock {
  readonly now: () => number;
  readonly #after: (ms: number, work: () => void) => () => void;
  readonly #failed: (error: unknown) => void;

  constructor({ now = () => Date.now(), after, unref = false, failed }: SystemClockOptions = {}) {
    this.now = now;
    this.#after = after ?? ((ms, work) => timer(ms, work, unref));
    this.#failed =
      failed ??
      ((error) => {
        throw error;
      });
  }

  wakeAt(at: number, ring: () => Promise<void>): () => void {
    let callOff: () => void;
    const wait = () => {
      const left = Math.max(0, at - this.now());
      callOff = this.#after(Math.min(left, LONGEST_WAIT), () => {
        if (this.now() >= at) this.#ring(ring);
        else wait();
      });
    };
    wait();
    return () => callOff();
  }

  async #ring(ring: () => Promise<void>): Promise<void> {
    try {
      await ring();
    } catch (error) {
      this.#failed(error);
    }
  }
}

function timer(ms: number, work: () => void, unref: boolean): () => void {
  const timeout = setTimeout(work, ms);
  if (unref) timeout.unref();
  return () => clearTimeout(timeout);
}
