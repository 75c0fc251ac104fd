import type { House } from '../../bench/house.ts';
import { StandingClock } from '../../bench/standing-clock.ts';
import { buttonsOf } from '../../chat/answer.ts';
import type { Answer, Card } from '../../chat/card.ts';
import { type Call, parseCall, parseLine } from '../../chat/parse.ts';
import type { Reader } from '../../chat/plain.ts';
import type { Desk } from '../../desk/desk.ts';
import { deskAt, type Office, run } from '../../desk/office.ts';
import { toldFreely } from '../../desk/told-freely.ts';
import { DAY, nextWallClock } from '../../trade/time/calendar.ts';
import { spanOf, wallClockOf } from '../../trade/time/moment.ts';
import { isRefusal, type Refusal } from '../../words/refusal.ts';
import { asking } from './asking.ts';
import { givenFiles } from './files.ts';
import { type Asked, askedBy } from './line.ts';
import type { Message } from './message.ts';
import { broken, clockIsReal, noSuchButton, notACommand, notASpan, notAWallClock } from './refusals.ts';
import { type SavedFile, saveFiles } from './saved.ts';
import type { Transcript } from './transcript.ts';

export interface SessionParts {
  readonly house: House;
  readonly office: Office;
  readonly transcript: Transcript;
  /** Where a card's files are put. */
  readonly filesDir: string;
  /** Makes a message ready, and gives what then writes it at once: as little as possible may lie before a write. */
  readonly show: (message: Message, reader: Reader) => () => void;
  readonly trouble: (error: unknown) => void;
}

const FARTHEST = 400 * DAY;

/** One person at a terminal, who may speak as anybody: a line goes in, messages come out. */
export class Session {
  who = 'you';
  channel = 'bench';
  readonly #parts: SessionParts;

  constructor(parts: SessionParts) {
    this.#parts = parts;
  }

  /** Resolves when everything that the line led to has been shown. Hand in one line at a time. */
  async line(typed: string): Promise<void> {
    try {
      await this.#do(askedBy(typed));
    } catch (error) {
      this.#parts.trouble(error);
      await this.#reply(broken()).catch(this.#parts.trouble);
    }
  }

  /** Shows a ping, unless it was shown before; `id` says that it is the same one. */
  async ping(card: Card, channel: string, id: string): Promise<void> {
    await this.#show({ channel, kind: 'ping', answer: card, files: this.#saved(card) }, id);
  }

  /** The desk of whoever speaks now, where they speak; `example`: a line of the command that is run at it. */
  desk(example = '/help'): Promise<Desk> {
    const { house, office } = this.#parts;
    return deskAt(office, { house, channel: this.channel, who: this.who, files: givenFiles(example) });
  }

  async #do(asked: Asked): Promise<void> {
    switch (asked.as) {
      case 'nothing':
        return;
      case 'speaker':
        this.who = asked.who;
        return this.#do(asked.next);
      case 'channel':
        this.channel = asked.channel;
        return this.#do(asked.next);
      case 'command':
        return this.#call(parseLine(this.#parts.office.commands, asked.line));
      case 'press':
        return this.#press(asked.label);
      case 'advance':
      case 'advance-until':
        return this.#advance(asked);
      case 'unknown':
        return this.#unknown(asked.text);
    }
  }

  async #unknown(text: string): Promise<void> {
    const desk = await this.desk();
    const refusal = notACommand(text, this.#firstLines(), toldFreely(text, desk, await desk.bench.state()));
    return this.#reply(await run(refusal, desk, { manages: true }));
  }

  async #press(label: string): Promise<void> {
    const { transcript, office } = this.#parts;
    const way = transcript.button(this.channel, label);
    if (way?.asks) return this.#reply(asking(way, await this.desk()));
    if (way) return this.#call(parseCall(office.commands, way));
    return this.#reply(noSuchButton(label, transcript.labels(this.channel)));
  }

  async #call(call: Call<Desk> | Refusal): Promise<void> {
    const { clock } = this.#parts.office;
    const desk = await this.desk(isRefusal(call) ? undefined : call.declaration.examples[0]);
    if (isRefusal(call)) return this.#reply(await run(call, desk, { manages: true }));
    // A command resolves when what it stored is on disk, so what is said here is safe to be believed. At a terminal of one's
    // own everybody manages everything.
    await this.#reply(await run(call, desk, { manages: true }));
    // What was told late may make something due at once.
    await desk.bench.wake();
    if (clock instanceof StandingClock) await clock.settle();
  }

  async #advance(asked: Extract<Asked, { as: 'advance' | 'advance-until' }>): Promise<void> {
    // Real time would pass meanwhile.
    await this.#parts.house.followed();
    const { house, office } = this.#parts;
    const { clock } = office;
    if (!(clock instanceof StandingClock)) return this.#reply(clockIsReal());
    const now = clock.now();
    if (asked.as === 'advance') {
      const span = spanOf(asked.by);
      return span === null || span > FARTHEST ? this.#reply(notASpan(asked.by)) : clock.advanceTo(now + Math.round(span));
    }
    const minute = wallClockOf(asked.wallClock);
    if (minute === null) return this.#reply(notAWallClock(asked.wallClock));
    return clock.advanceTo(nextWallClock((await house.studio()).zone, now, minute));
  }

  async #reply(answer: Answer): Promise<void> {
    await this.#show({ channel: this.channel, kind: 'reply', answer, files: this.#saved(answer) });
  }

  /** A disk that takes no file must not keep from anybody what was answered. */
  #saved(answer: Answer): SavedFile[] {
    const { filesDir, trouble } = this.#parts;
    try {
      return isRefusal(answer) ? [] : saveFiles(answer.files, filesDir);
    } catch (error) {
      trouble(error);
      return [];
    }
  }

  async #show(message: Message, ping?: string): Promise<void> {
    const { zone } = await this.#parts.house.studio();
    const { transcript, show, office } = this.#parts;
    const { channel, answer } = message;
    const write = show(message, { zone, now: office.clock.now() });
    transcript.show({ channel, buttons: buttonsOf(answer), ping }, write);
  }

  /** By the name of each command, a line that would do. */
  #firstLines(): ReadonlyMap<string, string> {
    return new Map(
      this.#parts.office.commands.entries.map(({ name, declarations }) => [name, declarations[0]?.examples[0] ?? `/${name}`]),
    );
  }
}
