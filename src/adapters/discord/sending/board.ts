import { Routes } from 'discord.js';
import type { BenchState } from '../../../bench/fold.ts';
import { openJobs } from '../../../bench/fold.ts';
import type { Turns } from '../../../bench/ports.ts';
import { type Studio, staffingOf } from '../../../bench/studio.ts';
import { boardCard } from '../../../cards/board-card.ts';
import type { BenchView } from '../../../cards/brief-card.ts';
import type { Card } from '../../../chat/card.ts';
import type { Observer } from '../observer.ts';
import type { PlatformMessage } from '../rendering/message.ts';
import { markOf } from '../rendering/press.ts';
import { BoardPictures, type ShownBoard } from './board-pictures.ts';
import { faultOf } from './faults.ts';
import type { ServerRecord } from './records.ts';
import { digestOf, edit, findMarked, marked, paced, post, rendered, type Sending } from './sender.ts';

interface BoardsParts extends Sending {
  readonly turns: Turns;
  readonly observer: Pick<Observer, 'trouble' | 'happened'>;
  /** Only asked when `boardCard` has changed: that a minute has passed is no reason to draw and to send a picture. */
  readonly board: ShownBoard;
  /** The bench as it is now. */
  readonly look: (house: string, channel: string) => Promise<{ state: BenchState; studio: Studio }>;
  /** Milliseconds since the epoch. */
  readonly now: () => number;
  /** A board changes at most once in this time. */
  readonly everyMilliseconds?: number;
  /** So long changes are gathered before the first is shown. */
  readonly gatherMilliseconds?: number;
  /** How long a broken platform is left alone. */
  readonly againMilliseconds?: number;
  /** How long a board goes without its picture when that could not be sent. */
  readonly pictureAgainMilliseconds?: number;
}

interface Place {
  readonly house: string;
  readonly channel: string;
  /** Something has changed since it was last looked at. */
  changed: boolean;
  timer: NodeJS.Timeout | undefined;
}

type Remembered = ServerRecord['boards'][string];

/** Everything that rings goes first. */
const URGENCY = 9;

/**
 * Every channel's live board: one message, made when the bench has its first open job, and edited as the timeline changes. A
 * deleted one is made anew.
 */
export class Boards {
  readonly #parts: BoardsParts;
  readonly #places = new Map<string, Place>();
  readonly #pictures: BoardPictures;
  #closed = false;

  constructor(parts: BoardsParts) {
    this.#parts = parts;
    const { board, observer, pictureAgainMilliseconds: againMilliseconds = 600_000 } = parts;
    const due = (house: string, channel: string) => this.changed(house, channel);
    this.#pictures = new BoardPictures({ board, observer, due, againMilliseconds });
  }

