import { nearest } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, quoted, say, type Text } from '../words/text.ts';
import type { Declaration, Input } from './declaration.ts';
import { LIMITS } from './limits.ts';
import type { Option } from './option.ts';

/** Turns the texts of a call's options into its input, or says which one will not do and what would. */
export function validated<Desk>(declaration: Declaration<Desk>, raw: Readonly<Record<string, string>>): Input | Refusal {
  const [example] = declaration.examples;
  const values: Record<string, unknown> = {};
  for (const option of declaration.options) {
    const text = Object.hasOwn(raw, option.name) ? raw[option.name] : undefined;
    if (text === undefined) {
      if (!option.required) continue;
      const message = say`${plain(`/${declaration.path}`)} needs ${plain(option.name)}: ${plain(option.about)}. None was given.`;
      return new Refusal('option-missing', message, { example });
    }
    const value = valueFrom(option, text, { path: declaration.path, example, raw });
    if (isRefusal(value)) return value;
    values[option.name] = value;
  }
  const result = declaration.schema.safeParse(values);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  const carried = issue?.code === 'custom' ? issue.params?.refusal : undefined;
  if (isRefusal(carried)) {
    if (carried.example !== undefined) return carried;
    return new Refusal(carried.code, carried.message, { example, ways: carried.ways });
  }
  const name = String(issue?.path[0] ?? '');
  const message = say`${plain(name)}: ${issue?.message ?? ''}. Got ${quoted(raw[name] ?? '')}.`;
  return new Refusal('option-invalid', message, { example });
}

interface Call {
  path: string;
  example: string;
  raw: Readonly<Record<string, string>>;
}

function valueFrom(option: Option, text: string, call: Call): unknown {
  const no = (code: string, message: Text, example = call.example) => new Refusal(code, message, { example });
  const name = plain(option.name);
  if (text.trim() === '') return no('option-empty', say`${name} has no value. Give one, or leave ${name} out.`);
  if (text.length > LIMITS.value)
    return no('option-too-long', say`${name} takes at most ${LIMITS.value} characters. Got ${text.length}.`);
  switch (option.kind) {
    case 'choice':
      return chosen(option, text, call);
    case 'boolean': {
      const word = text.trim().toLowerCase();
      if (['yes', 'y', 'true'].includes(word)) return true;
      if (['no', 'n', 'false'].includes(word)) return false;
      return no('not-yes-or-no', say`${name} is yes or no. Got ${text}.`, `${option.name}:yes`);
    }
    case 'integer':
    case 'number': {
      const whole = option.kind === 'integer';
      const number = Number(text.trim().replace(',', '.'));
      const fits = whole ? /^\s*[-+]?\d+\s*$/.test(text) : /^\s*[-+]?(\d+([.,]\d*)?|[.,]\d+)\s*$/.test(text);
      const { least = -Infinity, most = Infinity } = option;
      if (fits && number >= least && number <= most) return number;
      const message = say`${name} is ${plain(`a ${whole ? 'whole ' : ''}number${range(option)}`)}. Got ${text}.`;
      return no('not-a-number', message, `${option.name}:${option.least ?? Math.min(1, most)}`);
    }
    default:
      return text;
  }
}

/** " from 1 to 10", " of at least 1", or nothing where any number will do. */
export function range({ least, most }: Pick<Option, 'least' | 'most'>): string {
  if (least !== undefined && most !== undefined) return ` from ${least} to ${most}`;
  if (least !== undefined) return ` of at least ${least}`;
  return most === undefined ? '' : ` of at most ${most}`;
}

function chosen(option: Option, text: string, { path, raw }: Call): string | Refusal {
  const bare = (word: string) => word.toLowerCase().replace(/[-\s_]+/g, '');
  const exact = option.choices.find((choice) => bare(choice) === bare(text));
  if (exact !== undefined) return exact;
  const close = nearest(text, option.choices);
  const message = say`${plain(option.name)} is one of ${plain(option.choices.join(', '))}. Got ${text}.`;
  return new Refusal('unknown-choice', message, {
    example: `${option.name}:${close[0] ?? option.choices[0]}`,
    ways: close.map((choice) => ({ label: choice, command: path, options: { ...raw, [option.name]: choice } })),
  });
}
