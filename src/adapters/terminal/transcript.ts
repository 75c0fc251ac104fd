import type { Way } from '../../words/refusal.ts';

const MOST_BUTTONED = 40;
const MOST_PINGS = 400;

/**
 * Texts by their keys, read and written without waiting. What `update` gave back is on disk when it returns, or it throws; no
 * other process comes in between what `change` was handed and what it gives. `change` gives null to leave all as it is.
 */
export interface Notebook {
  read(key: string): string | undefined;
  update(key: string, change: (text: string | undefined) => string | null): void;
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

  /** On disk when it returns. False: this ping was shown before, and nothing was changed. */
  remember(channel: string, { buttons, ping }: { buttons: readonly Way[]; ping?: string }): boolean {
    if (buttons.length === 0 && ping === undefined) return true;
    let fresh = true;
    this.#notebook.update(keyOf(channel), (text) => {
      const shown = shownIn(text);
      fresh = ping === undefined || !shown.pings.includes(ping);
      if (!fresh) return null;
      const next: Shown = {
        buttons: buttons.length > 0 ? [...shown.buttons, buttons].slice(-MOST_BUTTONED) : shown.buttons,
        pings: ping === undefined ? shown.pings : [...shown.pings, ping].slice(-MOST_PINGS),
      };
      return JSON.stringify(next);
    });
    return fresh;
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
    return shownIn(this.#notebook.read(keyOf(channel)));
  }
}

const shownIn = (text: string | undefined): Shown => (text === undefined ? { buttons: [], pings: [] } : JSON.parse(text));
const keyOf = (channel: string) => `terminal/${channel}`;
const folded = (label: string) => label.trim().replace(/\s+/g, ' ').toLowerCase();
