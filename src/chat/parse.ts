import { nearest } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import type { Declaration, Entry, Input } from './declaration.ts';
import { splitOptions, type Value, writeLine } from './line.ts';
import { headOption } from './option.ts';
import type { Registry } from './registry.ts';
import { validated } from './validate.ts';

/** A command that can be run: `declaration.run(input, desk)`. */
export interface Call<Desk> {
  declaration: Declaration<Desk>;
  input: Input;
  /** The options as they were typed, under their declared names. */
  raw: Record<string, string>;
}

/** Reads a typed line, `/mix material:brush-urethane amount:500 g`. */
export function parseLine<Desk>(registry: Registry<Desk>, line: string): Call<Desk> | Refusal {
  const found = declarationIn(registry, line.trim());
  if (isRefusal(found)) return found;
  return readOptions(found.declaration, found.rest);
}

function readOptions<Desk>(declaration: Declaration<Desk>, rest: string): Call<Desk> | Refusal {
  const names = declaration.options.map(({ name }) => name);
  const unknown = (word: string) => {
    const renamed = (name: string) => {
      const mark = new RegExp(`(?<=^|\\s)${word}:`, 'u');
      return mark.test(rest)
        ? readOptions(
            declaration,
            rest.replace(mark, () => `${name}:`),
          )
        : null;
    };
    // A value runs to the next option.
    const others = rest.replace(new RegExp(`(?:^|\\s)${word}:.*?(?=\\s[^\\s:]+:|$)`, 'su'), '');
    return unknownOption(declaration, word, renamed, others === rest ? null : readOptions(declaration, others.trim()));
  };
  const { head, values } = splitOptions(rest, names);
  if (head) {
    const taker = headOption(declaration.options)?.name;
    const name = values.some((each) => each.name === taker) ? undefined : taker;
    // At the very start, a word that resembles an option was meant as one, even where free text would be taken.
    const slip = head.strayFirst && nearest(head.strays[0] ?? '', names).length > 0;
    if (name === undefined || slip) return slip || head.strayFirst ? unknown(head.strays[0] ?? '') : stray(declaration, head);
    values.unshift({ name, value: head });
  }
  const raw: Record<string, string> = {};
  for (const { name, value } of values) {
    const [example] = declaration.examples;
    if (Object.hasOwn(raw, name))
      return new Refusal('option-repeated', say`${plain(name)} was given twice. Give it once; words with a colon go in quotes.`, {
        example,
      });
    const free = declaration.options.some((option) => option.name === name && option.free);
    if (!free && value.strays[0] !== undefined) return unknown(value.strays[0]);
    raw[name] = value.text;
  }
  return called(declaration, raw);
}

/** The same for a command that comes with its options apart, as from a button or from the platform. */
export function parseCall<Desk>(
  registry: Registry<Desk>,
  call: { command: string; options: Readonly<Record<string, string>> },
): Call<Desk> | Refusal {
  const found = declarationIn(registry, `/${call.command.trim()}`);
  if (isRefusal(found)) return found;
  const { declaration, rest } = found;
  if (rest !== '') return stray(declaration, { text: rest });
  const raw: Record<string, string> = {};
  for (const [key, value] of Object.entries(call.options)) {
    const option = declaration.options.find(({ name }) => name.toLowerCase() === key.toLowerCase());
    if (!option) {
      const { [key]: value = '', ...others } = call.options;
      return unknownOption(
        declaration,
        key,
        (name) => parseCall(registry, { ...call, options: { ...others, [name]: value } }),
        parseCall(registry, { ...call, options: others }),
      );
    }
    raw[option.name] = value;
  }
  return called(declaration, raw);
}

function called<Desk>(declaration: Declaration<Desk>, raw: Record<string, string>): Call<Desk> | Refusal {
  const input = validated(declaration, raw);
  return isRefusal(input) ? input : { declaration, input, raw };
}

