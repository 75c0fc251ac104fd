import { nearest } from '../words/nearest.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import type { Declaration, Input } from './declaration.ts';
import { LIMITS } from './limits.ts';
import { splitOptions, writeLine } from './line.ts';
import type { Option } from './option.ts';

type Raw = Readonly<Record<string, string>>;

/** Turns the texts of a call's options into its input, or says which one will not do and what would. */
export function validated<Desk>(declaration: Declaration<Desk>, raw: Raw): Input | Refusal {
  const [example] = declaration.examples;
  const values: Record<string, unknown> = {};
  for (const option of declaration.options) {
    const text = Object.hasOwn(raw, option.name) ? raw[option.name] : undefined;
    if (text === undefined) {
      if (!option.required) continue;
      const message = say`${plain(`/${declaration.path}`)} needs ${plain(option.name)}: ${plain(option.about)}. None was given.`;
      return new Refusal('option-missing', message, { example });
    }
    const value = valueFrom(option, text);
    if (value instanceof Wrong) {
      const ways = value.near.map((near) => ({
        label: near,
        command: declaration.path,
        options: { ...raw, [option.name]: near },
      }));
      return value.refusal(righted(declaration, raw, option, value.instead), ways);
    }
    values[option.name] = value;
  }
  const result = declaration.schema.safeParse(values);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  const carried = issue?.code === 'custom' ? issue.params?.['refusal'] : undefined;
  const name = String(issue?.path[0] ?? '');
  if (isRefusal(carried)) {
    const value = carried.example;
    if (value?.startsWith('/')) return withRest(carried, declaration, raw, name);
    const option = declaration.options.find((each) => each.name === name);
    const whole = option && value !== undefined && value !== raw[name] ? righted(declaration, raw, option, value) : example;
    return new Refusal(carried.code, carried.message, { example: whole, ways: carried.ways });
  }
  return new Refusal('option-invalid', say`${plain(name)} will not do like that. Got ${shortened(raw[name] ?? '')}.`, {
    example,
  });
}

/**
 * A refusal whose example is a whole line, with all else that was typed in it where its option wants that. What only the example
 * has is what the command needs, unless something was typed that the example knows nothing of.
 */
function withRest<Desk>(refusal: Refusal, declaration: Declaration<Desk>, raw: Raw, name: string): Refusal {
  const { path, options } = declaration;
  const { example = '' } = refusal;
  if (!example.startsWith(`/${path} `)) return refusal;
  const { values } = splitOptions(
    example.slice(path.length + 1),
    options.map((option) => option.name),
  );
  const shown: Raw = Object.fromEntries(values.map((each) => [each.name, each.value.text]));
  const option = options.find((each) => each.name === name);
  const value = shown[name];
  if (!option?.withRest || value === undefined || Object.keys(raw).length === 1) return refusal;
  const others = Object.keys(raw).every((typed) => Object.hasOwn(shown, typed)) ? shown : {};
  const whole = righted(declaration, { ...others, ...raw }, option, value);
  return new Refusal(refusal.code, refusal.message, { example: whole, ways: refusal.ways });
}

/** A value that will not do. */
class Wrong {
  readonly code: string;
  readonly message: Text;
  /** What would; null where the option is better left out. */
  readonly instead: string | null;
  /** What may have been meant. */
  readonly near: readonly string[];

  constructor(code: string, message: Text, instead: string | null, near: readonly string[] = []) {
    this.code = code;
    this.message = message;
    this.instead = instead;
    this.near = near;
  }

  refusal(example: string, ways: readonly Way[]): Refusal {
    return new Refusal(this.code, this.message, { example, ways });
  }
}

