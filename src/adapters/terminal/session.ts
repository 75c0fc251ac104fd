import type { House } from '../../bench/house.ts';
import type { Clock } from '../../bench/ports.ts';
import { StandingClock } from '../../bench/standing-clock.ts';
import type { Answer, Card } from '../../chat/card.ts';
import { type Call, parseCall, parseLine } from '../../chat/parse.ts';
import type { Reader } from '../../chat/plain.ts';
import type { Registry } from '../../chat/registry.ts';
import type { Desk } from '../../desk/desk.ts';
import type { Recipe } from '../../job/recipe.ts';
import { DAY, nextWallClock } from '../../trade/calendar.ts';
import type { Material } from '../../trade/material.ts';
import { spanOf, wallClockOf } from '../../trade/moment.ts';
import { isRefusal, type Refusal } from '../../words/refusal.ts';
import { type Asked, askedBy } from './line.ts';
import { buttonsOf, type Message } from './message.ts';
import { broken, clockIsReal, noSuchButton, notACommand, notASpan, notAWallClock } from './refusals.ts';
import type { Transcript } from './transcript.ts';

export interface SessionParts {
  readonly house: House;
  readonly commands: Registry<Desk>;
  readonly materials: readonly Material[];
  readonly recipes: readonly Recipe[];
  readonly clock: Clock;
  readonly transcript: Transcript;
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
    await this.#show({ channel, kind: 'ping', answer: card }, id);
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
        return this.#call(parseLine(this.#parts.commands, asked.line));
      case 'press':
        return this.#press(asked.label);
      case 'advance':
      case 'advance-until':
        return this.#advance(asked);
      case 'unknown':
        return this.#reply(notACommand(asked.text, this.#firstLines()));
    }
  }

  async #press(label: string): Promise<void> {
    const { transcript, commands } = this.#parts;
    const way = transcript.button(this.channel, label);
    if (way) return this.#call(parseCall(commands, way));
    return this.#reply(noSuchButton(label, transcript.labels(this.channel)));
  }

  async #call(call: Call<Desk> | Refusal): Promise<void> {
    const { house, clock, materials, recipes, commands } = this.#parts;
    if (isRefusal(call)) return this.#reply(call);
    const bench = house.bench(this.channel);
    const studio = await house.studio();
    const { who, channel } = this;
    const desk: Desk = { who, channel, now: clock.now(), studio, materials, recipes, bench, house, commands };
    // A command resolves when what it stored is on disk, so what is said here is safe to be believed.
    await this.#reply(await call.declaration.run(call.input, desk));
    // What was told late may make something due at once.
    await bench.wake();
    if (clock instanceof StandingClock) await clock.settle();
  }

  async #advance(asked: Extract<Asked, { as: 'advance' | 'advance-until' }>): Promise<void> {
    const { clock, house } = this.#parts;
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
    await this.#show({ channel: this.channel, kind: 'reply', answer });
  }

  async #show(message: Message, ping?: string): Promise<void> {
    const { zone } = await this.#parts.house.studio();
    const { transcript, show, clock } = this.#parts;
    const { channel, answer } = message;
    const write = show(message, { zone, now: clock.now() });
    transcript.show({ channel, buttons: buttonsOf(answer), ping }, write);
  }

  /** By the name of each command, a line that would do. */
  #firstLines(): ReadonlyMap<string, string> {
    return new Map(
      this.#parts.commands.entries.map(({ name, declarations }) => [name, declarations[0]?.examples[0] ?? `/${name}`]),
    );
  }
}
