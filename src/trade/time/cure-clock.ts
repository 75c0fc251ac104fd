import { type Conditions, stretches } from './conditions.ts';
import { type Speed, speedAt } from './cure.ts';

/**
 * The clock of one material on one bench, wound once and read often: how much of its data sheet's time goes by between any
 * two instants. It is piecewise linear, so it can be read both ways. Says the same as `waitOver`.
 */
export class CureClock {
  readonly #speed: Speed | null;
  readonly #stretches: ReturnType<typeof stretches>;
  /** Where each stretch begins, what has gone by then in milliseconds at the reference temperature, and how fast it goes on. */
  readonly #at: number[];
  readonly #gone: number[] = [0];
  readonly #rate: number[] = [];
  #wound = false;

  /**
   * `from`, in milliseconds since the epoch: what is asked about earlier instants is answered as if the speed at `from` had
   * held before, too. The nearer it is to what is asked, the less of a millisecond is lost to rounding.
   */
  constructor(conditions: Conditions, speed: Speed | null, from: number) {
    this.#speed = speed;
    this.#at = [from];
    this.#stretches = stretches(conditions, from);
    if (speed === null) {
      this.#rate.push(1);
      this.#wound = true;
    }
  }

  /** When a wait of so many milliseconds at the reference temperature that began at `begun` is over. */
  over = (begun: number, wait: number): number => Math.round(this.#instant(this.#goneAt(begun) + wait));

  /** When a wait that is over at `ended` must have begun; the inverse of `over`, not rounded. */
  begun = (ended: number, wait: number): number => this.#instant(this.#goneAt(ended) - wait);

  /** The slowest and the fastest that it goes between two instants. */
  ratesBetween(from: number, until: number): { readonly least: number; readonly most: number } {
    this.#windTo(() => (this.#at.at(-1) ?? 0) > until);
    let [least, most] = [Number.POSITIVE_INFINITY, 0];
    for (
      let index = this.#indexAt(from);
      index < this.#rate.length && (index === 0 || (this.#at[index] ?? 0) <= until);
      index += 1
    ) {
      const rate = this.#rate[index] ?? 1;
      [least, most] = [Math.min(least, rate), Math.max(most, rate)];
    }
    return { least, most };
  }

  #goneAt(instant: number): number {
    this.#windTo(() => (this.#at.at(-1) ?? 0) > instant);
    const index = this.#indexAt(instant);
    return (this.#gone[index] ?? 0) + (instant - (this.#at[index] ?? 0)) * (this.#rate[index] ?? 1);
  }

  #instant(gone: number): number {
    this.#windTo(() => (this.#gone.at(-1) ?? 0) > gone);
    const index = lastUntil(this.#gone, gone, this.#rate.length);
    return (this.#at[index] ?? 0) + (gone - (this.#gone[index] ?? 0)) / (this.#rate[index] ?? 1);
  }

  #indexAt = (instant: number): number => lastUntil(this.#at, instant, this.#rate.length);

  /** Takes further stretches, at least one, until there are enough; the last has no end. */
  #windTo(enough: () => boolean): void {
    while (!this.#wound && (this.#rate.length === 0 || !enough())) {
      const { value, done } = this.#stretches.next();
      if (done) {
        this.#wound = true;
        return;
      }
      const rate = this.#speed === null ? 1 : speedAt(this.#speed, value.celsius);
      this.#rate.push(rate);
      if (value.until === Number.POSITIVE_INFINITY) {
        this.#wound = true;
        return;
      }
      const from = this.#at.at(-1) ?? 0;
      this.#gone.push((this.#gone.at(-1) ?? 0) + (value.until - from) * rate);
      this.#at.push(value.until);
    }
  }
}

/** The index of the last of the first `length` numbers, which grow, that is not above `value`; 0 where all are. */
function lastUntil(numbers: readonly number[], value: number, length: number): number {
  let [low, high] = [0, length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((numbers[middle] ?? Number.POSITIVE_INFINITY) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
