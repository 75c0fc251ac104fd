import { isoIn } from '../../cards/iso.ts';
import { buttonsOf, linesOf, titleOf } from '../../chat/answer.ts';
import type { Card } from '../../chat/card.ts';
import { plainText, type Reader } from '../../chat/plain.ts';
import { isRefusal, type Refusal, type Way } from '../../words/refusal.ts';
import type { Text } from '../../words/text.ts';
import type { SavedFile } from './saved.ts';

/** What the local chat shows: an answer, or a message that came by itself. */
export interface Message {
  readonly channel: string;
  readonly kind: 'reply' | 'ping';
  readonly answer: Card | Refusal;
  /** Where its files were put, and what is in them. */
  readonly files: readonly SavedFile[];
}

/** One message as scripts read it, under the contract of `chat --json`. */
export interface MessageObject {
  at: string;
  channel: string;
  kind: 'reply' | 'ping' | 'refusal';
  to: readonly string[];
  title: string;
  text: string;
  data: Readonly<Record<string, unknown>>;
  buttons: Way[];
  /** Their paths. What they are stands in `data`, under `files`. */
  files: string[];
}

export function messageObject({ channel, kind, answer, files }: Message, reader: Reader): MessageObject {
  const said = (text: Text) => plainText(text, reader);
  const refused = isRefusal(answer);
  return {
    at: isoIn(reader.zone)(reader.now),
    channel,
    kind: refused ? 'refusal' : kind,
    to: refused ? [] : answer.to,
    title: said(titleOf(answer)),
    text: linesOf(answer).map(said).join('\n'),
    data: refused
      ? { refusal: { code: answer.code, message: said(answer.message) } }
      : {
          ...answer.data,
          ...(files.length === 0 ? {} : { files: files.map(({ path, type, about }) => ({ path, type, about })) }),
        },
    buttons: buttonsOf(answer).map(({ label, command, options, asks }) => ({
      label,
      command,
      options,
      ...(asks ? { asks } : {}),
    })),
    files: files.map(({ path }) => path),
  };
}
