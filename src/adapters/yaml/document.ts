import { type Document, isAlias, isMap, isPair, isScalar, isSeq, LineCounter, parse, parseDocument, stringify } from 'yaml';
import type { z } from 'zod';
import { nearest } from '../../words/nearest.ts';
import { type Path, type Problem, pathText } from './problem.ts';

/** What a kind of file holds: its schema, and a complete right file, from which the examples in problems are taken. */
export interface Kind<T> {
  readonly schema: z.ZodType<T>;
  readonly example: string;
  /** The same in one short line, for where the whole would be too long. */
  readonly short: string;
  /** The lists whose ids must differ, as paths with `*` for any index. */
  readonly unique: readonly string[];
}

/** A problem at a place in a file that was read. */
export type ProblemAt = (path: Path, message: string, example?: string) => Problem;

export type Reading<T> =
  | { readonly ok: true; readonly value: T; readonly problemAt: ProblemAt }
  | { readonly ok: false; readonly problems: Problem[] };

/** Reads the text of one file; every problem in it comes back at once. `file` is only for the messages. */
export function readDocument<T>(kind: Kind<T>, file: string, text: string): Reading<T> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const example: unknown = parse(kind.example);
  const lineOf = (path: Path) => lines.linePos(offsetOf(document, path)).line;
  const sampleAt = (path: Path): string => {
    const sample = exampleAt(example, path);
    if (sample.length > LONG && path.length < 3) return kind.short;
    // What was refused is no example of what would be right.
    return sample === exampleOf(valueAt(plain, path)) ? '' : sample;
  };
  const problemAt: ProblemAt = (path, message, sample = sampleAt(path)) => ({
    file,
    line: lineOf(path),
    path: pathText(path),
    message,
    example: sample,
  });
  let plain: unknown;

  const problems: Problem[] = document.errors.map(({ code, message, pos }) => {
    const path = code === 'DUPLICATE_KEY' ? pathTo(document.contents, pos[0]) : [];
    const said =
      code === 'DUPLICATE_KEY'
        ? `the key "${String(path.at(-1))}" stands here twice`
        : code === 'MULTIPLE_DOCS'
          ? 'expected one document, got a second one after a line with ---'
          : `not valid YAML: ${message}`;
    const sample = code === 'DUPLICATE_KEY' ? exampleAt(example, path) : '';
    return { file, line: lines.linePos(pos[0]).line, path: pathText(path), message: said, example: sample };
  });
  if (document.errors.some(({ code }) => code !== 'DUPLICATE_KEY')) return { ok: false, problems };

  try {
    plain = document.toJS();
  } catch (error) {
    return { ok: false, problems: [...problems, problemAt([], `not valid YAML: ${(error as Error).message}`, '')] };
  }
  problems.push(
    ...repeatedIds(plain, kind.unique).map(([path, id]) => problemAt(path, `the id "${id}" is taken further up`, `${id}-2`)),
  );
  const result = kind.schema.safeParse(plain);
  for (const issue of result.error?.issues ?? []) {
    if (issue.code !== 'unrecognized_keys') problems.push(problemAt(issue.path, issue.message, exampleIn(issue)));
    else
      for (const key of issue.keys) {
        const known = issue.message.split(' ');
        const [meant] = nearest(key, known, 1);
        const hint = meant ? `did you mean ${meant}?` : `expected one of ${known.join(', ')}`;
        const sample = meant ? `${meant}: ${exampleAt(example, [...issue.path, meant])}` : '';
        problems.push(problemAt([...issue.path, key], `unknown key "${key}"; ${hint}`, sample));
      }
  }
  if (result.success && problems.length === 0) return { ok: true, value: result.data, problemAt };
  return { ok: false, problems: problems.sort((a, b) => a.line - b.line) };
}

/** Longer than this, an example is more than a hint. */
const LONG = 160;

/** The example that a check across fields has worked out itself. */
const exampleIn = (issue: z.core.$ZodIssue): string | undefined =>
  issue.code === 'custom' && typeof issue.params?.['example'] === 'string' ? issue.params['example'] : undefined;

const nameOf = (key: unknown) => String(isScalar(key) ? key.value : key);

/** Where the key or list item at `path` starts; for one that is missing, where what should hold it starts. */
function offsetOf(document: Document, path: Path): number {
  let node: unknown = document.contents;
  let offset = 0;
  for (const step of path) {
    if (isAlias(node)) node = node.resolve(document);
    const next = isMap(node)
      ? node.items.findLast(({ key }) => nameOf(key) === String(step))
      : isSeq(node)
        ? node.items[Number(step)]
        : undefined;
    const start = isPair(next) ? next.key : next;
    offset = (start as { range?: [number] } | undefined)?.range?.[0] ?? offset;
    node = isPair(next) ? next.value : next;
  }
  return offset;
}

/** The path of the key that starts at `offset`. */
function pathTo(node: unknown, offset: number): PropertyKey[] {
  const inside: [PropertyKey, unknown, unknown][] = isMap(node)
    ? node.items.map(({ key, value }) => [nameOf(key), key, value])
    : isSeq(node)
      ? node.items.map((item, index) => [index, undefined, item])
      : [];
  for (const [step, key, value] of inside) {
    if (isScalar(key) && key.range?.[0] === offset) return [step];
    const rest = pathTo(value, offset);
    if (rest.length > 0) return [step, ...rest];
  }
  return [];
}

/** What stands at `path` in the example: any index means the first item, and an unknown key the first one. */
function exampleAt(example: unknown, path: Path): string {
  let value = example;
  for (const step of path) {
    if (typeof value !== 'object' || value === null) break;
    value = (value as Record<PropertyKey, unknown>)[typeof step === 'number' ? 0 : step] ?? Object.values(value)[0];
  }
  return exampleOf(value);
}

const exampleOf = (value: unknown): string => (stringify(value, { collectionStyle: 'flow', lineWidth: 0 }) ?? '').trim();

function valueAt(plain: unknown, path: Path): unknown {
  let value = plain;
  for (const step of path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[step];
  return value;
}

function repeatedIds(plain: unknown, unique: readonly string[]): [Path, string][] {
  return unique.flatMap((where) => {
    let lists: [Path, unknown][] = [[[], plain]];
    for (const step of where.split('.'))
      lists = lists.flatMap(([path, value]): [Path, unknown][] =>
        step === '*'
          ? (Array.isArray(value) ? value : []).map((item, index) => [[...path, index], item])
          : [[[...path, step], (value as Record<string, unknown> | null)?.[step]]],
      );
    return lists.flatMap(([path, items]) => {
      const ids = (Array.isArray(items) ? items : []).map((item) => (item as { id?: unknown } | null)?.id);
      return ids.flatMap((id, index): [Path, string][] =>
        typeof id === 'string' && ids.indexOf(id) < index ? [[[...path, index, 'id'], id]] : [],
      );
    });
  });
}
