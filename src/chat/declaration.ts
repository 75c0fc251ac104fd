import type { z } from 'zod';
import type { Refusal } from '../words/refusal.ts';
import type { Answer } from './card.ts';
import type { Option } from './option.ts';

/**
 * One command, declared once: the line parser, completion, help and the platform's registration are all derived from
 * it, so that none of them can disagree with another. What a `Desk` is, only the commands know.
 */
export interface Work<Desk, Shape extends z.ZodRawShape> {
  /** What it does, in at most 100 characters. */
  summary: string;
  /** Each carries its metadata: `.meta({ about: '…' })`. See `OptionMeta`. */
  options: Shape;
  /** Without the command itself: `material:brush-urethane amount:500 g`. At least one, unless there are no options. */
  examples: readonly string[];
  /** Only for those who manage the server. */
  manage?: boolean;
  /** What a button with `asks` still asks for, given the options that it brings. */
  form?: (options: Readonly<Record<string, string>>, desk: Desk) => Form | Refusal;
  run: (input: z.infer<z.ZodObject<Shape>>, desk: Desk) => Promise<Answer>;
}

/** Values that belong together and are asked for in one go: at most five fields, of different options or of one. */
export interface Form {
  readonly title: string;
  readonly fields: readonly Field[];
}

export interface Field {
  /** The option that it fills. What stands in several fields of one option is joined by ", ". */
  readonly option: string;
  readonly label: string;
  /** What could be typed there. */
  readonly example: string;
  /** Said after what was typed, as the part in `171 g A`. */
  readonly suffix?: string;
  /** Takes several lines. */
  readonly long?: boolean;
}

/** What an option says about itself, through zod's `.meta()`. */
export interface OptionMeta {
  /** At most 100 characters. */
  about: string;
  /** Which supplier completes its values: `material`, `job`, `step`, `recipe`, `person` … */
  complete?: string;
  /** Its value is a person's id. */
  person?: true;
  /** Its value is a file. */
  attachment?: true;
  /** Free text: it runs on, even over a `word:` that is no option. */
  free?: true;
  /** What an example has for it where no value was typed, or no number; left out, the example leaves it out. */
  emptied?: string;
  /** The example of its refusal has all else that was typed: nothing there is at odds with it. */
  withRest?: true;
  /** A text that is picked from these. */
  choices?: readonly string[];
  /** Words that are taken for a choice, too, where they are typed; the surfaces do not offer them. */
  also?: readonly string[];
}

/** A command whose option types have been forgotten, so that commands of all shapes fit in one list. */
export interface Part<Desk> {
  readonly summary: string;
  readonly options: z.ZodRawShape;
  readonly examples: readonly string[];
  readonly manage?: boolean;
  readonly form?: (options: Readonly<Record<string, string>>, desk: Desk) => Form | Refusal;
  readonly run: (input: Input, desk: Desk) => Promise<Answer>;
}

export type Input = Readonly<Record<string, unknown>>;

/** What stands behind one slash: a command, or a group of them. */
export type Command<Desk> =
  | { readonly name: string; readonly summary: string; readonly only: Part<Desk> }
  | { readonly name: string; readonly summary: string; readonly parts: Readonly<Record<string, Part<Desk>>> };

/** A command as all the surfaces see it, a part of a group just like one that stands alone. */
export interface Declaration<Desk> {
  /** Without the slash: `mix`, `job start`. */
  readonly path: string;
  /** The last word of the path. */
  readonly part: string;
  readonly summary: string;
  readonly options: readonly Option[];
  /** Validates the converted values of all options together. */
  readonly schema: z.ZodObject;
  /** Whole lines, with the slash. Never empty. */
  readonly examples: readonly [string, ...string[]];
  readonly manage: boolean;
  readonly form: ((options: Readonly<Record<string, string>>, desk: Desk) => Form | Refusal) | null;
  readonly run: (input: Input, desk: Desk) => Promise<Answer>;
}

/** What stands behind one slash. */
export interface Entry<Desk> {
  readonly name: string;
  readonly summary: string;
  readonly grouped: boolean;
  readonly declarations: readonly Declaration<Desk>[];
}

/** The three ways to declare, bound to one kind of desk: `const { command, group, part } = declarations<Desk>()`. */
export function declarations<Desk>() {
  /** One subcommand of a group. */
  function part<const Shape extends z.ZodRawShape>(work: Work<Desk, Shape>): Part<Desk> {
    // The only place that forgets the shape. It is safe: `run` is only ever called with what the shape has validated.
    return work as unknown as Part<Desk>;
  }
  function command<const Shape extends z.ZodRawShape>(work: Work<Desk, Shape> & { name: string }): Command<Desk> {
    return { name: work.name, summary: work.summary, only: part(work) };
  }
  function group(whole: { name: string; summary: string; commands: Record<string, Part<Desk>> }): Command<Desk> {
    return { name: whole.name, summary: whole.summary, parts: whole.commands };
  }
  return { command, group, part };
}
