import { DiscordAPIError, HTTPError, RateLimitError } from 'discord.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { openLog } from '../../../src/adapters/log/log.ts';

/** Stands in everything that must not get out; the log has no other reason to write it. */
const MARK = 'zqx';

function written(error: unknown, secrets: string[] = []): string {
  const lines: string[] = [];
  openLog({ level: 'trace', secrets, write: (line) => lines.push(line) }).trouble('answer', error);
  expect(lines).toHaveLength(1);
  expect(JSON.parse(lines[0] ?? '')).toMatchObject({ event: 'trouble', where: 'answer' });
  return lines.join('');
}

const text = fc.string({ unit: 'grapheme', maxLength: 30 }).map((some) => `${some}${MARK} ${some}`);
const group = (least: number, most: number) => fc.stringMatching(new RegExp(`^[A-Za-z0-9_-]{${least},${most}}$`));
const botToken = fc.tuple(group(24, 28), group(6, 6), group(27, 40)).map((groups) => groups.join('.'));
/** Real ones are long; a short one is the harder case. */
const interactionToken = fc.tuple(group(0, 8), group(0, 200)).map(([some, more]) => `${some}${MARK}${more}`);
const method = fc.constantFrom('GET', 'POST', 'PATCH');
const url = interactionToken.map((token) => `https://discord.com/api/v10/webhooks/1234/${token}/messages/@original`);

const platformError = fc.record({ text, url, method, code: fc.nat(), kind: fc.nat(2) }).map((made) => {
  const sent = { files: [{ name: made.text, data: made.text }], body: { content: made.text, components: [made.text] } };
  const raw = {
    code: made.code,
    message: made.text,
    errors: { content: { _errors: [{ code: made.text, message: made.text }] } },
  };
  if (made.kind === 0) return new DiscordAPIError(raw, made.code, 400, made.method, made.url, sent as never);
  if (made.kind === 1) return new HTTPError(500, made.text, made.method, made.url, sent as never);
  const reset = { timeToReset: 1, limit: 1, retryAfter: 1, sublimitTimeout: 0, global: false, scope: 'user' as const };
  return new RateLimitError({
    ...reset,
    method: made.method,
    url: made.url,
    hash: made.text,
    route: made.text,
    majorParameter: made.text,
  });
});

test("neither tokens nor texts of the platform client's errors get out", () => {
  fc.assert(
    fc.property(platformError, (error) => {
      expect(written(error)).not.toContain(MARK);
      expect(written(new Error('answering', { cause: error }))).not.toContain(MARK);
    }),
  );
});

test('nor do they when every single field holds one', () => {
  fc.assert(
    fc.property(platformError, text, fc.boolean(), (error, anything, address) => {
      const value = address ? `https://discord.com/api/v10/${anything}/${anything}` : anything;
      for (const field of [...Object.getOwnPropertyNames(error), 'name', 'cause', 'extra'])
        Object.defineProperty(error, field, { value, configurable: true, enumerable: true });
      expect(written(error)).not.toContain(MARK);
    }),
  );
});

test('nor does anything of values that do not fit a schema', () => {
  const schema = z.strictObject({ note: z.literal('x'), amounts: z.record(z.string(), z.number()), kind: z.enum(['a', 'b']) });
  fc.assert(
    fc.property(text, (typed) => {
      const { error } = schema.safeParse({ note: typed, amounts: { [typed]: typed }, kind: typed, [typed]: typed });
      expect(error).toBeInstanceOf(z.ZodError);
      expect(written(error)).not.toContain(MARK);
    }),
  );
});

test('tokens and registered secrets are masked in errors of our own and in what is told of an event', () => {
  const secret = fc.string({ minLength: 8, maxLength: 60 }).map((some) => `${some}${MARK}`);
  fc.assert(
    fc.property(botToken, secret, interactionToken, (token, known, interaction) => {
      const said = `Bot ${token}: POST /interactions/1234/${interaction}/callback "${known}"`;
      const error = Object.assign(new Error(said, { cause: new TypeError(said) }), { code: said });
      const lines: string[] = [];
      const log = openLog({ level: 'trace', secrets: [known, ''], write: (line) => lines.push(line) });
      log.trouble('answer', error);
      log.info('ready', { token, known, path: `/webhooks/1234/${interaction}` });
      log.warn(`ready ${known}`, { key: `${token}` });
      expect(lines).toHaveLength(3);
      for (const line of lines) {
        expect(line).not.toContain(MARK);
        for (const part of token.split('.').filter((each) => each.length > 6)) expect(line).not.toContain(part);
      }
      expect(lines[0]).toContain('POST /interactions/1234/[hidden]');
    }),
  );
});
