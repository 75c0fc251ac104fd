import type { Declaration } from './declaration.ts';
import { splitOptions, writeValue } from './line.ts';
import { headOption, type Option } from './option.ts';
import type { Registry } from './registry.ts';

/** What could stand in the line from the position `from` to its end. */
export interface Completion {
  from: number;
  candidates: string[];
}

/** Values to offer, under the `complete` word of the options that take them. */
export type Suppliers = Readonly<Record<string, () => readonly string[]>>;

/** Completes the end of a line that is being typed: commands, subcommands, options not used yet, and values. */
export function complete<Desk>(registry: Registry<Desk>, line: string, suppliers: Suppliers): Completion {
  const start = line.length - line.trimStart().length;
  const [, command = '', gap = ''] = /^(\S*)(\s*)/.exec(line.slice(start)) ?? [];
  if (gap === '') {
    return {
      from: start,
      candidates: beginning(
        command,
        registry.entries.map(({ name }) => `/${name}`),
      ),
    };
  }
  const entry = registry.entries.find(({ name }) => `/${name}` === command.toLowerCase());
  if (!entry) return { from: line.length, candidates: [] };
  const after = start + command.length + gap.length;
  if (!entry.grouped) return completeOptions(entry.declarations[0] as Declaration<Desk>, line, after, suppliers);
  const [, part = '', partGap = ''] = /^(\S*)(\s*)/.exec(line.slice(after)) ?? [];
  if (partGap === '')
    return {
      from: after,
      candidates: beginning(
        part,
        entry.declarations.map((each) => each.part),
      ),
    };
  const declaration = entry.declarations.find((each) => each.part === part.toLowerCase());
  if (!declaration) return { from: line.length, candidates: [] };
  return completeOptions(declaration, line, after + part.length + partGap.length, suppliers);
}

function completeOptions<Desk>({ options }: Declaration<Desk>, line: string, after: number, suppliers: Suppliers): Completion {
  const rest = line.slice(after);
  const { head, values } = splitOptions(
    rest,
    options.map(({ name }) => name),
  );
  const last = values.at(-1);
  // Before the first option, what is typed may be the value of the first required one, or the beginning of a name.
  const option = last ? options.find(({ name }) => name === last.name) : headOption(options);
  const typed = typedEnd(rest, last?.name);
  if (option && (last || head)) {
    const candidates = valuesFor(option, typed.replace(/^["“]/, ''), suppliers).map(writeValue);
    const names = last ? [] : namesBeginning(typed);
    if (candidates.length + names.length > 0) return { from: line.length - typed.length, candidates: [...candidates, ...names] };
  }
  // A name begins after a space; straight after the colon there is nothing but the value.
  const word = /(?<=^|\s)\S*$/.exec(rest);
  const from = after + (word?.index ?? rest.length);
  if (!word || word[0].includes(':') || (last && typed === word[0])) return { from: line.length, candidates: [] };
  return { from, candidates: namesBeginning(word[0]) };

  function namesBeginning(prefix: string): string[] {
    const used = new Set(values.map(({ name }) => name));
    return beginning(
      prefix,
      options.filter(({ name }) => !used.has(name)).map(({ name }) => `${name}:`),
    );
  }
}

/** The value that is being typed, just as it stands at the end of the line. */
function typedEnd(rest: string, name: string | undefined): string {
  if (name === undefined) return rest;
  const colon = rest.toLowerCase().lastIndexOf(`${name.toLowerCase()}:`);
  return rest.slice(colon + name.length + 1).trimStart();
}

/** The values that an option offers for what has been typed of one. */
export function valuesFor(option: Option, typed: string, suppliers: Suppliers): string[] {
  if (option.choices.length > 0) return beginning(typed, option.choices);
  if (option.kind === 'boolean') return beginning(typed, ['yes', 'no']);
  const supplier = option.complete !== undefined && Object.hasOwn(suppliers, option.complete) && suppliers[option.complete];
  return supplier ? beginning(typed, supplier()) : [];
}

const beginning = (prefix: string, candidates: readonly string[]) =>
  candidates.filter((candidate) => candidate.toLowerCase().startsWith(prefix.toLowerCase()));
