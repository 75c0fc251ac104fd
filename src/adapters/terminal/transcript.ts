import {
  existsSync,
  fstatSync,
  ftruncateSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import type { Way } from '../../words/refusal.ts';

const MOST_BUTTONED = 40;
const MOST_PINGS = 400;
/** A file that has grown larger is cut down to what still counts when it is opened. */
const MOST_BYTES = 1_000_000;

/** One message that was shown. */
interface Shown {
  readonly channel: string;
  readonly buttons: readonly Way[];
  readonly ping?: string | undefined;
  /** A ping that was kept, and then could not be shown. */
  readonly withdrawn?: string | undefined;
}

interface Channel {
  /** The buttons of each message that had some, the newest message last. */
  buttons: (readonly Way[])[];
  /** The ids of the pings shown, the newest last. */
  pings: string[];
}

/**
 * What the local chat has shown in each channel. A chat platform keeps its messages; a terminal does not, so it is kept
 * here: after a restart a button still works, and a ping that was shown just before a kill is not shown again.
 *
 * It is a file of its own, of one line a message, because of the kill: keeping and showing are then two writes in a row, with
 * nothing in between. A commit to the store lasts as long as the disk takes, and a kill while it lasts leaves it open whether
 * the message was seen. It is kept first: whoever sees a message may kill the program at that very moment. After a power cut
 * the last lines may be missing; then the record of the bench decides.
 */
export class Transcript {
  readonly #channels = new Map<string, Channel>();
  readonly #file: number | null;
  #readTo = 0;
  #rest = '';

  /** `path`: the file, made when it does not exist; null keeps all in memory only. */
  constructor(path: string | null) {
    if (path !== null && existsSync(path) && statSync(path).size > MOST_BYTES) this.#cutDown(path);
    this.#file = path === null ? null : openSync(path, 'a+');
  }

  /** Shows a message by `show`, and keeps that it was. False: this ping was shown before, and is not shown again. */
  show(message: Shown, show: () => void): boolean {
    const { channel, ping } = message;
    if (ping !== undefined && this.#at(channel).pings.includes(ping)) return false;
    this.#keep(message);
    try {
      show();
    } catch (error) {
      if (ping !== undefined) this.#keep({ channel, buttons: [], withdrawn: ping });
      throw error;
    }
    return true;
  }

  /** Forgets all messages: what is begun anew may give its pings the same names. */
  clear(): void {
    this.#channels.clear();
    this.#readTo = 0;
    this.#rest = '';
    if (this.#file !== null) ftruncateSync(this.#file);
  }

  #keep(message: Shown): void {
    if (message.buttons.length === 0 && message.ping === undefined && message.withdrawn === undefined) return;
    if (this.#file === null) this.#take(message);
    else writeSync(this.#file, `${JSON.stringify(message)}\n`);
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
    return [...this.#at(channel).buttons].reverse();
  }

  /** Up to date, also with what another program on the same data has shown meanwhile. */
  #at(channel: string): Channel {
    this.#readOn();
    return this.#channels.get(channel) ?? { buttons: [], pings: [] };
  }

  #readOn(): void {
    if (this.#file === null) return;
    const { size } = fstatSync(this.#file);
    if (size < this.#readTo) {
      // Another program on the same data has cleared it.
      this.#channels.clear();
      this.#readTo = 0;
      this.#rest = '';
    }
    const fresh = Buffer.alloc(size - this.#readTo);
    if (fresh.length === 0) return;
    this.#readTo += readSync(this.#file, fresh, 0, fresh.length, this.#readTo);
    const lines = (this.#rest + fresh.toString('utf8')).split('\n');
    this.#rest = lines.pop() ?? '';
    for (const line of lines) this.#take(parsed(line));
  }

  #take(message: Shown | null): void {
    if (message === null) return;
    const { buttons, pings } = this.#channels.get(message.channel) ?? { buttons: [], pings: [] };
    this.#channels.set(message.channel, {
      buttons: message.buttons.length > 0 ? [...buttons, message.buttons].slice(-MOST_BUTTONED) : buttons,
      pings: [...pings, ...(message.ping === undefined ? [] : [message.ping])]
        .filter((ping) => ping !== message.withdrawn)
        .slice(-MOST_PINGS),
    });
  }

  #cutDown(path: string): void {
    for (const line of readFileSync(path, 'utf8').split('\n')) this.#take(parsed(line));
    const kept = [...this.#channels].flatMap(([channel, { buttons, pings }]) => [
      ...pings.map((ping): Shown => ({ channel, buttons: [], ping })),
      ...buttons.map((ways): Shown => ({ channel, buttons: ways })),
    ]);
    writeFileSync(`${path}.new`, kept.map((message) => `${JSON.stringify(message)}\n`).join(''));
    renameSync(`${path}.new`, path);
    this.#channels.clear();
  }
}

/** A line that a power cut has torn is no line. */
function parsed(line: string): Shown | null {
  try {
    return JSON.parse(line);
  } catch {
    return null;
  }
}

const folded = (label: string) => label.trim().replace(/\s+/g, ' ').toLowerCase();
