import { setTimeout as sleep } from 'node:timers/promises';

/** While a large model is read nothing else goes on; whoever asked for something meanwhile has so long to be answered. */
const BREATH_MS = 250;
/** Each may take a minute, and an answer that was announced can be brought within fifteen. */
const MOST_WAITING = 12;

/** What takes much memory and time, such as reading a model, is done one at a time, in the order in which it came. */
export class OneByOne {
  #last: Promise<unknown> = Promise.resolve();
  #begun = 0;

  /** Does the work when it is its turn, and gives or throws what came of it; null where too many wait already. */
  async inTurn<T>(work: () => Promise<T>): Promise<T | null> {
    if (this.#begun > MOST_WAITING) return null;
    this.#begun += 1;
    const done = this.#last.then(work);
    this.#last = done.then(
      () => sleep(BREATH_MS),
      () => sleep(BREATH_MS),
    );
    try {
      return await done;
    } finally {
      this.#begun -= 1;
    }
  }
}
