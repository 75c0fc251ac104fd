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

/** For which option something is offered: its name, the other options as far as they are filled in, and its own beginning. */
export interface Asking {
  readonly name: string;
  readonly others: Readonly<Record<string, string>>;
  readonly typed: string;
}

/** What to offer, the likeliest first, under the `complete` word of the options that take it. */
export type Suppliers = Readonly<Record<string, (asking: Asking) => readonly Offer[]>>;

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
    const done = last ? values.slice(0, -1) : [];
    const before = last && head ? [{ name: headOption(options)?.name ?? '', value: head }] : [];
    const others = Object.fromEntries([...before, ...done].map(({ name, value }) => [name, value.text]));
    const candidates = valuesFor(option, typed.replace(/^["“]/, ''), others, suppliers).map(writeValue);
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
function valuesFor(option: Option, typed: string, others: Asking['others'], suppliers: Suppliers): string[] {
  if (option.choices.length > 0) return beginning(typed, option.choices);
  if (option.kind === 'boolean') return beginning(typed, ['yes', 'no']);
  const { before, named, last } = listed(option, typed);
  const offers = offered(option, last, others, suppliers).filter(({ value }) => !named.includes(value.toLowerCase()));
  return beginning(
    last,
    offers.map(({ value }) => value),
  ).map((value) => `${before}${value}`);
}

/**
 * Of several people only the last is still being typed: what stands before it, whom it names (in small letters, without
 * their "@"), and the last. All else is one value.
 */
export function listed({ kind, complete: word }: Option, typed: string): { before: string; named: string[]; last: string } {
  const many = word === 'person' && kind === 'string';
  const [, before = '', last = typed] = many ? (/^(.*[,;]\s*)?([^,;]*)$/s.exec(typed) ?? []) : [];
  const named = before.split(/[,;]/).map((name) => name.trim().replace(/^@/, '').toLowerCase());
  return { before, named: named.filter((name) => name !== ''), last };
}

/** What an option offers where people pick from a list: found by its value or by any word of its title, the best first. */
export function offersFor(option: Option, typed: string, others: Asking['others'], suppliers: Suppliers): Offer[] {
  const word = typed.trim().toLowerCase();
  const rank = ({ value, title }: Offer) => {
    if (value.toLowerCase().startsWith(word)) return 0;
    if (title.toLowerCase().startsWith(word)) return 1;
    return `${value} ${title}`.toLowerCase().includes(word) ? 2 : 3;
  };
  return offered(option, typed, others, suppliers)
    .map((offer) => ({ offer, rank: rank(offer) }))
    .filter(({ rank: each }) => each < 3)
    .sort((one, other) => one.rank - other.rank)
    .map(({ offer }) => offer);
}

const offered = ({ name, complete: word }: Option, typed: string, others: Asking['others'], suppliers: Suppliers) =>
  (word !== undefined && Object.hasOwn(suppliers, word) && suppliers[word]?.({ name, others, typed })) || [];

const beginning = (prefix: string, candidates: readonly string[]) =>
  candidates.filter((candidate) => candidate.toLowerCase().startsWith(prefix.toLowerCase()));
