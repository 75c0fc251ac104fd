import { DateTime } from 'luxon';
import type { Span, Text, TimeStyle } from '../words/text.ts';

/** Where and when a text is read. Its times depend on both. */
export interface Reader {
  /** An IANA zone: `Europe/Berlin`. */
  zone: string;
  /** Milliseconds since the epoch. */
  now: number;
  /** What to call a person; the id itself where it gives nothing. */
  names?: (id: string) => string | undefined;
}

const ESC = String.fromCharCode(27);
const BELL = String.fromCharCode(7);
/** Terminal sequences: colours and the like, then titles and links, then whatever else begins so. */
const SEQUENCES = new RegExp(
  `(?:${ESC}\\[|\u009b)[0-?]*[ -/]*[@-~]|${ESC}\\][^${BELL}${ESC}]*(?:${BELL}|${ESC}\\\\)?|${ESC}.?`,
  'gs',
);
/** The control characters that remain, and those that turn the direction of writing around. */
const CONTROLS = /\p{Cc}|[\u202a-\u202e\u2066-\u2069]/gu;

/** The text without any markup, for a terminal or a script. */
export const plainText = (text: Text, reader: Reader): string => withColour(text, { ...reader, colour: false });

/** The text with what must be seen first in bold, where `colour` allows it. */
export function withColour(text: Text, reader: Reader & { colour: boolean }): string {
  return text.map((span) => spanText(span, reader)).join('');
}

function spanText(span: Span, reader: Reader & { colour: boolean }): string {
  switch (span.as) {
    case 'plain':
      return span.text;
    case 'quoted':
    case 'code':
      return harmless(span.text);
    case 'strong': {
      // Bold within bold would end too early, so only the outermost is marked.
      const inside = withColour(span.text, { ...reader, colour: false });
      return reader.colour ? `${ESC}[1m${inside}${ESC}[22m` : inside;
    }
    case 'time':
      return timeText(span.at, span.style, reader);
    case 'person':
      return `@${harmless(reader.names?.(span.id) ?? span.id)}`;
  }
}

/** Somebody else's words on one line, unable to steer the terminal. */
function harmless(text: string): string {
  return text
    .replace(SEQUENCES, '')
    .replace(/[\r\n\t\u2028\u2029]+/g, ' ')
    .replace(CONTROLS, '');
}

function timeText(at: number, style: TimeStyle, { zone, now }: Reader): string {
  if (style === 'away') return awayText(at - now);
  const time = DateTime.fromMillis(at, { zone, locale: 'en' });
  const today = DateTime.fromMillis(now, { zone }).startOf('day');
  // Rounded, since a day on which the clocks change is an hour longer or shorter.
  const days = Math.round(time.startOf('day').diff(today, 'days').days);
  return `${time.toFormat(formatFor(days))}${whichOf(time)}`;
}

/** A weekday alone is told from six days ago to five days on: no two of them are the same. */
function formatFor(days: number): string {
  if (days === 0) return 'HH:mm';
  if (days >= -1 && days <= 5) return 'ccc HH:mm';
  return Math.abs(days) < YEAR_FROM_DAYS ? 'ccc d LLL HH:mm' : 'ccc d LLL yyyy HH:mm';
}

/** From so many days on, a date without its year could be taken for one that is nearer. */
const YEAR_FROM_DAYS = 330;

/** Where clocks are set back an hour comes twice. */
export const whichOf = (time: DateTime): string =>
  time.getPossibleOffsets().length < 2 ? '' : time.isInDST ? ' summer time' : ' winter time';

function awayText(milliseconds: number): string {
  // What is to come is never said to be farther off than it is: a cup is over when it is over.
  const minutes = Math.abs(milliseconds) / 60_000;
  const total = milliseconds > 0 ? Math.floor(minutes + 1e-6) : Math.round(minutes);
  if (total === 0) return 'now';
  const amounts: [number, string][] = [
    [Math.floor(total / 1440), 'd'],
    [Math.floor((total % 1440) / 60), 'h'],
    [total % 60, 'min'],
  ];
  // Days off, nobody counts the minutes.
  const shown = amounts.filter(([amount, unit]) => amount > 0 && !(unit === 'min' && total >= 1440));
  const words = shown.map(([amount, unit]) => `${amount} ${unit}`).join(' ');
  return milliseconds > 0 ? `in ${words}` : `${words} ago`;
}
