import { destination, pino } from 'pino';
import { errorFacts } from './facts.ts';
import { type Mask, masking } from './mask.ts';

/** A log for whoever runs the bot: JSON, one line for each event. Tokens and what people wrote never get into it. */
export interface Log {
  /** `event` and the keys of `about` are words of the program; of the values only single words are kept, never sentences. */
  info(event: string, about?: About): void;
  warn(event: string, about?: About): void;
  /** Something broke. Of the error only safe facts are kept. Never throws. */
  trouble(where: string, error: unknown): void;
  /** Every line has been written when this returns. */
  close(): void;
}

type About = Readonly<Record<string, string | number | boolean>>;

export interface LogOptions {
  /** The least that is written: `trace`, `debug`, `info`, `warn`, `error`, `fatal`; or `silent`. */
  level: string;
  /** What must never be written, wherever it turns up: the bot's token. */
  secrets?: readonly string[];
  /** Takes each line with its end, instead of the standard output. */
  write?: (line: string) => void;
}

const LEVELS = ['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'];

/** Opens the log. Throws an error that names the levels if there is no such level. */
export function openLog({ level, secrets = [], write }: LogOptions): Log {
  if (!LEVELS.includes(level)) throw new Error(`There is no log level "${level}"; there is ${LEVELS.join(', ')}.`);
  const mask = masking(secrets);
  // Written at once: what was said just before a crash is what is wanted afterwards.
  const output = write === undefined ? destination({ dest: 1, sync: true }) : null;
  const writer = pino(
    {
      level,
      base: null,
      timestamp: () => `,"at":"${new Date().toISOString()}"`,
      formatters: { level: (label) => ({ level: label }) },
    },
    output ?? { write: (line: string) => write?.(line) },
  );
  const said = (event: string, about: About | undefined) =>
    about === undefined ? { event: mask(event) } : { event: mask(event), about: singleWords(about, mask) };
  return {
    info: (event, about) => writer.info(said(event, about)),
    warn: (event, about) => writer.warn(said(event, about)),
    trouble: (where, error) => writer.error({ event: 'trouble', where: mask(where), error: errorFacts(error, mask) }),
    close: () => output?.flushSync(),
  };
}

const ONE_WORD = /^\S{0,100}$/;

/** Ids, paths and states are single words; whatever has blanks in it could be something that somebody wrote. */
function singleWords(about: About, mask: Mask): About {
  return Object.fromEntries(
    Object.entries(about).map(([key, value]) => {
      if (typeof value !== 'string') return [key, value];
      return [key, ONE_WORD.test(value) ? mask(value) : `[${value.length} characters]`];
    }),
  );
}
