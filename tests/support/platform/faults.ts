/** What goes wrong with a request. */
export type Harm =
  /** An error of the platform, before or after it did what was asked. */
  | { readonly kind: 'status'; readonly status: number; readonly when: 'before' | 'after'; readonly code?: number }
  /** A rate limit, which always comes before anything is done. */
  | { readonly kind: 'rate'; readonly scope: 'user' | 'global' | 'shared'; readonly retryAfterSeconds: number }
  /**
   * The line breaks, before or after what was asked is done. The client library repeats a request after a `reset` and gives up
   * at once after a `hangup`, where the other side just closes.
   */
  | { readonly kind: 'reset' | 'hangup'; readonly when: 'before' | 'after' }
  /** The answer takes its time; the effect comes first or last. */
  | { readonly kind: 'slow'; readonly ms: number; readonly when: 'before' | 'after' };

export interface Fault {
  /** Every method, if it is left out. */
  readonly method?: string;
  /** Tested against the path without `/api/v10` and without the query. A string must be the whole path. */
  readonly path: string | RegExp;
  /** How many requests it hits; `Infinity` for a standing fault. One, if it is left out. */
  readonly times?: number;
  readonly harm: Harm;
}

/** A fault in its place: how often it struck, and the way to lift it. */
export class StandingFault {
  readonly fault: Fault;
  struck = 0;
  #lifted = false;

  constructor(fault: Fault) {
    this.fault = fault;
  }

  lift(): void {
    this.#lifted = true;
  }

  /** Whether it strikes this request; if so, that counts. */
  strikes(method: string, path: string): boolean {
    const { fault } = this;
    if (this.#lifted || this.struck >= (fault.times ?? 1)) return false;
    if (fault.method !== undefined && fault.method !== method) return false;
    if (typeof fault.path === 'string' ? fault.path !== path : !fault.path.test(path)) return false;
    this.struck += 1;
    return true;
  }
}
