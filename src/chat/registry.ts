import { z } from 'zod';
import type { Command, Declaration, Entry, Part } from './declaration.ts';
import { overLimits } from './limits.ts';
import { optionFrom } from './option.ts';

/** All commands that there are. */
export interface Registry<Desk> {
  readonly entries: readonly Entry<Desk>[];
  /** By its path, `job start`. */
  readonly declarations: ReadonlyMap<string, Declaration<Desk>>;
}

/** Throws at start-up, naming the command and the option, where a declaration is one that the platform would reject. */
export function registry<Desk>(commands: readonly Command<Desk>[]): Registry<Desk> {
  const entries = commands.map(entryOf);
  const faults = [...overLimits(entries), ...twice(entries.map(({ name }) => name)).map((name) => `/${name}: declared twice`)];
  if (faults.length > 0) throw new Error(`Commands that cannot be offered:\n${faults.join('\n')}`);
  const all = entries.flatMap(({ declarations }) => declarations);
  return { entries, declarations: new Map(all.map((declaration) => [declaration.path, declaration])) };
}

function entryOf<Desk>(command: Command<Desk>): Entry<Desk> {
  const { name, summary } = command;
  if ('only' in command) return { name, summary, grouped: false, declarations: [declarationOf(name, name, command.only)] };
  const parts = Object.entries(command.parts);
  if (parts.length === 0) throw new Error(`/${name}: the group has no commands`);
  return {
    name,
    summary,
    grouped: true,
    declarations: parts.map(([part, work]) => declarationOf(`${name} ${part}`, part, work)),
  };
}

function declarationOf<Desk>(path: string, part: string, work: Part<Desk>): Declaration<Desk> {
  const options = Object.entries(work.options).map(([name, schema]) => {
    try {
      return optionFrom(name, schema as z.ZodType);
    } catch (error) {
      throw new Error(`/${path}, option ${name}: ${(error as Error).message}`, { cause: error });
    }
  });
  for (const { name } of options) {
    // Lines are read whatever their case, so names that differ in case alone would be one name.
    if (options.filter((other) => other.name.toLowerCase() === name.toLowerCase()).length > 1)
      throw new Error(`/${path}, option ${name}: declared twice`);
  }
  const [first, ...others] = work.examples.map((example) => `/${path} ${example}`.trim());
  if (first === undefined && options.length > 0) throw new Error(`/${path}: it lacks an example`);
  return {
    path,
    part,
    summary: work.summary,
    options,
    schema: z.object(work.options),
    examples: [first ?? `/${path}`, ...others],
    manage: work.manage ?? false,
    form: work.form ?? null,
    run: work.run,
  };
}

function twice(names: readonly string[]): string[] {
  return names.filter((name, index) => names.indexOf(name) !== index);
}
