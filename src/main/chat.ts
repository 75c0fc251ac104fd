import { SystemClock } from '../adapters/system-clock/clock.ts';
import { humanText } from '../adapters/terminal/human.ts';
import type { Inline } from '../adapters/terminal/inline.ts';
import { interactive, type Prompt } from '../adapters/terminal/interactive.ts';
import { type Message, messageObject } from '../adapters/terminal/message.ts';
import { piped } from '../adapters/terminal/piped.ts';
import { problemText } from '../adapters/yaml/problem.ts';
import { StandingClock } from '../bench/standing-clock.ts';
import { plainText, type Reader } from '../chat/plain.ts';
import { suppliersFor } from '../desk/suppliers.ts';
import { clock as clockSpan } from '../words/text.ts';
import { type LocalChat, openLocalChat } from './local-chat.ts';
import type { ChatOptions } from './options.ts';
import { commands } from './registry.ts';

/** What the environment says of the terminal. */
export interface Streams {
  readonly input: NodeJS.ReadStream;
  readonly output: NodeJS.WriteStream;
  readonly errors: NodeJS.WriteStream;
  readonly colour: boolean;
  /** Shows pictures among the text; null where the terminal cannot. */
  readonly inline: Inline | null;
}

/** The local chat from its first line to its last; resolves to the exit code. */
export async function chat(root: string, options: ChatOptions, streams: Streams): Promise<number> {
  const { input, output, errors, colour } = streams;
  const interactively = input.isTTY && output.isTTY;
  // Whoever types through a pipe reads through one, too, even where the answers run over a terminal meanwhile.
  const inline = interactively ? streams.inline : null;
  const trouble = (error: unknown) =>
    void errors.write(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
  const clock = options.at === null ? new SystemClock({ failed: trouble }) : new StandingClock(0);
  let prompt: Prompt | null = null;
  const show = (message: Message, reader: Reader) => {
    const text = options.json
      ? JSON.stringify(messageObject(message, reader))
      : humanText(message, { ...reader, colour, inline });
    const line = `${text}\n`;
    return () => void (prompt ? prompt.print(text) : output.write(line));
  };
  const notice = (text: string) => void errors.write(`${text}\n`);
  const opened = await openLocalChat({ ...options, root, clock, show, notice, trouble });
  if (Array.isArray(opened)) {
    errors.write(`${opened.map(problemText).join('\n')}\n`);
    return 1;
  }
  await opened.wake();
  if (interactively) {
    prompt = await promptFor(opened, { ...options, clock }, streams, trouble);
    await prompt.run();
    prompt = null;
  } else await piped(input, opened.line);
  await opened.close();
  return 0;
}

async function promptFor(
  { app, house, session, transcript, line }: LocalChat,
  { clock, dataDir }: { clock: StandingClock | SystemClock; dataDir: string },
  { input, output, colour }: Streams,
  trouble: (error: unknown) => void,
): Promise<Prompt> {
  const { configuration } = app;
  const speakers = new Set<string>();
  let { zone } = configuration.studio;
  const follow = async () => {
    speakers.add(session.who);
    zone = (await house.studio()).zone;
  };
  await follow();
  return interactive({
    input,
    output,
    commands,
    historyFolder: dataDir,
    trouble,
    suppliers: () => session.desk().then((desk) => suppliersFor(desk, speakers)),
    labels: async () => transcript.labels(session.channel).flat(),
    // A clock that stands still is worth a look before each line; the real one hangs on the wall.
    prompt: () => {
      const now = clock.now();
      const time = clock instanceof StandingClock ? `${plainText([clockSpan(now)], { zone, now })} ` : '';
      const text = `${time}${session.who} #${session.channel} › `;
      return colour ? `\u001b[2m${text}\u001b[22m` : text;
    },
    line: async (typed) => {
      await line(typed);
      await follow();
    },
  });
}
