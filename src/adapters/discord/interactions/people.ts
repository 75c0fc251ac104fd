import { DiscordAPIError, Routes } from 'discord.js';
import type { APIGuildMember } from 'discord-api-types/v10';
import { isSnowflake, roleOf } from '../rendering/markup.ts';
import { within } from './answering.ts';

interface Known {
  /** What people are shown. */
  readonly name: string;
  /** Everything that somebody may type for them, in lower case. */
  readonly names: ReadonlySet<string>;
}

interface PeopleParts {
  /** The part of the platform's client that asks. */
  readonly rest: {
    get(route: `/${string}`, options: { query?: URLSearchParams; signal: AbortSignal }): Promise<unknown>;
  };
  /** The bot's own id, as soon as it is known. */
  readonly me?: () => string | undefined;
  /** Whether there is such a role that can be rung; undefined where that is not known. */
  readonly role?: (server: string, id: string) => boolean | undefined;
  /** Told when the platform could not be asked. */
  readonly trouble: (where: string, error: unknown) => void;
  readonly most?: number;
  readonly patienceMilliseconds?: number;
}

/** How the platform tells of a person: what they are called in a server, everywhere, and to log in. */
export interface Called {
  readonly nick?: string | null | undefined;
  readonly globalName?: string | null | undefined;
  readonly username: string;
}

const MOST_KNOWN = 5000;
const PATIENCE_MS = 1000;
const MOST_FOUND = 5;

/**
 * What people are called in each server, as far as the platform has said by itself: a list of members would take a
 * privilege. Whoever has not been heard of for longest is forgotten first. A role is known by its id within a card, `&42`.
 */
export class People {
  readonly #parts: PeopleParts;
  /** By server and id; the newest last. */
  readonly #known = new Map<string, Known>();

  constructor(parts: PeopleParts) {
    this.#parts = parts;
  }

  learn(server: string, id: string, { nick, globalName, username }: Called): void {
    const names = [nick, globalName, username].filter((name): name is string => typeof name === 'string' && name.trim() !== '');
    const [name] = names;
    if (name === undefined || !(isSnowflake(id) || roleOf(id) !== undefined)) return;
    const key = `${server}/${id}`;
    this.#known.delete(key);
    this.#known.set(key, { name, names: new Set(names.map(lower)) });
    const [oldest] = this.#known.keys();
    if (oldest !== undefined && this.#known.size > (this.#parts.most ?? MOST_KNOWN)) this.#known.delete(oldest);
  }

  name(server: string, id: string): string | undefined {
    return this.#known.get(`${server}/${id}`)?.name;
  }

  /** The ids of all who are known in a server, the last heard of first. */
  known(server: string): string[] {
    return this.#of(server)
      .map(({ id }) => id)
      .reverse();
  }

  /**
   * The id of the one who is called just so, in capitals or not; null where there is nobody, or more than one. The platform
   * is asked for a second at most, and never rejects here.
   */
  async find(server: string, typed: string): Promise<string | null> {
    const wanted = lower(typed);
    if (wanted === '') return null;
    const known = this.#called(server, wanted);
    if (known.length > 0) return onlyOne(known);
    await this.#ask(server, typed.trim());
    return onlyOne(this.#called(server, wanted));
  }

  /**
   * Whether the bot could ring them there: not itself, nor somebody who is no member. Where the platform does not say so
   * within a second, they are taken for one. Never rejects.
   */
  async isHere(server: string, id: string): Promise<boolean> {
    const { me, role } = this.#parts;
    if (id === me?.()) return false;
    const ofRole = roleOf(id);
    if (ofRole !== undefined) return role?.(server, ofRole) ?? true;
    if (this.#known.has(`${server}/${id}`)) return true;
    const { patienceMilliseconds = PATIENCE_MS } = this.#parts;
    // The client's own queue heeds no signal while it waits out a limit.
    return (await within(this.#isMember(server, id), patienceMilliseconds)) ?? true;
  }

  async #isMember(server: string, id: string): Promise<boolean> {
    const { rest, trouble, patienceMilliseconds = PATIENCE_MS } = this.#parts;
    const signal = AbortSignal.timeout(patienceMilliseconds);
    try {
      const { user, nick } = (await rest.get(Routes.guildMember(server, id), { signal })) as APIGuildMember;
      if (user) this.learn(server, id, { nick, globalName: user.global_name, username: user.username });
      return true;
    } catch (error) {
      if (error instanceof DiscordAPIError && error.status === 404) return false;
      if (!signal.aborted) trouble('people', error);
      return true;
    }
  }

  async #ask(server: string, query: string): Promise<void> {
    const { rest, trouble, patienceMilliseconds = PATIENCE_MS } = this.#parts;
    const signal = AbortSignal.timeout(patienceMilliseconds);
    try {
      const found = await rest.get(Routes.guildMembersSearch(server), {
        query: new URLSearchParams({ query: query.slice(0, 100), limit: String(MOST_FOUND) }),
        signal,
      });
      for (const { user, nick } of found as APIGuildMember[])
        if (user && !user.bot) this.learn(server, user.id, { nick, globalName: user.global_name, username: user.username });
    } catch (error) {
      // What is not known in time is asked for in another way; only a real fault is worth a line.
      if (!signal.aborted) trouble('people', error);
    }
  }

  #of(server: string) {
    const prefix = `${server}/`;
    return [...this.#known].flatMap(([key, known]) =>
      key.startsWith(prefix) ? [{ id: key.slice(prefix.length), ...known }] : [],
    );
  }

  #called(server: string, wanted: string): string[] {
    return this.#of(server).flatMap(({ id, names }) => (names.has(wanted) ? [id] : []));
  }
}

const lower = (name: string): string => name.normalize('NFC').trim().toLowerCase();

const onlyOne = (ids: readonly string[]): string | null => (ids.length === 1 ? (ids[0] ?? null) : null);
