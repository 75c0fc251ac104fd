import { ComponentType, MessageFlags } from 'discord.js';
import type {
  APIComponentInContainer,
  APIMessageTopLevelComponent,
  RESTPatchAPIChannelMessageJSONBody,
  RESTPostAPIChannelMessageJSONBody,
} from 'discord-api-types/v10';
import { buttonsOf, linesOf, titleOf } from '../../../chat/answer.ts';
import { type Answer, MOST_BUTTONS } from '../../../chat/card.ts';
import { writeLine } from '../../../chat/line.ts';
import { isRefusal, type Way } from '../../../words/refusal.ts';
import { code, person, say } from '../../../words/text.ts';
import { buttonsFor } from './buttons.ts';
import { toneOf } from './colours.ts';
import { cut, escaped } from './escape.ts';
import { chosenFiles, type SentFile, textFile } from './files.ts';
import { isSnowflake, markup, mentionOf, roleOf } from './markup.ts';
import { markOf } from './press.ts';
import { shownText } from './text.ts';

/** A message as the platform takes it, within all of its limits. Its files fit discord.js's `files` as they are. */
export interface PlatformMessage {
  flags: number;
  components: APIMessageTopLevelComponent[];
  files: SentFile[];
  mentions: { parse: []; users: string[]; roles: string[] };
  /** Only whoever asked needs to see it. */
  ephemeral: boolean;
}

export interface MessageView {
  /** Milliseconds since the epoch. */
  now: number;
  /** An IANA zone. */
  zone: string;
  kind: 'reply' | 'ping';
  /** The channel's id. */
  bench: string;
  names?: (id: string) => string | undefined;
  /** Keeps a way elsewhere whose id would be too long, and gives an id for it. */
  room?: (way: Way) => string;
}

/** The platform's limits, apart from those of texts and files. */
const MOST_MENTIONED = 100;
const MOST_IN_ROW = 5;
/** In UTF-16 units. */
const MOST_MENTION_TEXT = 1000;
const MOST_MISSING_TEXT = 300;

/** Never throws on account of what stands in the answer: what is too long or too big is cut, and said to be. */
export function messageOf(answer: Answer, view: MessageView): PlatformMessage {
  const card = isRefusal(answer) ? undefined : answer;
  const { word, accent } = toneOf(answer);
  const { pictures, others, left } = chosenFiles(card?.files ?? []);
  const ways = buttonsOf(answer).slice(0, card ? MOST_BUTTONS : MOST_IN_ROW);
  const { buttons, unfit } = buttonsFor(ways, { bench: view.bench, room: view.room, go: card?.tone === 'go' });
  const lines = [
    ...linesOf(answer),
    ...unfit.map(({ command, options }) => say`Type: ${code(writeLine(command, options))}`),
    ...(left.length === 0 ? [] : [say`Left out, as it would be too much for one message: ${left.join(', ')}`]),
  ];
  const to = [...new Set(card?.to ?? [])];
  const { head, body, whole } = shownText(word, titleOf(answer), lines, view, mentionText(to, view).length);
  // An answer names most people in its text. Whom it does not name there would not be told.
  const shown = `${head}\n${body}`;
  const unnamed = to.filter((id) => view.kind === 'ping' || (!card?.aside && !shown.includes(mentionOf(id) ?? '')));
  const mentions = mentionText(unnamed, view);
  const attached = whole === undefined ? others : [...others, textFile(whole)];
  const components: APIComponentInContainer[] = [
    text(head),
    ...(body === '' ? [] : [text(body)]),
    ...(pictures.length === 0 ? [] : [gallery(pictures)]),
    ...attached.map(({ name }) => ({ type: ComponentType.File as const, file: { url: `attachment://${name}` } })),
    ...(buttons.length === 0 ? [] : [{ type: ComponentType.ActionRow as const, components: buttons }]),
  ];
  const mark = markIn(card?.data);
  return {
    flags: MessageFlags.IsComponentsV2,
    components: [
      ...(mentions === '' ? [] : [text(mentions)]),
      {
        type: ComponentType.Container,
        components,
        ...(accent === undefined ? {} : { accent_color: accent }),
        ...(mark === undefined ? {} : { id: mark }),
      },
    ],
    files: [...pictures, ...attached],
    mentions: {
      parse: [],
      users: to.filter(isSnowflake).slice(0, MOST_MENTIONED),
      roles: to.flatMap((id) => roleOf(id) ?? []).slice(0, MOST_MENTIONED),
    },
    ephemeral: card?.aside ?? true,
  };
}

