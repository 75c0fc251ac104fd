import type { Keyv } from 'keyv';
import { MemoryLock } from '../../bench/lock.ts';
import type { Way } from '../../words/refusal.ts';

const MOST_BUTTONED = 40;
const MOST_PINGS = 400;

interface Shown {
  /** The buttons of each message that had some, the newest message last. */
  readonly buttons: readonly (readonly Way[])[];
  /** The ids of the pings shown, the newest last. */
  readonly pings: readonly string[];
}

/**
 * What the local chat has shown in each channel. A chat platform keeps its messages; a terminal does not, so it is kept
 * here: after a restart a button still works, and a ping that was shown just before a kill is not shown again.
 */
export class Transcript {
  readonly #keyv: Keyv;
  readonly #lock = new MemoryLock();

  constructor(keyv: Keyv) {
    this.#keyv = keyv;
  }

  /** Resolves when it is on disk. */
  async remember(channel: string, { buttons, ping }: { buttons: readonly Way[]; ping?: string }): Promise<void> {
    if (buttons.length === 0 && ping === undefined) return;
    await this.#lock.run(channel, async () => {
      const shown = await this.#read(channel);
      const next: Shown = {
        buttons: buttons.length > 0 ? [...shown.buttons, buttons].slice(-MOST_BUTTONED) : shown.buttons,
        pings: ping === undefined ? shown.pings : [...shown.pings, ping].slice(-MOST_PINGS),
      };
      // As text of our own: Keyv's serializer trips over some names that an option might have.
      if (!(await this.#keyv.set(keyOf(channel), JSON.stringify(next)))) throw new Error(`${channel}: not remembered`);
    });
  }

  async shown(channel: string, ping: string): Promise<boolean> {
    return (await this.#read(channel)).pings.includes(ping);
  }

  /** What the button stands for, on the newest message that has it; whatever the case of the label. */
  async button(channel: string, label: string): Promise<Way | undefined> {
    const wanted = folded(label);
    return (await this.#newestFirst(channel)).flat().find((way) => folded(way.label) === wanted);
  }

  /** The labels of each message, the newest message first. */
  async labels(channel: string): Promise<string[][]> {
    return (await this.#newestFirst(channel)).map((ways) => ways.map(({ label }) => label));
  }

  async #newestFirst(channel: string): Promise<(readonly Way[])[]> {
    return [...(await this.#read(channel)).buttons].reverse();
  }

  /** Always from the store, where another program on the same data may have written meanwhile. */
  async #read(channel: string): Promise<Shown> {
    const text = await this.#keyv.get<string>(keyOf(channel));
    return text === undefined ? { buttons: [], pings: [] } : JSON.parse(text);
  }
}

const keyOf = (channel: string) => `terminal/${channel}`;
const folded = (label: string) => label.trim().replace(/\s+/g, ' ').toLowerCase();
