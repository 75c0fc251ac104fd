import { nearest } from '../words/nearest.ts';
import { Refusal } from '../words/refusal.ts';
import { code, plain, say, strong, type Text } from '../words/text.ts';
import { type Answer, card } from './card.ts';
import type { Declaration, Entry } from './declaration.ts';
import type { Option } from './option.ts';
import type { Registry } from './registry.ts';
import { range } from './validate.ts';

/** Help on all commands, or on one of them, a group or a part of it: always what the declarations say. */
export function helpFor<Desk>(registry: Registry<Desk>, topic = ''): Answer {
  const path = topic.trim().replace(/^\//, '').replace(/\s+/g, ' ').toLowerCase();
  if (path === '') return overview(registry);
  const declaration = registry.declarations.get(path);
  if (declaration) return detail(declaration);
  const group = registry.entries.find(({ name }) => name === path);
  if (group) return groupDetail(group);
  const topics = [...registry.entries.map(({ name }) => name), ...registry.declarations.keys()];
  const close = nearest(path, new Set(topics));
  const hint = plain(close.length > 0 ? `Did you mean ${close.map((name) => `/${name}`).join(', ')}?` : 'See /help.');
  return new Refusal('unknown-topic', say`There is no help on ${topic}. ${hint}`, {
    example: topicLine(close[0] ?? registry.entries[0]?.name ?? ''),
  });
}

function overview<Desk>({ entries }: Registry<Desk>): Answer {
  const lines = entries.map((entry) => {
    const parts = entry.grouped ? ` ${entry.declarations.map(({ part }) => part).join(' | ')}` : '';
    return say`${strong(plain(`/${entry.name}${parts}`))} ${plain(entry.summary)}`;
  });
  const more = say`For one of them, or for a part of one: ${code(topicLine(entries[0]?.name ?? ''))}`;
  return card(say`Commands`, [...lines, more], {
    data: dataOf(entries.flatMap((entry) => entry.declarations)),
    aside: true,
  });
}

function groupDetail<Desk>({ name, summary, declarations }: Entry<Desk>): Answer {
  const lines = declarations.map((each) => {
    return say`${strong(plain(`/${each.path}`))} ${plain(sentence(each.summary))} ${exampleLine(each, each.examples[0])}`;
  });
  return card(say`${plain(`/${name}`)}`, [say`${plain(summary)}`, ...lines], {
    data: dataOf(declarations),
    aside: true,
  });
}

function detail<Desk>(declaration: Declaration<Desk>): Answer {
  const { path, summary, options, examples, manage } = declaration;
  const lines: Text[] = [
    say`${plain(summary)}`,
    ...options.map((option) => say`${strong(plain(option.name))} ${plain(optionLine(option))}`),
    ...examples.map((example) => exampleLine(declaration, example)),
  ];
  if (manage) lines.push(say`Only for those who manage the server.`);
  return card(say`${plain(`/${path}`)}`, lines, { data: dataOf([declaration]), aside: true });
}

function optionLine(option: Option): string {
  return `(${option.required ? 'required' : 'optional'}) ${sentence(option.about)}${takes(option)}`;
}

/** On the platform a file is attached, so that a line which names one can be typed in the local chat alone. */
const exampleLine = <Desk>({ options }: Declaration<Desk>, example: string): Text =>
  options.some(({ kind }) => kind === 'attachment')
    ? say`Example, in the local chat: ${code(example)}`
    : say`Example: ${code(example)}`;

/** A line that works wherever it is typed: the platform takes no value without its option. */
const topicLine = (topic: string): string => (topic === '' ? '/help' : `/help topic:${topic}`);

const sentence = (words: string): string => (/[.?!]$/.test(words) ? words : `${words}.`);

function takes({ kind, choices, least, most }: Option): string {
  if (choices.length > 0) return ` One of: ${choices.join(', ')}.`;
  if (kind === 'attachment') return ' Attach a file, or in the local chat give its path.';
  if (kind === 'boolean') return ' Yes or no.';
  if (kind === 'integer') return ` A whole number${range({ least, most })}.`;
  if (kind === 'number') return ` A number${range({ least, most })}.`;
  return '';
}

function dataOf<Desk>(declarations: readonly Declaration<Desk>[]) {
  const commands = declarations.map(({ path, summary, options, examples, manage }) => ({
    name: path,
    summary,
    manage,
    options: options.map(({ name, about, kind, required, choices }) => ({ name, about, kind, required, choices })),
    examples,
  }));
  return { help: { commands } };
}
