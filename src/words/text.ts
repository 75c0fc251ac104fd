/**
 * What the bot says, as plain data: a text is a list of spans, and each surface renders them in its own way.
 *
 * The `say` template makes the safe thing the easy thing: what stands in the template is ours, and every string that is
 * put into it counts as somebody else's words and is escaped by the surface. A time stays an instant, so that a surface
 * can show it in the reader's own zone; a person stays an id, so that only people named as data are mentioned.
 */
export type Span =
  | { as: 'plain'; text: string }
  | { as: 'quoted'; text: string }
  | { as: 'code'; text: string }
  | { as: 'strong'; text: Text }
  | { as: 'time'; at: number; style: TimeStyle }
  | { as: 'person'; id: string };

/** `clock`: the wall-clock time, with its day where that is not today's. `away`: how far off, as in "in 40 min". */
export type TimeStyle = 'clock' | 'away';

export type Text = readonly Span[];

/** What may stand in a `say` template. Strings are somebody else's words; numbers are ours. */
export type Sayable = string | number | Span | Text;

const toText = (value: Sayable): Text => {
  if (typeof value === 'string') return value === '' ? [] : [{ as: 'quoted', text: value }];
  if (typeof value === 'number') return [{ as: 'plain', text: String(value) }];
  return 'as' in value ? [value] : value;
};

export function say(ours: TemplateStringsArray, ...theirs: Sayable[]): Text {
  return ours.flatMap((text, index) => [
    ...(text === '' ? [] : [{ as: 'plain', text } as const]),
    ...(index < theirs.length ? toText(theirs[index] as Sayable) : []),
  ]);
}

/** Words of the program itself, for instance a formatted amount. Never hand it what a person typed. */
export const plain = (text: string): Span => ({ as: 'plain', text });
/** Somebody else's words: names, notes, anything typed or configured. */
export const quoted = (text: string): Span => ({ as: 'quoted', text });
/** A line that can be typed as it stands, and so must be copied as it stands; whoever's words are in it. */
export const code = (text: string): Span => ({ as: 'code', text });
/** What must be seen first. */
export const strong = (...parts: Sayable[]): Span => ({ as: 'strong', text: parts.flatMap(toText) });
/** The instant `at` (milliseconds since the epoch), as a wall-clock time. */
export const clock = (at: number): Span => ({ as: 'time', at, style: 'clock' });
/** The instant `at` (milliseconds since the epoch), as a distance from now. */
export const away = (at: number): Span => ({ as: 'time', at, style: 'away' });
export const person = (id: string): Span => ({ as: 'person', id });

/** Joins texts: `joined([a, b, c], ', ', ' and ')` gives "a, b and c". */
export function joined(texts: readonly Text[], between: string, last = between): Text {
  return texts.flatMap((text, index) => {
    if (index === 0) return text;
    return [plain(index === texts.length - 1 ? last : between), ...text];
  });
}

export const people = (ids: readonly string[]): Text =>
  joined(
    ids.map((id) => [person(id)]),
    ', ',
    ' and ',
  );
