import { join } from 'node:path';
import { type FileName, loadConfiguration } from '../adapters/yaml/load.ts';
import { problemText } from '../adapters/yaml/problem.ts';
import { chat, type Streams } from './chat.ts';
import { demo } from './demo.ts';
import { type Wanted, wantedBy } from './options.ts';
import { registerCommands } from './register.ts';
import { serve } from './serve.ts';
import { type Settings, settingsIn } from './settings.ts';
import { inlineIn } from './terminal-pictures.ts';
import { USAGE, WrongUsage } from './usage.ts';

/** The whole program; resolves to its exit code. A refusal in the chat is an answer: only a broken set-up is a failure. */
export async function run({ root, argv }: { root: string; argv: string[] }): Promise<number> {
  const { stdin, stdout, stderr, env } = process;
  // Whoever reads us may stop at any time, as `head` does. What was answered is stored, so there is nothing left to do.
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  const colour = stdout.isTTY && !env['NO_COLOR'] && env['TERM'] !== 'dumb';
  try {
    const settings = settingsIn(env);
    const streams = { input: stdin, output: stdout, errors: stderr, colour, inline: inlineIn(stdout, env) };
    return await work(wantedBy(argv, root, settings), root, settings, streams);
  } catch (error) {
    const usage = error instanceof WrongUsage;
    stderr.write(usage ? `${error.message}\n\n${USAGE}` : `Coatbell cannot go on: ${(error as Error).stack ?? error}\n`);
    return usage ? 2 : 1;
  }
}

async function work(wanted: Wanted, root: string, settings: Settings, streams: Streams): Promise<number> {
  switch (wanted.verb) {
    case 'help':
      streams.output.write(USAGE);
      return 0;
    case 'check':
      return check(root, wanted.configDir, streams);
    case 'demo':
      return demo(root, streams);
    case 'chat':
      return chat(root, wanted.options, streams);
    case 'serve':
      return serve(root, wanted.options, settings, streams.errors).finally(endSoon);
    case 'register':
      return registerCommands(wanted.options, settings, streams);
  }
}

function check(root: string, configDir: string | null, { output, errors }: Streams): number {
  const found = loadConfiguration({ shippedDir: join(root, 'config'), ownDir: configDir });
  if (Array.isArray(found)) {
    errors.write(`${found.map(problemText).join('\n')}\n`);
    return 1;
  }
  const count = (things: readonly unknown[], thing: string) => `${things.length} ${thing}${things.length === 1 ? '' : 's'}`;
  const materials = count(found.materials, 'material');
  const recipes = count(found.recipes, 'recipe');
  const from = (name: FileName) => `${name}: ${found.own.includes(name) ? 'yours' : 'shipped'}`;
  output.write(`materials.yaml, recipes.yaml and studio.yaml are in order: ${materials}, ${recipes}\n`);
  output.write(`${from('materials.yaml')}, ${materials}\n${from('recipes.yaml')}, ${recipes}\n${from('studio.yaml')}\n`);
  return 0;
}

/** What the platform's client has still open must not keep a program alive that was told to end, or never began. */
function endSoon(): void {
  setTimeout(() => process.exit(), 500).unref();
}
