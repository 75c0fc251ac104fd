import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect } from 'vitest';
import { type MessageObject, messageObject } from '../../src/adapters/terminal/message.ts';
import type { Session } from '../../src/adapters/terminal/session.ts';
import type { Clock } from '../../src/bench/ports.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { type LocalChat, openLocalChat } from '../../src/main/local-chat.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

export interface Room extends LocalChat {
  session: Session;
  troubles: unknown[];
  /** Types the lines and gives what they led to. */
  type(...lines: string[]): Promise<MessageObject[]>;
}

/** The whole program behind the local chat, on a Monday at 08:00 in Berlin, with the shipped configuration. */
export async function room({
  dataDir = null,
  clock = new StandingClock(0),
  at = '2026-03-02T08:00',
  zone = 'Europe/Berlin',
}: {
  dataDir?: string | null;
  clock?: Clock;
  at?: string | null;
  zone?: string;
} = {}) {
  const shown: MessageObject[] = [];
  const troubles: unknown[] = [];
  const chat = await openLocalChat({
    root,
    dataDir,
    configDir: null,
    zone,
    at,
    clock,
    show: (message, reader) => {
      const object = messageObject(message, reader);
      return () => void shown.push(object);
    },
    trouble: (error) => void troubles.push(error),
  });
  if (Array.isArray(chat)) throw new Error(JSON.stringify(chat));
  await chat.wake();
  const type = async (...lines: string[]) => {
    for (const line of lines) await chat.line(line);
    return shown.splice(0);
  };
  return { ...chat, troubles, type } satisfies Room;
}

/** A room of its own for each test of a file, in which nothing may go wrong unnoticed. */
export function roomEach() {
  let now: Room;
  beforeEach(async () => {
    now = await room();
  });
  afterEach(async () => {
    expect(now.troubles).toEqual([]);
    await now.close();
  });
  return {
    type: (...lines: string[]) => now.type(...lines),
    get session() {
      return now.session;
    },
  };
}

export const START = '/job start name:Lion head skin:brush-urethane shell:shell-paste casting:casting-plaster area:0.4 m2';

/** What examples name must be there: a job called Lion head with a coat done, an open cup, a running shift, a ping. */
export const SETTING = [
  '/shift set hours:06:00-14:00, 14:00-22:00 days:daily',
  START,
  '[Step done]',
  '+20m',
  '/cup start material:brush-urethane amount:240 g',
  '[Coat done]',
  '/cup start material:shell-paste amount:300 g',
  '+46m',
];

/** The code of a refusal; undefined for any other message. */
export const code = (message: MessageObject | undefined) =>
  (message?.data as { refusal?: { code: string } } | undefined)?.refusal?.code;

/** What a ping says of itself; undefined for any other message. */
export const ping = (message: MessageObject | undefined) =>
  (message?.data as { ping?: { id: string; kind: string; step: string; late: boolean } } | undefined)?.ping;

/** The words on its buttons. */
export const labels = (message: MessageObject | undefined): string[] => message?.buttons.map(({ label }) => label) ?? [];

/** The line that a refusal offers. */
export const example = (message: MessageObject | undefined): string =>
  /^For example: (.*)$/m.exec(message?.text ?? '')?.[1] ?? '';

/** Types a line that is refused as `expected`, and then the line that it offers: gives what comes of that one. */
export async function offered(
  type: (line: string) => Promise<MessageObject[]>,
  typed: string,
  expected: string,
): Promise<MessageObject | undefined> {
  const refused = (await type(typed)).at(-1);
  expect(code(refused)).toBe(expected);
  expect(refused?.text).toMatch(/^[A-Z0-9“]/);
  const answer = (await type(example(refused))).at(-1);
  expect(answer?.kind, answer?.text).toBe('reply');
  return answer;
}
