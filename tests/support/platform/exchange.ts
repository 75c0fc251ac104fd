import type {
  APIApplicationCommandOptionChoice,
  APIInteraction,
  APIModalInteractionResponseCallbackData,
} from 'discord-api-types/v10';
import type { SentFile } from './multipart.ts';
import type { Posted } from './posted.ts';
import type { Person, Room } from './world.ts';

/** One answer to the interaction itself, as it was sent. */
export interface Callback {
  readonly type: number;
  readonly data: unknown;
  readonly files: readonly SentFile[];
  readonly afterMs: number;
}

/** One interaction, and everything that the bot answers to it. */
export class Exchange {
  readonly interaction: APIInteraction;
  readonly user: Person;
  readonly room: Room;
  /** The message whose button was pressed, or from which the modal was opened. */
  readonly source: Posted | null;
  readonly startedAt = Date.now();
  /** The accepted ones: one at most. */
  readonly callbacks: Callback[] = [];
  /** Requests about this interaction that the platform turned down, by its own codes: 40060, 10062, 50027 … */
  readonly rejected: { readonly code: number; readonly afterMs: number }[] = [];
  /** The answer in its present state. For a pressed button that is updated in place, the message with the button. */
  original: Posted | null = null;
  readonly followUps: Posted[] = [];
  #expired = false;
  #answered = false;
  readonly #waiting = new Set<() => void>();

  constructor(interaction: APIInteraction, user: Person, room: Room, source: Posted | null) {
    this.interaction = interaction;
    this.user = user;
    this.room = room;
    this.source = source;
  }

  get expired(): boolean {
    return this.#expired;
  }

  /** The token is worth nothing from now on, as it is 15 minutes after. */
  expire(): void {
    this.#expired = true;
  }

  /** Milliseconds until the first callback of any kind; null before it. */
  get acknowledgedAfterMs(): number | null {
    return this.callbacks[0]?.afterMs ?? null;
  }

  /** @throws when there is no message to show */
  get message(): Posted {
    const message = this.original?.deleted ? this.followUps[0] : (this.original ?? this.followUps[0]);
    if (message === undefined) throw new Error(`no message was answered: ${this.#state()}`);
    return message;
  }

  /** What can be read in the answer. */
  get text(): string {
    return this.message.text;
  }

  /** @throws when the answer is no modal */
  get modal(): APIModalInteractionResponseCallbackData {
    const callback = this.callbacks.find(({ type }) => type === 9);
    if (callback === undefined) throw new Error(`no modal was answered: ${this.#state()}`);
    return callback.data as APIModalInteractionResponseCallbackData;
  }

  /** @throws when the answer is no completion */
  get choices(): APIApplicationCommandOptionChoice[] {
    const callback = this.callbacks.find(({ type }) => type === 8);
    if (callback === undefined) throw new Error(`nothing was completed: ${this.#state()}`);
    return (callback.data as { choices?: APIApplicationCommandOptionChoice[] }).choices ?? [];
  }

  /**
   * Waits for the first answer that is more than a deferral: a message, an update, a modal, choices, or after a deferral an
   * edit or a follow-up. @throws after `ms` milliseconds
   */
  async answered({ ms = 5000 }: { ms?: number } = {}): Promise<this> {
    await this.#until(() => this.#answered, ms, 'an answer');
    return this;
  }

  /** Waits until that many requests about this interaction were turned down. @throws after `ms` milliseconds */
  async turnedDown(times = 1, { ms = 5000 }: { ms?: number } = {}): Promise<this> {
    await this.#until(() => this.rejected.length >= times, ms, `${times} refusals`);
    return this;
  }

  /** For the platform alone: something happened here. */
  changed(answered: boolean): void {
    this.#answered ||= answered;
    for (const look of this.#waiting) look();
  }

  #until(done: () => boolean, ms: number, what: string): Promise<void> {
    return new Promise((resolve, reject) => {
      const end = () => {
        clearTimeout(timer);
        this.#waiting.delete(look);
      };
      const look = () => {
        if (!done()) return;
        end();
        resolve();
      };
      const timer = setTimeout(() => {
        end();
        reject(new Error(`waited ${ms} ms for ${what}: ${this.#state()}`));
      }, ms);
      this.#waiting.add(look);
      look();
    });
  }

  #state(): string {
    const types = this.callbacks.map(({ type }) => type).join();
    return `callbacks [${types}], ${this.followUps.length} follow-ups, turned down [${this.rejected.map(({ code }) => code).join()}]`;
  }
}
