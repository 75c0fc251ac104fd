import { setTimeout as pause } from 'node:timers/promises';
import { humanText } from '../adapters/terminal/human.ts';
import { problemText } from '../adapters/yaml/problem.ts';
import { StandingClock } from '../bench/standing-clock.ts';
import type { Streams } from './chat.ts';
import { story } from './demo-story.ts';
import { openLocalChat } from './local-chat.ts';

/** The pauses of the whole demo together, so that a person can read along. A pipe does not wait. */
const PAUSES_MS = 45_000;

/** Plays the story through the same session as the chat, over a store in memory. */
export async function demo(root: string, { output, errors, colour, inline }: Streams): Promise<number> {
  const print = (text: string) => void output.write(`${text}\n`);
  const trouble = (error: unknown) => void errors.write(`${String(error)}\n`);
  const opened = await openLocalChat({
    root,
    dataDir: null,
    configDir: null,
    zone: story.zone,
    clock: new StandingClock(0),
    at: story.at,
    show: (message, reader) => {
      const text = humanText(message, { ...reader, colour, inline });
      return () => print(text);
    },
    trouble,
  });
  if (Array.isArray(opened)) {
    errors.write(`${opened.map(problemText).join('\n')}\n`);
    return 1;
  }
  const { session, line, close } = opened;
  const strong = (text: string) => (colour ? `\u001b[1m${text}\u001b[22m` : text);
  for (const typed of story.lines) {
    const narration = /^;\s*(.*)$/.exec(typed)?.[1];
    print(narration === undefined ? `${session.who} #${session.channel} › ${strong(typed)}` : `\n${narration}`);
    await line(typed);
    if (output.isTTY) await pause(Math.min(900, PAUSES_MS / story.lines.length));
  }
  await close();
  return 0;
}
