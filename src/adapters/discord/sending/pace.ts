const SECOND = 1000;

/** Counts what goes out, so that no second, wherever it begins, holds more than so many. */
export class Pace {
  readonly #perSecond: number;
  /** When the last ones went out, oldest first: never more than a second's worth. */
  readonly #last: number[] = [];

  constructor(perSecond: number) {
    this.#perSecond = perSecond;
  }

  /** From when on one more may go out, in the milliseconds that `count` is given. */
  freeAt(): number {
    const [oldest] = this.#last;
    return oldest === undefined || this.#last.length < this.#perSecond ? Number.NEGATIVE_INFINITY : oldest + SECOND;
  }

  count(at: number): void {
    this.#last.push(at);
    if (this.#last.length > this.#perSecond) this.#last.shift();
  }
}
