import type { WriteStream } from 'node:tty';
import { createSupportsTerminalGraphics } from 'supports-terminal-graphics';
import { type Inline, inlineBy } from '../adapters/terminal/inline.ts';

/** A line's cells where the terminal does not say. */
const USUAL_COLUMNS = 80;

/** What shows pictures among the text of this terminal; null where it cannot, or is none. */
export function inlineIn(
  output: Pick<WriteStream, 'isTTY' | 'columns'>,
  env: Readonly<Record<string, string | undefined>>,
): Inline | null {
  const { TERM: term = '' } = env;
  // A multiplexer keeps to itself what it does not know, whatever the terminal around it could do.
  if (term === 'dumb' || /^(screen|tmux)/.test(term) || env['TMUX'] || env['STY']) return null;
  const { iterm2, kitty } = createSupportsTerminalGraphics(output);
  const columns = () => output.columns || USUAL_COLUMNS;
  // Where both are understood, it is the first that works without a setting.
  return iterm2 ? inlineBy('iterm2', columns) : kitty ? inlineBy('kitty', columns) : null;
}
