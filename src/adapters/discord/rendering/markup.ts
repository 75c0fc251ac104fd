import { DateTime } from 'luxon';
import type { Reader } from '../../../chat/plain.ts';
import type { Span, Text } from '../../../words/text.ts';
import { escaped, onOneLine, seen } from './escape.ts';

/** A stretch of a text: words that are still to be escaped, a line to type, or markup that is finished and must stay whole. */
interface Piece {
  words: string;
  as: 'words' | 'code' | 'finished';
  bold: boolean;
}

const LIKE_A_BACKTICK = '\u02cb';
const MOST_SNOWFLAKE = 2n ** 63n - 1n;

/** Whether the platform would take it for the id of something of its own. */
export const isSnowflake = (id: string): boolean => /^[1-9]\d{4,19}$/.test(id) && BigInt(id) <= MOST_SNOWFLAKE;

/** The id of a role within the id of those whom a card is for: `&1234567`. */
export const roleOf = (id: string): string | undefined =>
  id.startsWith('&') && isSnowflake(id.slice(1)) ? id.slice(1) : undefined;

/** What mentions a person or a role; undefined for an id that the platform does not know. */
export function mentionOf(id: string): string | undefined {
  if (isSnowflake(id)) return `<@${id}>`;
  return roleOf(id) === undefined ? undefined : `<@${id}>`;
}

/** The text in the platform's markdown. Only what the spans say becomes markup; all words are shown as they are. */
export const markup = (text: Text, reader: Reader): string => written(piecesOf(text, reader));

/** The same in at most `most` UTF-16 units, ending in "…" where it had to be cut: within the words, never within markup. */
export function markupWithin(text: Text, reader: Reader, most: number): string {
  const whole = markup(text, reader);
  if (whole.length <= most) return whole;
  const units = piecesOf(text, reader).flatMap((piece) =>
    piece.as === 'finished' ? [piece] : [...piece.words].map((words) => ({ ...piece, words })),
  );
  const first = (count: number) => `${written(units.slice(0, count)).trimEnd()}…`;
  let count = 0;
  for (let step = 2 ** 20; step >= 1; step /= 2)
    if (count + step <= units.length && first(count + step).length <= most) count += step;
  return first(count);
}

function piecesOf(text: Text, reader: Reader, bold = false): Piece[] {
  return text.flatMap((span) =>
    span.as === 'strong'
      ? piecesOf(span.text, reader, true)
      : // Asterisks in a line to type would end the bold around it, so it never stands in any.
        [{ ...pieceOf(span, reader), bold: bold && span.as !== 'code' }],
  );
}

function pieceOf(span: Exclude<Span, { as: 'strong' }>, reader: Reader): Omit<Piece, 'bold'> {
  switch (span.as) {
    case 'plain':
      return { words: seen(span.text), as: 'words' };
    case 'quoted':
      return { words: onOneLine(span.text), as: 'words' };
    case 'code':
      return { words: typeable(span.text), as: 'code' };
    case 'time':
      return { words: timeMarkup(span.at, span.style === 'away' ? 'R' : isToday(span.at, reader) ? 't' : 'f'), as: 'finished' };
    case 'person': {
      const mention = mentionOf(span.id);
      if (mention !== undefined) return { words: mention, as: 'finished' };
      return { words: `@${onOneLine(reader.names?.(span.id) ?? span.id)}`, as: 'words' };
    }
  }
}

/**
 * The fence is a backtick: with none inside, nothing can break out. A person's mention stays as it can be typed: nobody is
 * told by it for whom the message is not. Everybody at once is nobody's name.
 */
const typeable = (line: string): string =>
  onOneLine(line)
    .replaceAll('`', LIKE_A_BACKTICK)
    .replace(/@(?=everyone|here)/g, '@\u200b');

const timeMarkup = (at: number, style: 'R' | 't' | 'f') => `<t:${Math.floor(at / 1000)}:${style}>`;

const isToday = (at: number, { now, zone }: Reader): boolean =>
  DateTime.fromMillis(at, { zone }).hasSame(DateTime.fromMillis(now, { zone }), 'day');

/** Neighbours are joined before they are escaped, since a list or an address may begin in one and end in the next. */
function written(pieces: readonly Piece[]): string {
  const stretches: { bold: boolean; pieces: Piece[] }[] = [];
  for (const piece of pieces.filter(({ words }) => words !== '')) {
    const last = stretches.at(-1);
    if (last?.bold === piece.bold) last.pieces.push(piece);
    else stretches.push({ bold: piece.bold, pieces: [piece] });
  }
  return stretches
    .map((stretch) => {
      const inside = joinedWords(stretch.pieces);
      // Asterisks hold to what they touch, so spaces stay outside; a bold nothing would show its asterisks.
      return stretch.bold ? inside.replace(/\S(?:[\s\S]*\S)?/, (words) => `**${words}**`) : inside;
    })
    .join('');
}

function joinedWords(pieces: readonly Piece[]): string {
  let text = '';
  let run: Piece = { words: '', as: 'finished', bold: false };
  for (const piece of pieces) {
    if (piece.as === run.as) run = { ...run, words: run.words + piece.words };
    else {
      text += rendered(run);
      run = piece;
    }
  }
  return text + rendered(run);
}

const rendered = ({ words, as }: Piece): string => (as === 'words' ? escaped(words) : as === 'code' ? `\`${words}\`` : words);
