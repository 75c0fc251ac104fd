import { createHash } from 'node:crypto';
import { ComponentType, type REST, Routes } from 'discord.js';
import type { APIMessage } from 'discord-api-types/v10';
import type { Answer } from '../../../chat/card.ts';
import type { Way } from '../../../words/refusal.ts';
import { channelBody, editBody, type MessageView, messageOf, type PlatformMessage } from '../rendering/message.ts';
import { keptId } from '../rendering/press.ts';
import type { Records } from './records.ts';

/** What everybody needs who sends by themselves. */
export interface Sending {
  /** Made with `rejectsOnRateLimit`. */
  readonly rest: Pick<REST, 'get' | 'post' | 'patch' | 'delete'>;
  readonly records: Records;
  /** Resolves when one request more than the turn's first may go out: `outbox.room`. */
  readonly room: () => Promise<void>;
  /** The bot's own id, as soon as it is known. */
  readonly me: () => string | undefined;
  /** What somebody is called in a server. */
  readonly names?: (server: string, id: string) => string | undefined;
}

/** Allowed by the platform. */
const MOST_NONCE = 25;
/** Our clock and the platform's may differ by this much. */
const CLOCKS_DIFFER_MS = 30_000;
const PAGE = 100;
const MOST_PAGES = 20;

/** A short name for a longer one; always the same. */
export const digestOf = (name: string): string => createHash('sha256').update(name).digest('base64url').slice(0, MOST_NONCE);

/** One turn's requests: the first is counted with the turn, each further one waits for room. */
export function paced(room: () => Promise<void>): <T>(request: () => Promise<T>) => Promise<T> {
  let first = true;
  return async (request) => {
    if (!first) await room();
    first = false;
    return request();
  };
}

/** The answer as a message, once everything is kept that its buttons mean, with people called as they are in the server. */
export async function rendered(
  answer: Answer,
  { server, ...view }: Omit<MessageView, 'names' | 'room'> & { server: string },
  { records, names }: Pick<Sending, 'records' | 'names'>,
): Promise<PlatformMessage> {
  const kept = new Map<string, Way>();
  const message = messageOf(answer, {
    ...view,
    ...(names ? { names: (id: string) => names(server, id) } : {}),
    room: (way) => {
      const hash = digestOf(JSON.stringify([way.command, Object.entries(way.options).sort(), way.asks === true]));
      kept.set(hash, way);
      return keptId(hash, view.bench);
    },
  });
  for (const [hash, way] of kept) await records.keep(server, hash, way);
  return message;
}

/** Posts a message that has a name, and gives its id; for some minutes the same name means the same message. */
export async function post(rest: Pick<REST, 'post'>, channel: string, message: PlatformMessage, name: string): Promise<string> {
  const body = channelBody(message, digestOf(name));
  return ((await rest.post(Routes.channelMessages(channel), { body, files: message.files })) as APIMessage).id;
}

export async function edit(rest: Pick<REST, 'patch'>, channel: string, id: string, message: PlatformMessage): Promise<void> {
  await rest.patch(Routes.channelMessage(channel, id), { body: editBody(message), files: message.files });
}

/** The same message with this number on its container, by which it can be known again. */
export const marked = (message: PlatformMessage, mark: number): PlatformMessage => ({
  ...message,
  components: message.components.map((each) => (each.type === ComponentType.Container ? { ...each, id: mark } : each)),
});

/** How far a search has come, so that one that a limit has cut off can go on there. What is said meanwhile is newer. */
export interface Search {
  page: number;
  before: string | null;
}

/**
 * The id of the bot's own message with this mark in the channel, sent at `since` or later; null for none. Of a channel
 * where much was said since, only the last pages are looked through: nobody would find the message further back either.
 */
export async function findMarked(
  { rest, me }: Pick<Sending, 'rest' | 'me'>,
  channel: string,
  { mark, since, search = { page: 1, before: null } }: { mark: number; since: number; search?: Search },
): Promise<string | null> {
  const own = me();
  const from = since - CLOCKS_DIFFER_MS;
  for (; search.page <= MOST_PAGES; search.page += 1) {
    const query = new URLSearchParams({ limit: String(PAGE), ...(search.before === null ? {} : { before: search.before }) });
    const messages = (await rest.get(Routes.channelMessages(channel), { query })) as APIMessage[];
    const found = messages.find(
      ({ author, timestamp, components }) =>
        (own === undefined || author.id === own) &&
        Date.parse(timestamp) >= from &&
        components?.some(({ type, id }) => type === ComponentType.Container && id === mark),
    );
    if (found) return found.id;
    const oldest = messages.at(-1);
    if (messages.length < PAGE || !oldest || Date.parse(oldest.timestamp) < from) return null;
    search.before = oldest.id;
  }
  return null;
}
