import { clearScreenDown, createInterface, moveCursor } from 'node:readline';
import type { WriteStream } from 'node:tty';
import { complete, type Suppliers } from '../../chat/complete.ts';
import type { Registry } from '../../chat/registry.ts';
import type { Desk } from '../../desk/desk.ts';
import { historyIn } from './history.ts';

export interface InteractiveParts {
  readonly input: NodeJS.ReadableStream;
  readonly output: WriteStream;
  readonly commands: Registry<Desk>;
  readonly suppliers: () => Promise<Suppliers>;
  /** The labels that can be pressed, the newest first. */
  readonly labels: () => Promise<string[]>;
  readonly prompt: () => string;
  readonly line: (typed: string) => Promise<void>;
  readonly historyFolder: string | null;
  readonly trouble: (error: unknown) => void;
}

/** A prompt with completion and history. */
export interface Prompt {
  /** Writes above the prompt, and leaves what is being typed as it is. */
  print(text: string): void;
  /** Asks for lines until the input ends (Ctrl-D). */
  run(): Promise<void>;
}

export function interactive(parts: InteractiveParts): Prompt {
  const { output, trouble } = parts;
  const history = historyIn(parts.historyFolder, trouble);
  const reader = createInterface({
    input: parts.input,
    output,
    history: history.read(),
    historySize: history.most,
    removeHistoryDuplicates: true,
    completer: (line: string, done: (error: null, found: [string[], string]) => void) => {
      candidatesFor(line, parts).then(
        (found) => done(null, found),
        (error) => {
          trouble(error);
          done(null, [[], line]);
        },
      );
    },
  });
  let asking = false;
  let ended = false;
  const ask = () => {
    if (ended) return;
    asking = true;
    reader.setPrompt(parts.prompt());
    reader.prompt(true);
  };
  const print = (text: string) => {
    if (asking) {
      moveCursor(output, -output.columns, -reader.getCursorPos().rows);
      clearScreenDown(output);
    }
    output.write(`${text}\n`);
    if (asking) reader.prompt(true);
  };
  const run = () =>
    new Promise<void>((resolve) => {
      // Lines that are pasted come all at once; each waits for the one before.
      let working = Promise.resolve();
      reader.on('history', (lines) => history.keep(lines));
      reader.on('line', (typed) => {
        asking = false;
        working = working.then(async () => {
          await parts.line(typed);
          ask();
        });
      });
      reader.on('SIGINT', () => {
        if (reader.line === '') return reader.close();
        reader.write(null, { ctrl: true, name: 'e' });
        reader.write(null, { ctrl: true, name: 'u' });
      });
      reader.on('close', () => {
        ended = true;
        asking = false;
        working.then(() => {
          output.write('\n');
          resolve();
        });
      });
      ask();
    });
  return { print, run };
}

/** As readline wants it: what could stand at the end, and the end that it would replace. */
async function candidatesFor(line: string, parts: InteractiveParts): Promise<[string[], string]> {
  if (/^\s*\[/.test(line)) {
    const typed = line.trimStart();
    const labels = [...new Set(await parts.labels())].map((label) => `[${label}]`);
    return [labels.filter((label) => label.toLowerCase().startsWith(typed.toLowerCase())), typed];
  }
  const suppliers = await parts.suppliers();
  const name = /^\s*@(\S*)$/.exec(line)?.[1];
  if (name !== undefined) {
    const people = suppliers['person']?.({ name: 'person', others: {}, typed: name }) ?? [];
    return [people.flatMap(({ value }) => (value.startsWith(name) ? [`@${value}`] : [])), `@${name}`];
  }
  const { from, candidates } = complete(parts.commands, line, suppliers);
  return [candidates, line.slice(from)];
}
