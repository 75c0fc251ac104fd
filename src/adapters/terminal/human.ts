import { buttonsOf, linesOf, titleOf } from '../../chat/answer.ts';
import type { Tone } from '../../chat/card.ts';
import { type Reader, withColour } from '../../chat/plain.ts';
import { isRefusal } from '../../words/refusal.ts';
import { clock, joined, person, plain, say, strong, type Text } from '../../words/text.ts';
import type { Inline } from './inline.ts';
import type { Message } from './message.ts';
import type { SavedFile } from './saved.ts';

const ESC = String.fromCharCode(27);

/**
 * The word says it; the colour only says it again. Colours of Okabe and Ito, "Color Universal Design" (2008), which people
 * with any colour vision tell apart: sky blue, bluish green, orange and vermillion. Given as the nearest in the table of
 * 256 that every terminal has.
 */
const TONES: Readonly<Record<Tone | 'no', { word: string; colour: number }>> = {
  calm: { word: '', colour: 74 },
  go: { word: 'GO', colour: 36 },
  soon: { word: 'SOON', colour: 178 },
  late: { word: 'LATE', colour: 166 },
  no: { word: 'NO', colour: 178 },
};

export interface HumanReader extends Reader {
  readonly colour: boolean;
  /** Writes a picture among the text, where the terminal shows some. */
  readonly inline?: Inline | null;
}

/** A message as people read it, without a line break at its end. */
export function humanText(message: Message, reader: HumanReader): string {
  const { answer, kind, channel } = message;
  const { word, colour } = TONES[isRefusal(answer) ? 'no' : answer.tone];
  const said = (text: Text) => withColour(text, reader);
  const paint = (text: string) => (reader.colour && text !== '' ? `${ESC}[38;5;${colour}m${text}${ESC}[39m` : text);
  const to = isRefusal(answer) ? [] : answer.to;
  const mentions = joined(
    to.map((id) => [person(id)]),
    ' ',
  );
  // A ping may come at any time and from any channel, so it says when and where, and for whom.
  const head =
    kind === 'ping'
      ? [said(say`🔔 ${clock(reader.now)} #${channel} ${mentions}`).trimEnd()]
      : to.length > 0
        ? [said(mentions)]
        : [];
  const buttons = buttonsOf(answer).map(({ label }) => said(say`[${label}]`));
  return [
    [...head, ...(word === '' ? [] : [paint(word)]), said([strong(titleOf(answer))])].join('  '),
    ...linesOf(answer).map((line) => `  ${said(line)}`.trimEnd()),
    ...message.files.flatMap((file) => fileLines(file, reader)),
    ...(buttons.length > 0 ? [`  ${paint(said([plain(buttons.join(' '))]))}`] : []),
  ].join('\n');
}

/** Where it lies, what is in it, and itself where it is a picture that can be shown. */
function fileLines({ path, about, type, bytes }: SavedFile, reader: HumanReader): string[] {
  const picture = type === 'image/png';
  const shown = picture ? (reader.inline?.(bytes) ?? null) : null;
  const said = (text: Text) => withColour(text, reader).trimEnd();
  return [
    said(say`  ${plain(picture ? 'Picture' : 'File')}: ${path}`),
    ...(about.trim() === '' ? [] : [said(say`    ${about}`)]),
    ...(shown === null ? [] : [shown]),
  ];
}
