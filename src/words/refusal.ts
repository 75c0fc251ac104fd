import type { Text } from './text.ts';

/**
 * A clear no, as a value: what is wrong, and what would do. A refusal is an answer, not a crash, so it is returned, never
 * thrown. Whoever gets one stores nothing.
 */
export class Refusal {
  /** Stable, for scripts: lower case words joined by hyphens, such as `unknown-material`. */
  readonly code: string;
  /** What was expected, what was got, and why it will not do. */
  readonly message: Text;
  /** Something that would have been accepted, where one can be named. */
  readonly example: string | undefined;
  /** What can be pressed instead: a label and the command line that it stands for. */
  readonly ways: readonly Way[];

  constructor(code: string, message: Text, more: { example?: string; ways?: readonly Way[] } = {}) {
    this.code = code;
    this.message = message;
    this.example = more.example;
    this.ways = more.ways ?? [];
  }
}

/** A way on: what a button says, and the command that pressing it stands for. */
export interface Way {
  label: string;
  /** The command's path without the slash: `done`, `cup start`. */
  command: string;
  options: Readonly<Record<string, string>>;
  /** The command asks for more when it is pressed: its declaration's `form` says for what. */
  asks?: boolean;
}

export const isRefusal = (value: unknown): value is Refusal => value instanceof Refusal;
