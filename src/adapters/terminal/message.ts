import { isoIn } from '../../cards/iso.ts';
import type { Card } from '../../chat/card.ts';
import { plainText, type Reader } from '../../chat/plain.ts';
import { isRefusal, type Refusal, type Way } from '../../words/refusal.ts';
import { say, type Text } from '../../words/text.ts';

/** What the local chat shows: an answer, or a message that came by itself. */
export interface Message {
  readonly channel: string;
  readonly kind: 'reply' | 'ping';
  readonly answer: Card | Refusal;
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
  files: string[];
}

export function messageObject({ channel, kind, answer }: Message, reader: Reader): MessageObject {
  const said = (text: Text) => plainText(text, reader);
  const refused = isRefusal(answer);
  return {
    at: isoIn(reader.zone)(reader.now),
    channel,
    kind: refused ? 'refusal' : kind,
    to: refused ? [] : answer.to,
    title: said(titleOf(answer)),
    text: linesOf(answer).map(said).join('\n'),
    data: refused ? { refusal: { code: answer.code, message: said(answer.message) } } : answer.data,
    buttons: buttonsOf(answer).map(({ label, command, options }) => ({ label, command, options })),
    files: [],
  };
}

/** A refusal has no title of its own; what matters most about it is that everything is as before. */
export const titleOf = (answer: Card | Refusal): Text => (isRefusal(answer) ? say`Nothing has changed` : answer.title);

export const linesOf = (answer: Card | Refusal): readonly Text[] =>
  isRefusal(answer)
    ? [answer.message, ...(answer.example === undefined ? [] : [say`For example: ${answer.example}`])]
    : answer.lines;

export const buttonsOf = (answer: Card | Refusal): readonly Way[] => (isRefusal(answer) ? answer.ways : answer.buttons);
