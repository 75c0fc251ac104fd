/**
 * How the options of a command are written in a line: `amount:500 g note:"see page: 3"`. A value runs to the next option
 * of the same command. Within quotes it may hold anything, a quote being written twice.
 */
export interface Split {
  /** What stands before the first option. */
  head: Value | undefined;
  /** In the order of the line; a name may come twice. */
  values: { name: string; value: Value }[];
}

export interface Value {
  text: string;
  /** The `word:`s within it that are no options of the command. In quotes there are none. */
  strays: string[];
  /** It begins with such a word. */
  strayFirst: boolean;
}

/** A word and a colon, at the start or after a space. */
const MARK = /(?<=^|\s)([-_'\p{L}\p{N}]+):/gu;
/** What may have been meant as an option: letters only, so that `14:05` is none, and no address, as `https://` is. */
const STRAY = /^\p{L}+:(?!\/\/)/u;
const CLOSING: Readonly<Record<string, string>> = { '"': '"', '“': '”' };

/** Splits what follows the command's name. `names` are the options of the command. */
export function splitOptions(line: string, names: readonly string[]): Split {
  const known = new Map(names.map((name) => [name.toLowerCase(), name]));
  const split: Split = { head: undefined, values: [] };
  let name: string | undefined;
  let at = 0;
  for (;;) {
    const { value, mark } = valueAt(line, at, known);
    if (name !== undefined) split.values.push({ name, value });
    else if (value.text !== '') split.head = value;
    if (!mark) return split;
    ({ name } = mark);
    at = mark.end;
  }
}

interface Mark {
  name: string;
  start: number;
  end: number;
}

function valueAt(line: string, at: number, known: ReadonlyMap<string, string>): { value: Value; mark: Mark | undefined } {
  const inQuotes = quotedAt(line, at);
  if (inQuotes) {
    const mark = knownMark(line, inQuotes.end, known);
    // A quotation counts only where it is the whole value: `note:"Now" was shouted` keeps its quotes.
    if (line.slice(inQuotes.end, mark?.start).trim() === '')
      return { value: { text: inQuotes.text, strays: [], strayFirst: false }, mark };
  }
  const mark = knownMark(line, at, known);
  const span = line.slice(0, mark?.start);
  const found = [...marks(span, at)].filter(({ start }) => STRAY.test(span.slice(start)));
  const text = span.slice(at).trim();
  const strayFirst = found[0] !== undefined && span.slice(at, found[0].start).trim() === '';
  return { value: { text, strays: found.map(({ name }) => name), strayFirst }, mark };
}

function* marks(line: string, from: number): Generator<Mark> {
  // A pattern of its own, since callers stop half-way and a shared one would remember where.
  const pattern = new RegExp(MARK);
  pattern.lastIndex = from;
  for (let found = pattern.exec(line); found; found = pattern.exec(line))
    yield { name: found[1] as string, start: found.index, end: pattern.lastIndex };
}

function knownMark(line: string, from: number, known: ReadonlyMap<string, string>): Mark | undefined {
  for (const mark of marks(line, from)) {
    const name = known.get(mark.name.toLowerCase());
    if (name !== undefined) return { ...mark, name };
  }
  return undefined;
}

function quotedAt(line: string, from: number): { text: string; end: number } | undefined {
  let at = from;
  while (at < line.length && line.charAt(at).trim() === '') at++;
  const closing = CLOSING[line.charAt(at)];
  if (closing === undefined) return undefined;
  let text = '';
  for (at++; at < line.length; at++) {
    if (line.charAt(at) === closing) {
      if (line.charAt(at + 1) !== closing) return { text, end: at + 1 };
      at++;
    }
    text += line.charAt(at);
  }
  return undefined;
}

/** Writes a command line that reads back as just these options: what a button stands for, ready to be typed. */
export function writeLine(command: string, options: Readonly<Record<string, string>>): string {
  const written = Object.entries(options).map(([name, value]) => `${name}:${writeValue(value)}`);
  return [`/${command}`, ...written].join(' ');
}

/** Quotes a value only where it could be read as something else. */
export function writeValue(value: string): string {
  const safe =
    value === value.trim() && value !== '' && !(value.charAt(0) in CLOSING) && !/^\p{L}[^\s:]*:(?!\/\/)|\s\S*:/u.test(value);
  return safe ? value : `"${value.replaceAll('"', '""')}"`;
}
