import type { Declaration } from './declaration.ts';
import { splitOptions, writeValue } from './line.ts';
import { headOption, type Option } from './option.ts';
import type { Registry } from './registry.ts';

/** What could stand in the line from the position `from` to its end. */
export interface Completion {
  from: number;
  candidates: string[];
}

/** A value that can be typed, and what it is called. */
export interface Offer {
  readonly value: string;
  readonly title: string;
}

/** What to offer, under the `complete` word of the options that take it. */
export type Suppliers = Readonly<Record<string, () => readonly Offer[]>>;

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
function valuesFor(option: Option, typed: string, suppliers: Suppliers): string[] {
  if (option.choices.length > 0) return beginning(typed, option.choices);
  if (option.kind === 'boolean') return beginning(typed, ['yes', 'no']);
  return beginning(
    typed,
    offered(option, suppliers).map(({ value }) => value),
  );
}

/** What an option offers where people pick from a list: found by its value or by any word of its title, the best first. */
export function offersFor(option: Option, typed: string, suppliers: Suppliers): Offer[] {
  const word = typed.trim().toLowerCase();
  const rank = ({ value, title }: Offer) => {
    if (value.toLowerCase().startsWith(word)) return 0;
    if (title.toLowerCase().startsWith(word)) return 1;
    return `${value} ${title}`.toLowerCase().includes(word) ? 2 : 3;
  };
  return offered(option, suppliers)
    .map((offer) => ({ offer, rank: rank(offer) }))
    .filter(({ rank: each }) => each < 3)
    .sort((one, other) => one.rank - other.rank)
    .map(({ offer }) => offer);
}

const offered = ({ complete: word }: Option, suppliers: Suppliers): readonly Offer[] =>
  (word !== undefined && Object.hasOwn(suppliers, word) && suppliers[word]?.()) || [];

const beginning = (prefix: string, candidates: readonly string[]) =>
  candidates.filter((candidate) => candidate.toLowerCase().startsWith(prefix.toLowerCase()));
