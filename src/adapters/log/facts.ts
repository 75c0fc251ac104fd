import type { Mask } from './mask.ts';
import { routeOf } from './route.ts';

/** What the log may know of an error. */
export interface ErrorFacts {
  readonly name: string;
  readonly code?: string | number;
  /** Of an answer over HTTP. */
  readonly status?: number;
  readonly method?: string;
  readonly route?: string;
  /** Only of errors that cannot hold what people wrote. */
  readonly message?: string;
  readonly stack?: readonly string[];
  /** Where values did not fit their schema, as `steps.0.wait invalid_type`. */
  readonly misfits?: readonly string[];
  readonly cause?: ErrorFacts;
}

const MOST_CAUSES = 3;
const MOST_MESSAGE = 2000;
const MOST_FRAMES = 20;
const MOST_MISFITS = 10;
const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'HEAD'];
const PLATFORM = ['DiscordAPIError', 'HTTPError', 'RateLimitError'];
/** Only errors of the platform's client, or of what checks its messages, carry these: the call with all that was in it. */
const PAYLOADS = ['requestBody', 'rawError', 'url', 'given'];

/**
 * Reduces anything thrown to what is safe to write down: chosen facts of known form, never the thing itself. Never throws,
 * whatever it is given.
 */
export function errorFacts(error: unknown, mask: Mask): ErrorFacts {
  try {
    return factsOf(error, mask, MOST_CAUSES);
  } catch {
    return { name: 'Unreadable' };
  }
}

function factsOf(error: unknown, mask: Mask, causes: number): ErrorFacts {
  // Something thrown that is no error may be a text, and nobody knows whose.
  if (!(error instanceof Error)) return { name: `Thrown ${error === null ? 'null' : typeof error}` };
  const cause = causes > 0 && error.cause !== undefined ? { cause: factsOf(error.cause, mask, causes - 1) } : {};
  return { ...ownFacts(error as Error & Partial<Record<string, unknown>>, mask), ...cause };
}

function ownFacts(error: Error & Partial<Record<string, unknown>>, mask: Mask): ErrorFacts {
  const called = typeof error.name === 'string' ? error.name : '';
  const platform = PLATFORM.find((name) => called.startsWith(name) || error.constructor.name === name);
  if (platform !== undefined || PAYLOADS.some((key) => key in error)) {
    const [status, route] = [whole(error['status']), routeOf(error['url'])];
    const method = METHODS.find((each) => each === error['method']);
    return { name: platform ?? 'PlatformError', ...defined({ code: whole(error['code']), status, method, route }) };
  }
  const name = /^[A-Za-z]\w{0,59}/.exec(called)?.[0] ?? 'Error';
  if (Array.isArray(error['issues'])) return { name, misfits: error['issues'].slice(0, MOST_MISFITS).map(misfit) };
  // A parser's message quotes what it could not parse.
  const message = error instanceof SyntaxError ? undefined : mask(error.message).slice(0, MOST_MESSAGE);
  const code = whole(error['code']) ?? word(error['code']);
  return { name: mask(name), ...defined({ code, message, stack: framesOf(error, mask) }) };
}

const whole = (value: unknown): number | undefined => (Number.isSafeInteger(value) ? (value as number) : undefined);
const word = (value: unknown): string | undefined =>
  typeof value === 'string' && /^[A-Za-z]\w{0,39}$/.test(value) ? value : undefined;

/** A key that is no plain word of a schema may be a name that somebody typed. */
function misfit(issue: unknown): string {
  const { path, code } = issue as { path?: unknown; code?: unknown };
  const keys = Array.isArray(path) ? path.map((key) => whole(key) ?? word(key) ?? ':key') : [];
  return `${keys.join('.') || '(all of it)'} ${word(code) ?? 'unknown'}`;
}

/** The lines that say where; the message, which stands before them, is dealt with by itself. */
function framesOf({ stack = '', message }: Error, mask: Mask): readonly string[] {
  const after = message === '' ? 0 : stack.indexOf(message) + message.length;
  const lines = stack.slice(after).split('\n');
  return lines
    .filter((line) => /^ {4}at .*\d+:\d+\)?$/.test(line))
    .slice(0, MOST_FRAMES)
    .map((line) => mask(line.trim()));
}

function defined<T extends object>(facts: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
