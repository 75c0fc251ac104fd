import type { Way } from '../../words/refusal.ts';

const MOST_BUTTONED = 40;
const MOST_PINGS = 400;

/** Texts by their keys, read and written without waiting. What was written is on disk when `write` returns, or it throws. */
export interface Notebook {
  read(key: string): string | undefined;
  write(key: string, text: string): void;
}

interface Shown {
  /** The buttons of each message that had some, the newest message last. */
  readonly buttons: readonly (readonly Way[])[];
  /** The ids of the pings shown, the newest last. */
  readonly pings: readonly string[];
}

/**
 * What the local chat has shown in each channel. A chat platform keeps its messages; a terminal does not, so it is kept
 * here: after a restart a button still works, and a ping that was shown just before a kill is not shown again. It does not
 * wait for anything, so that nothing can come between the remembering of a message and the showing of it.
 */
export class Transcript {
  readonly #notebook: Notebook;

  constructor(notebook: Notebook) {
    this.#notebook = notebook;
  }

  /** On disk when it returns. */
  remember(channel: string, { buttons, ping }: { buttons: readonly Way[]; ping?: string }): void {
    if (buttons.length === 0 && ping === undefined) return;
    const shown = this.#read(channel);
    const next: Shown = {
      buttons: buttons.length > 0 ? [...shown.buttons, buttons].slice(-MOST_BUTTONED) : shown.buttons,
      pings: ping === undefined ? shown.pings : [...shown.pings, ping].slice(-MOST_PINGS),
    };
    this.#notebook.write(keyOf(channel), JSON.stringify(next));
  }

  shown(channel: string, ping: string): boolean {
    return this.#read(channel).pings.includes(ping);
  }

  /** What the button stands for, on the newest message that has it; whatever the case of the label. */
  button(channel: string, label: string): Way | undefined {
    const wanted = folded(label);
    return this.#newestFirst(channel)
      .flat()
      .find((way) => folded(way.label) === wanted);
  }

  /** The labels of each message, the newest message first. */
  labels(channel: string): string[][] {
    return this.#newestFirst(channel).map((ways) => ways.map(({ label }) => label));
  }

  #newestFirst(channel: string): (readonly Way[])[] {
    return [...this.#read(channel).buttons].reverse();
  }

  /** Always from the store, where another program on the same data may have written meanwhile. */
  #read(channel: string): Shown {
    const text = this.#notebook.read(keyOf(channel));
    return text === undefined ? { buttons: [], pings: [] } : JSON.parse(text);
  }
}

const keyOf = (channel: string) => `terminal/${channel}`;
const folded = (label: string) => label.trim().replace(/\s+/g, ' ').toLowerCase();
