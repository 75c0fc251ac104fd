import type { Refusal, Way } from '../words/refusal.ts';
import type { Text } from '../words/text.ts';

/**
 * A message of the bot as plain data, before any chat platform renders it. It says, in this order: what to do now, how
 * much, by when, who; then the reason in one line.
 */
export interface Card {
  readonly title: Text;
  readonly lines: readonly Text[];
  /** The same in numbers, for scripts: base units in the names of the keys. */
  readonly data: Readonly<Record<string, unknown>>;
  /** The likeliest first, at most three. */
  readonly buttons: readonly Way[];
  /** Whom it is for: the only people whom a surface may mention. */
  readonly to: readonly string[];
  /** A word for the state, which a surface may also show as a colour. */
  readonly tone: Tone;
  /** Only the asker needs it. */
  readonly aside: boolean;
  readonly files: readonly CardFile[];
}

/** A file that comes with a card: `image/png` is shown as a picture, the others are to be taken away; `text/calendar` is an .ics. */
export interface CardFile {
  /** With its ending: `materials.yaml`. */
  readonly name: string;
  /** What is in it, for those who cannot see it. A surface shows about 1000 characters of it. */
  readonly about: string;
  readonly type: 'image/png' | 'text/plain' | 'text/calendar';
  readonly bytes: Uint8Array;
}

export type Tone = 'calm' | 'go' | 'soon' | 'late';

export const MOST_BUTTONS = 3;

/** Makes a card out of what differs from a quiet answer without buttons. */
export function card(title: Text, lines: readonly Text[], more: Partial<Omit<Card, 'title' | 'lines'>> = {}): Card {
  return {
    title,
    lines,
    data: more.data ?? {},
    buttons: (more.buttons ?? []).slice(0, MOST_BUTTONS),
    to: more.to ?? [],
    tone: more.tone ?? 'calm',
    aside: more.aside ?? false,
    files: more.files ?? [],
  };
}

/** What a command gives back. */
export type Answer = Card | Refusal;
