import type { APIAttachment, APIMessage, APIUser, RESTPostAPIChannelMessageJSONBody } from 'discord-api-types/v10';
import type { Before } from './checks.ts';
import type { SentFile } from './multipart.ts';
import { pieces } from './pieces.ts';
import { snowflake } from './snowflakes.ts';

/** A message's body as bots send it. */
export type MessageBody = RESTPostAPIChannelMessageJSONBody;

/** A button as somebody sees it. Links have no `customId`. */
export interface Button {
  readonly label: string;
  readonly customId: string | undefined;
  readonly disabled: boolean;
  readonly style: number;
}

const EPHEMERAL = 64;
const LOADING = 128;

/** A message that stands in a channel, and how it came to be what it is. */
export class Posted {
  readonly id = snowflake();
  readonly at = Date.now();
  readonly channelId: string;
  readonly author: APIUser;
  /** What was sent, the last edit laid over what was there before. `allowed_mentions` and `nonce` stand here. */
  body: MessageBody;
  /** The files that it shows now. */
  files: readonly (SentFile & { readonly attachment: APIAttachment })[] = [];
  edits = 0;
  deleted = false;
  /** A deferred answer that is still "thinking". */
  loading = false;
  readonly more: Partial<APIMessage>;
  readonly #filesAt: string;

  constructor(
    channelId: string,
    author: APIUser,
    body: MessageBody,
    files: readonly SentFile[],
    filesAt: string,
    more: Partial<APIMessage> = {},
  ) {
    this.channelId = channelId;
    this.author = author;
    this.body = body;
    this.more = more;
    this.#filesAt = filesAt;
    this.files = files.map((file) => this.#attach(file));
  }

  /** Lays an edit over the message. Files stay, unless `attachments` says which do. */
  edit(body: Partial<MessageBody>, files: readonly SentFile[]): void {
    const kept = body.attachments?.map(({ id }) => String(id));
    const stay = kept === undefined ? this.files : this.files.filter(({ attachment }) => kept.includes(attachment.id));
    const flags = (this.body.flags ?? 0) | (body.flags ?? 0);
    this.body = { ...this.body, ...body, flags };
    this.files = [...stay, ...files.map((file) => this.#attach(file))];
    this.loading = false;
    this.edits += 1;
  }

  /** What an edit starts from. */
  get before(): Before {
    const names = new Map(this.files.map(({ name, attachment }) => [attachment.id, name]));
    return { flags: this.body.flags ?? 0, names, empty: this.loading };
  }

  /** Only one person sees it. */
  get aside(): boolean {
    return ((this.body.flags ?? 0) & EPHEMERAL) !== 0;
  }

  /** All that can be read in it, line by line: content, text displays, embeds. Not the buttons. */
  get text(): string {
    const embeds = (this.body.embeds ?? []).flatMap(({ title, description, fields, footer }) => [
      title,
      description,
      ...(fields ?? []).flatMap(({ name, value }) => [name, value]),
      footer?.text,
    ]);
    const texts = [...pieces(this.body.components)].filter(({ type }) => type === 10).map(({ content }) => content);
    return [this.body.content, ...embeds, ...texts].filter((line) => typeof line === 'string' && line !== '').join('\n');
  }

  get buttons(): Button[] {
    return [...pieces(this.body.components)]
      .filter(({ type }) => type === 2)
      .map((button) => ({
        label: typeof button['label'] === 'string' ? button['label'] : '',
        customId: typeof button['custom_id'] === 'string' ? button['custom_id'] : undefined,
        disabled: button['disabled'] === true,
        style: Number(button['style']),
      }));
  }

  /** The message as the platform hands it out. */
  get message(): APIMessage {
    const { body } = this;
    return {
      id: this.id,
      channel_id: this.channelId,
      author: this.author,
      content: body.content ?? '',
      timestamp: new Date(this.at).toISOString(),
      edited_timestamp: this.edits > 0 ? new Date().toISOString() : null,
      tts: false,
      mention_everyone: false,
      mentions: [],
      mention_roles: [],
      attachments: this.files.map(({ attachment }) => attachment),
      embeds: body.embeds ?? [],
      components: (body.components ?? []) as APIMessage['components'],
      pinned: false,
      type: 0,
      flags: (body.flags ?? 0) | (this.loading ? LOADING : 0),
      ...(body.nonce === undefined ? {} : { nonce: body.nonce }),
      ...this.more,
    };
  }

  #attach(file: SentFile): SentFile & { attachment: APIAttachment } {
    const id = snowflake();
    const url = `${this.#filesAt}/${id}/${encodeURIComponent(file.name)}`;
    const described = this.body.attachments?.find((one) => String(one.id) === file.index)?.description;
    return {
      ...file,
      attachment: {
        id,
        filename: file.name,
        size: file.bytes.length,
        url,
        proxy_url: url,
        content_type: file.type,
        ...(typeof described === 'string' ? { description: described } : {}),
      },
    };
  }
}
