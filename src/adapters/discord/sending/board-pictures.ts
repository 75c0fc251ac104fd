import type { BenchView } from '../../../cards/brief-card.ts';
import type { Card } from '../../../chat/card.ts';
import type { Observer } from '../observer.ts';
import { type PlatformMessage, withoutFiles } from '../rendering/message.ts';
import { faultOf, mayBeTheFiles } from './faults.ts';

/**
 * The board of a bench as it is shown: `boardCard` with what comes with it, such as a picture, which may take its time. Where it
 * rejects, the board is shown in words.
 */
export type ShownBoard = (view: BenchView) => Promise<Card>;

interface BoardPicturesParts {
  readonly board: ShownBoard;
  readonly observer: Pick<Observer, 'trouble' | 'happened'>;
  /** A board's picture may be tried again. */
  readonly due: (house: string, channel: string) => void;
  readonly againMilliseconds: number;
}

interface Place {
  readonly house: string;
  readonly channel: string;
}

/** The pictures that come with the boards. The words matter more: a picture that is in their way is left out for some time. */
export class BoardPictures {
  readonly #parts: BoardPicturesParts;
  /** The boards that go without for now, and when their pictures are tried again. */
  readonly #without = new Map<string, NodeJS.Timeout>();
  /** The boards whose pictures were on the line when it broke. */
  readonly #doubted = new Set<string>();

  constructor(parts: BoardPicturesParts) {
    this.#parts = parts;
  }

  /** This board goes without its picture for now. */
  leftOut(place: Place): boolean {
    return this.#without.has(keyOf(place));
  }

  /** The board with its picture; `words` alone where that was in the way lately, or cannot be drawn. */
  async whole(place: Place, view: BenchView, words: Card): Promise<Card> {
    if (this.leftOut(place)) return words;
    try {
      return await this.#parts.board(view);
    } catch (error) {
      this.#parts.observer.trouble('picture', error);
      this.#leaveOut(place);
      return words;
    }
  }

  /** Sends the message; where it may be the picture that keeps it from being taken, once more without. */
  async taken<T>(place: Place, message: PlatformMessage, send: (message: PlatformMessage) => Promise<T>): Promise<T> {
    if (message.files.length === 0) return send(message);
    const key = keyOf(place);
    try {
      const sent = await send(message);
      this.#doubted.delete(key);
      return sent;
    } catch (error) {
      if (faultOf(error).kind === 'passing') {
        // A line breaks now and then. Where it does so twice, it may be on account of the picture.
        if (this.#doubted.has(key)) this.#leaveOut(place);
        else this.#doubted.add(key);
      }
      if (!mayBeTheFiles(error)) throw error;
      const sent = await send(withoutFiles(message, 'unsaid'));
      this.#parts.observer.happened('board-without-picture', { server: place.house, channel: place.channel });
      this.#leaveOut(place);
      return sent;
    }
  }

  close(): void {
    for (const timer of this.#without.values()) clearTimeout(timer);
    this.#without.clear();
  }

  #leaveOut(place: Place): void {
    const key = keyOf(place);
    this.#doubted.delete(key);
    clearTimeout(this.#without.get(key));
    const again = () => {
      this.#without.delete(key);
      this.#parts.due(place.house, place.channel);
    };
    const timer = setTimeout(again, this.#parts.againMilliseconds);
    timer.unref();
    this.#without.set(key, timer);
  }
}

const keyOf = ({ house, channel }: Place): string => `${house}/${channel}`;