function declarationIn<Desk>(
  { entries }: Registry<Desk>,
  line: string,
): { declaration: Declaration<Desk>; rest: string } | Refusal {
  const names = entries.map(({ name }) => name);
  if (!line.startsWith('/')) {
    const [word = ''] = line.split(/\s/, 1);
    const [close] = nearest(word, names);
    const hint = plain(close === undefined ? 'See /help.' : `Did you mean /${close}?`);
    const message = say`A command begins with a slash. Got ${line === '' ? plain('an empty line') : word}. ${hint}`;
    return new Refusal('no-slash', message, { example: exampleOf(entries, close) });
  }
  const [name, rest] = firstWord(line.slice(1));
  const entry = entries.find((each) => each.name === name.toLowerCase());
  if (!entry) {
    const close = nearest(name, names);
    const hint = close.length > 0 ? plain(`Did you mean ${slashed(close)}?`) : plain('See /help.');
    const got = name === '' ? plain('a slash alone') : name;
    return new Refusal('unknown-command', say`There is no such command: ${got}. ${hint}`, {
      example: exampleOf(entries, close[0]),
    });
  }
  if (!entry.grouped) return { declaration: entry.declarations[0] as Declaration<Desk>, rest };
  return partIn(entry, rest);
}

function partIn<Desk>(entry: Entry<Desk>, line: string): { declaration: Declaration<Desk>; rest: string } | Refusal {
  const parts = entry.declarations.map(({ part }) => part);
  const [word, rest] = firstWord(line);
  const declaration = entry.declarations.find(({ part }) => part === word.toLowerCase());
  if (declaration) return { declaration, rest };
  const refused = (code: string, message: Text, close?: string) => {
    const like = entry.declarations.find(({ part }) => part === close) ?? entry.declarations[0];
    return new Refusal(code, message, { example: like?.examples[0] ?? '' });
  };
  const offer = plain(`/${entry.name} goes on with one of ${parts.join(', ')}.`);
  if (word === '' || word.includes(':')) return refused('subcommand-missing', say`${offer} None was given.`);
  return refused('unknown-subcommand', say`${offer} Got ${word}.`, nearest(word, parts)[0]);
}

const firstWord = (text: string): [word: string, rest: string] => {
  const [, word = '', rest = ''] = /^\s*(\S*)\s*(.*)$/s.exec(text) ?? [];
  return [word, rest];
};

/** `renamed`: the same call with that option's name put right; `without`: the call without it; null where that cannot be told. */
function unknownOption<Desk>(
  { path, options, examples }: Declaration<Desk>,
  word: string,
  renamed: (name: string) => Call<Desk> | Refusal | null,
  without: Call<Desk> | Refusal | null,
): Refusal {
  const names = options.map(({ name }) => name);
  const close = nearest(word, names);
  const [name] = close;
  const meant = name === undefined ? null : renamed(name);
  const none = say`${plain(`/${path}`)} has no option ${word}.`;
  if (name !== undefined && meant !== null && !isRefusal(meant))
    return new Refusal('unknown-option', say`${none} Did you mean ${plain(name)}?`, {
      example: writeLine(path, meant.raw),
      ways: [{ label: shortened(`${name}:${meant.raw[name] ?? ''}`), command: path, options: meant.raw }],
    });
  const left = without && !isRefusal(without) && Object.keys(without.raw).length > 0 ? writeLine(path, without.raw) : undefined;
  const hint = close.length > 0 ? `Did you mean ${close.join(', ')}? ` : '';
  const list = names.length > 0 ? `It takes ${names.join(', ')}.` : 'It takes none.';
  return new Refusal('unknown-option', say`${none} ${plain(`${hint}${list}`)} Words with a colon go in quotes.`, {
    example: (isRefusal(meant) ? meant.example : undefined) ?? left ?? examples[0],
  });
}

const MOST_LABEL = 80;
const shortened = (label: string) => (label.length > MOST_LABEL ? `${label.slice(0, MOST_LABEL - 1)}…` : label);

function stray<Desk>({ path, options, examples }: Declaration<Desk>, { text }: Pick<Value, 'text'>): Refusal {
  const takes = options.length > 0 ? `takes its options as name:value` : 'takes no options';
  return new Refusal('stray-text', say`${plain(`/${path} ${takes}`)}. Got ${text} before the first one.`, {
    example: examples[0],
  });
}

const slashed = (names: readonly string[]) => names.map((name) => `/${name}`).join(', ');

function exampleOf<Desk>(entries: readonly Entry<Desk>[], name: string | undefined): string {
  return entries.find((entry) => entry.name === name)?.declarations[0]?.examples[0] ?? '/help';
}