/** The whole line that was typed, with one option put right. Where nothing else was typed, an example that has that option. */
function righted<Desk>(declaration: Declaration<Desk>, raw: Raw, { name }: Option, instead: string | null): string {
  const { path, examples, options } = declaration;
  const put = (whole: Raw): Raw => {
    const { [name]: _, ...others } = whole;
    return instead === null ? others : { ...whole, [name]: instead };
  };
  if (Object.keys(raw).length === 1) {
    const names = options.map((option) => option.name);
    for (const example of examples) {
      const { values } = splitOptions(example.slice(path.length + 1), names);
      if (values.some((each) => each.name === name))
        return writeLine(path, put(Object.fromEntries(values.map((each) => [each.name, each.value.text]))));
    }
  }
  const whole = put(raw);
  const again = validated(declaration, whole);
  return isRefusal(again) ? (again.example ?? examples[0]) : writeLine(path, whole);
}

function valueFrom(option: Option, text: string): unknown {
  const name = plain(option.name);
  // What can be left out is; what is needed is as an example has it.
  const usual = option.required ? (option.choices[0] ?? null) : null;
  if (text.trim() === '')
    return new Wrong('option-empty', say`${name} has no value. Give one, or leave ${name} out.`, option.emptied ?? usual);
  if (text.length > LIMITS.value)
    return new Wrong('option-too-long', say`${name} takes at most ${LIMITS.value} characters. Got ${text.length}.`, usual);
  switch (option.kind) {
    case 'choice':
      return chosen(option, text);
    case 'boolean': {
      const word = text.trim().toLowerCase();
      if (['yes', 'y', 'true'].includes(word)) return true;
      if (['no', 'n', 'false'].includes(word)) return false;
      return new Wrong('not-yes-or-no', say`${name} is yes or no. Got ${shortened(text)}.`, 'yes');
    }
    case 'integer':
    case 'number':
      return numberFrom(option, text);
    default:
      return text;
  }
}

function numberFrom(option: Option, text: string): number | Wrong {
  const whole = option.kind === 'integer';
  const number = Number(text.trim().replace(',', '.'));
  const fits = whole ? /^\s*[-+]?\d+\s*$/.test(text) : /^\s*[-+]?(\d+([.,]\d*)?|[.,]\d+)\s*$/.test(text);
  const { least = -Infinity, most = Infinity } = option;
  // Beyond that no computer counts exactly; nobody at a bench means it.
  const counted = Math.abs(number) <= Number.MAX_SAFE_INTEGER;
  if (fits && counted && number >= least && number <= most) return number;
  const wanted = plain(
    `a ${whole ? 'whole ' : ''}number${range(option)}${fits && !counted && most === Infinity ? ', not as large' : ''}`,
  );
  const message = say`${plain(option.name)} is ${wanted}. Got ${shortened(text)}.`;
  // Which things have a number, nobody knows here: none names the last.
  const unnumbered = option.complete !== undefined && !option.required;
  return new Wrong('not-a-number', message, unnumbered ? null : (option.emptied ?? String(option.least ?? Math.min(1, most))));
}

/** " from 1 to 10", " of at least 1", or nothing where any number will do. */
export function range({ least, most }: Pick<Option, 'least' | 'most'>): string {
  if (least !== undefined && most !== undefined) return ` from ${least} to ${most}`;
  if (least !== undefined) return ` of at least ${least}`;
  return most === undefined ? '' : ` of at most ${most}`;
}

function chosen(option: Option, text: string): string | Wrong {
  const bare = (word: string) => word.toLowerCase().replace(/[-\s_]+/g, '');
  const exact = [...option.choices, ...option.also].find((choice) => bare(choice) === bare(text));
  if (exact !== undefined) return exact;
  const close = nearest(text, option.choices);
  const message = say`${plain(option.name)} is one of ${plain(option.choices.join(', '))}. Got ${shortened(text)}.`;
  return new Wrong('unknown-choice', message, close[0] ?? option.choices[0] ?? null, close);
}

const MOST_QUOTED = 80;
const shortened = (text: string): string => (text.length > MOST_QUOTED ? `${text.slice(0, MOST_QUOTED - 1)}…` : text);