/** The same where the platform takes none of its files. `named`: it says which are missing, and why that may be. */
export function withoutFiles(message: PlatformMessage, missing: 'named' | 'unsaid'): PlatformMessage {
  const names = cut(message.files.map(({ name }) => escaped(name)).join(', '), MOST_MISSING_TEXT);
  const note = text(`-# Not sent along: ${names}. May I attach files in this channel?`);
  const bare = (components: readonly APIComponentInContainer[]): APIComponentInContainer[] => [
    ...components.filter(({ type }) => type === ComponentType.TextDisplay),
    ...(missing === 'named' ? [note] : []),
    ...components.filter(({ type }) => type === ComponentType.ActionRow),
  ];
  return {
    ...message,
    components: message.components.map((each) =>
      each.type === ComponentType.Container ? { ...each, components: bare(each.components) } : each,
    ),
    files: [],
  };
}

const text = (content: string) => ({ type: ComponentType.TextDisplay as const, content });

const gallery = (pictures: readonly SentFile[]) => ({
  type: ComponentType.MediaGallery as const,
  items: pictures.map(({ name, description }) => ({
    media: { url: `attachment://${name}` },
    ...(description === undefined ? {} : { description }),
  })),
});

/** As many as there is room for, then how many more there are. */
function mentionText(ids: readonly string[], view: MessageView): string {
  let said = '';
  for (const [index, id] of ids.entries()) {
    const next = `${said}${said === '' ? '' : ' '}${markup([person(id)], view)}`;
    if (next.length > MOST_MENTION_TEXT) return `${said} +${ids.length - index}`.trim();
    said = next;
  }
  return said;
}

/** The number by which a ping's message can be known again. */
function markIn(data: Readonly<Record<string, unknown>> = {}): number | undefined {
  const { ping } = data;
  const id = typeof ping === 'object' && ping !== null && 'id' in ping ? ping.id : undefined;
  return typeof id === 'string' ? markOf(id) : undefined;
}

/**
 * What a message is posted with, beside `files: message.files`. With a `nonce` (at most 25 characters), a second post of the
 * same within some minutes gives the first message again.
 */
export const channelBody = (message: PlatformMessage, nonce?: string): RESTPostAPIChannelMessageJSONBody => ({
  flags: message.flags,
  components: message.components,
  allowed_mentions: message.mentions,
  attachments: attachmentsOf(message),
  ...(nonce === undefined ? {} : { nonce, enforce_nonce: true }),
});

/** What a message is edited with, beside `files: message.files`: files that it had before go. */
export const editBody = (message: PlatformMessage): RESTPatchAPIChannelMessageJSONBody => ({
  flags: message.flags,
  components: message.components,
  allowed_mentions: message.mentions,
  attachments: attachmentsOf(message),
});

const attachmentsOf = ({ files }: PlatformMessage) =>
  files.map(({ name, description }, index) => ({
    id: String(index),
    filename: name,
    ...(description === undefined ? {} : { description }),
  }));

/** What an interaction is answered with through discord.js. An edit of an answer takes the same without `flags`' ephemeral bit. */
export const replyOptions = (message: PlatformMessage) => ({
  flags: message.ephemeral ? message.flags | MessageFlags.Ephemeral : message.flags,
  components: message.components,
  files: message.files.map(({ name, data, description }) => ({
    attachment: data,
    name,
    ...(description === undefined ? {} : { description }),
  })),
  allowedMentions: message.mentions,
});