  /** To be called after everything that changed a bench. The board follows by itself. */
  changed(house: string, channel: string): void {
    if (this.#closed) return;
    const key = `${house}/${channel}`;
    const known = this.#places.get(key);
    if (known) {
      known.changed = true;
      return;
    }
    const place: Place = { house, channel, changed: true, timer: undefined };
    this.#places.set(key, place);
    this.#after(this.#parts.gatherMilliseconds ?? 250, place);
  }

  /** After a start: looks once at every board that the servers have, one after the other. Never rejects. */
  async resume(houses: Iterable<string>): Promise<void> {
    const { records, observer } = this.#parts;
    for (const house of houses)
      try {
        for (const channel of Object.keys((await records.read(house)).boards))
          if ((await this.#toShow({ house, channel })) !== null) this.changed(house, channel);
      } catch (error) {
        observer.trouble('board', error);
      }
  }

  /** Takes the boards of a studio that is forgotten out of their channels: they would tell of what is no more. */
  async remove(house: string): Promise<void> {
    const { records, rest } = this.#parts;
    for (const [key, place] of this.#places)
      if (place.house === house) {
        clearTimeout(place.timer);
        this.#places.delete(key);
      }
    const { leftAt, boards } = await records.read(house);
    if (leftAt !== null) return;
    // One that cannot be deleted stays, and its buttons say that there is nothing any more.
    await Promise.allSettled(
      Object.entries(boards).map(([channel, { message }]) =>
        message === null ? null : rest.delete(Routes.channelMessage(channel, message)),
      ),
    );
  }

  /** Sends nothing more. */
  close(): void {
    this.#closed = true;
    for (const { timer } of this.#places.values()) clearTimeout(timer);
    this.#places.clear();
    this.#pictures.close();
  }

  #after(milliseconds: number, place: Place): void {
    if (this.#closed) return;
    place.timer = setTimeout(() => void this.#follow(place), milliseconds);
    place.timer.unref();
  }

  /** Shows what has changed, then lets the board rest. */
  async #follow(place: Place): Promise<void> {
    const { everyMilliseconds = 10_000, againMilliseconds = 30_000 } = this.#parts;
    if (!place.changed) return void this.#places.delete(`${place.house}/${place.channel}`);
    place.changed = false;
    const how = await this.#show(place);
    if (how === 'later') place.changed = true;
    this.#after(how === 'later' ? againMilliseconds : how === 'shown' ? everyMilliseconds : 0, place);
  }

  async #show(place: Place): Promise<'shown' | 'same' | 'later'> {
    const { turns, observer } = this.#parts;
    let how: 'shown' | 'same' = 'same';
    try {
      // Most changes do not change the board, and need no turn.
      if ((await this.#toShow(place)) === null) return 'same';
      const work = async () => {
        how = await this.#send(place);
      };
      await turns.take({ urgency: () => URGENCY, work });
      return how;
    } catch (error) {
      const { kind } = faultOf(error);
      if (kind === 'unreachable' || this.#closed) return 'shown';
      observer.trouble('board', error);
      // What the platform does not take, it will not take in half a minute: the next change may be taken.
      return kind === 'refused' ? 'shown' : 'later';
    }
  }

  /** Null where the channel shows already what it should, or where there is nothing to show. */
  async #toShow(place: Pick<Place, 'house' | 'channel'>) {
    const { records, look, now } = this.#parts;
    const { house, channel } = place;
    const { leftAt, boards } = await records.read(house);
    const before = boards[channel];
    const { state, studio } = await look(house, channel);
    const open = openJobs(state).length > 0;
    if (leftAt !== null || (!before && !open)) return null;
    const view: BenchView = { state, studio, now: now() };
    const words = boardCard(view);
    const shown = shownBy(words, studio);
    const pictureDue = before?.bare === true && !this.#pictures.leftOut(place);
    const same = before?.message != null && before.shown === shown && !pictureDue;
    return same ? null : { before, open, view, words, shown };
  }

  async #send(place: Place): Promise<'shown' | 'same'> {
    const { rest, room } = this.#parts;
    const toShow = await this.#toShow(place);
    if (!toShow) return 'same';
    const { before, open, view, words, shown } = toShow;
    const { house, channel } = place;
    const request = paced(room);
    const pictures = this.#pictures;
    const quiet = { ...(await pictures.whole(place, view, words)), to: [], aside: false };
    const reading = { server: house, now: view.now, zone: view.studio.zone, kind: 'reply' as const, bench: channel };
    const message = await rendered(quiet, reading, this.#parts);
    const name = (generation: number) => `board/${channel}/${generation}`;
    let generation = before?.generation ?? 1;
    const standing = before && (before.message ?? (await request(() => this.#find(channel, name(generation)))));
    if (standing != null) {
      try {
        const made = marked(message, markOf(name(generation)));
        await pictures.taken(place, made, (each) => request(() => edit(rest, channel, standing, each)));
        await this.#remember(place, { message: standing, generation, shown, bare: pictures.leftOut(place) }, generation);
        return 'shown';
      } catch (error) {
        if (faultOf(error).kind !== 'gone') throw error;
        generation += 1;
      }
    }
    if (!open) {
      await this.#remember(place, null, before?.generation);
      return 'same';
    }
    // Noted before it is sent, so that whoever comes up after a kill looks for it before making another.
    await this.#remember(place, { message: null, generation, shown: '', bare: false }, before?.generation);
    const made: PlatformMessage = marked(message, markOf(name(generation)));
    const id = await pictures.taken(place, made, (each) => request(() => post(rest, channel, each, name(generation))));
    const known = await this.#remember(place, { message: id, generation, shown, bare: pictures.leftOut(place) }, generation);
    // Forgotten while it was on its way: it would tell for ever of what is no more.
    if (!known) await request(() => rest.delete(Routes.channelMessage(channel, id)));
    return 'shown';
  }

  async #find(channel: string, name: string): Promise<string | null> {
    try {
      return await findMarked(this.#parts, channel, { mark: markOf(name), since: 0 });
    } catch (error) {
      // It may be that only looking back is not allowed; then its name has to do.
      if (faultOf(error).kind === 'unreachable') return null;
      throw error;
    }
  }

  /** Only where the record still stands at generation `after`: the server may have been forgotten meanwhile. */
  async #remember({ house, channel }: Place, board: Remembered | null, after: number | undefined): Promise<boolean> {
    let known = false;
    await this.#parts.records.change(house, (record) => {
      if (record.boards[channel]?.generation !== after) return record;
      known = true;
      const { [channel]: _, ...others } = record.boards;
      return { ...record, boards: board === null ? others : { ...others, [channel]: board } };
    });
    return known;
  }
}

/**
 * What of a board is worth an edit: not the time at which it was looked at, and so not the picture either, which has a mark for
 * it. Staffed time is in the picture alone.
 */
const shownBy = ({ data, buttons, tone }: Card, studio: Studio): string =>
  digestOf(JSON.stringify([data, buttons, tone, staffingOf(studio)]));
