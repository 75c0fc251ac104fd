import { plainText, type Reader } from '../../../chat/plain.ts';
import type { Text } from '../../../words/text.ts';
import { markup, markupWithin } from './markup.ts';

/** All in UTF-16 units of markup. The platform takes 4000 in one message. */
const MOST_TEXT = 3500;
const MOST_TITLE = 250;
/** Kept free for the line that says what is missing. */
const MORE = 60;
/** A line is not cut to less than this. */
const LEAST = 40;

/** What of a card stands in the message: its heading, its lines in one, and the whole of it where that is not all. */
export interface ShownText {
  head: string;
  body: string;
  /** For a file; undefined where all is shown. */
  whole: string | undefined;
}

/** `word` is the state in a word, may be empty; `spent` is how much of the message other texts take. */
export function shownText(word: string, title: Text, lines: readonly Text[], reader: Reader, spent: number): ShownText {
  const heading = markupWithin(title, reader, MOST_TITLE)
    .replace(/\s*\n\s*/g, ' ')
    .trim();
  const cutTitle = markup(title, reader).length > MOST_TITLE;
  const head = `### ${[word, heading].filter((part) => part !== '').join(' · ') || '…'}`;
  const { body, cutBody } = bodyOf(lines, reader, MOST_TEXT - head.length - spent, cutTitle);
  const whole = () => [title, ...lines].map((text) => plainText(text, reader)).join('\n');
  return { head, body, whole: cutTitle || cutBody ? whole() : undefined };
}

function bodyOf(lines: readonly Text[], reader: Reader, most: number, cutTitle: boolean) {
  const written = lines.map((text) => ({ text, shown: markup(text, reader).trimEnd() })).filter(keptGap);
  const all = written.map(({ shown }) => shown).join('\n');
  if (!cutTitle && all.length <= most) return { body: all, cutBody: false };
  const room = most - MORE;
  const taken: string[] = [];
  let length = 0;
  for (const { text, shown } of written) {
    if (length + shown.length > room) {
      // Only a line that would never fit is cut; any other is better read whole in the file.
      if (shown.length > room && room - length >= LEAST) taken.push(markupWithin(text, reader, room - length));
      break;
    }
    taken.push(shown);
    length += shown.length + 1;
  }
  const missing = written.slice(taken.length).filter(({ shown }) => shown !== '').length;
  const more =
    missing === 0 ? '… the rest is in the file' : `… and ${missing} more ${missing === 1 ? 'line' : 'lines'} in the file`;
  return { body: [...taken, more].join('\n'), cutBody: true };
}

/** One empty line between others is a gap; at the ends, or twice, it is nothing. */
const keptGap = (line: { shown: string }, index: number, all: readonly { shown: string }[]): boolean =>
  line.shown !== '' || (index > 0 && all[index - 1]?.shown !== '' && all.slice(index).some(({ shown }) => shown !== ''));
