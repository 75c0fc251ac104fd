import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { DiscordAPIError, HTTPError, RateLimitError } from 'discord.js';
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { openLog } from '../../../src/adapters/log/log.ts';

/** A log whose lines are kept, read back from what was written. */
function kept(level = 'info', secrets: string[] = []) {
  const lines: string[] = [];
  const log = openLog({ level, secrets, write: (line) => lines.push(line) });
  return { log, lines, last: () => JSON.parse(lines.at(-1) ?? 'null') };
}

const body = { files: undefined, body: { content: 'left ear runs thin' } };
const address = 'https://discord.com/api/v10/webhooks/123/aW50ZXJhY3Rpb24/messages/456?wait=true';

describe('lines', () => {
  test('an event is one line of JSON with its time and level', () => {
    const { log, lines, last } = kept();
    log.info('server-joined', { server: '123', benches: 3, new: true });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^\{.*\}\n$/);
    const { at, ...rest } = last();
    expect(rest).toEqual({ level: 'info', event: 'server-joined', about: { server: '123', benches: 3, new: true } });
    expect(Math.abs(Date.now() - Date.parse(at))).toBeLessThan(10_000);
    log.warn('slow');
    expect(last()).toMatchObject({ level: 'warn', event: 'slow' });
    expect(last()).not.toHaveProperty('about');
  });

  test('what is below the level is left out', () => {
    const { log, lines } = kept('error');
    log.info('ready');
    log.warn('slow');
    log.trouble('store', new Error('disk'));
    expect(lines).toHaveLength(1);
  });

  test('an unknown level is refused with those that there are', () => {
    expect(() => openLog({ level: 'loud' })).toThrow(/no log level "loud"; there is trace, debug, info/);
  });

  test('what is told of an event cannot replace its level or time', () => {
    const { log, last } = kept();
    log.info('ready', { level: 'fatal', at: 'never', event: 'other' });
    expect(last()).toMatchObject({ level: 'info', event: 'ready' });
    expect(last().at).not.toBe('never');
  });

  test('sentences are not kept, single words are, long ones are not', () => {
    const { log, last } = kept();
    log.info('ready', { state: 'up', folder: '/var/lib/coatbell', note: 'left ear runs thin', long: 'x-y.'.repeat(26) });
    expect(last().about).toEqual({ state: 'up', folder: '/var/lib/coatbell', note: '[18 characters]', long: '[104 characters]' });
  });

  test('on the standard output everything is there when the program is killed right after', async () => {
    const entry = fileURLToPath(new URL('../../../src/adapters/log/log.ts', import.meta.url));
    const code = `import { openLog } from ${JSON.stringify(entry)};
      const log = openLog({ level: 'info' });
      for (let count = 0; count < 2000; count += 1) log.info('tick', { count });
      log.close();
      process.kill(process.pid, 'SIGKILL');`;
    const resolveDir = fileURLToPath(new URL('../../..', import.meta.url));
    const made = await build({
      stdin: { contents: code, resolveDir },
      bundle: true,
      platform: 'node',
      format: 'esm',
      packages: 'external',
      write: false,
    });
    const program = ['--input-type=module', '--eval', made.outputFiles[0]?.text ?? ''];
    let output = '';
    try {
      execFileSync(process.execPath, program, { cwd: resolveDir, encoding: 'utf8' });
    } catch (error) {
      output = (error as { stdout: string }).stdout;
    }
    const counts = output
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line).about.count);
    expect(counts).toEqual(Array.from({ length: 2000 }, (_, count) => count));
  });
});

describe('errors', () => {
  test("of the platform's errors only facts of known form are kept", () => {
    const { log, last } = kept();
    const raw = { code: 50001, message: 'Missing Access', errors: {} };
    log.trouble('answer', new DiscordAPIError(raw as never, 50001, 403, 'PATCH', address, body));
    expect(last()).toMatchObject({ level: 'error', event: 'trouble', where: 'answer' });
    const route = '/webhooks/:id/:token/messages/:id';
    expect(last().error).toEqual({ name: 'DiscordAPIError', code: 50001, status: 403, method: 'PATCH', route });
    log.trouble('ping', new HTTPError(502, 'Bad Gateway', 'POST', 'https://discord.com/api/v10/channels/12/messages', body));
    expect(last().error).toEqual({ name: 'HTTPError', status: 502, method: 'POST', route: '/channels/:id/messages' });
    const limited = { timeToReset: 1, limit: 5, method: 'POST', hash: 'h', url: address, route: '/x', majorParameter: '1' };
    log.trouble('ping', new RateLimitError({ ...limited, global: false, retryAfter: 1, sublimitTimeout: 0, scope: 'user' }));
    expect(last().error).toEqual({ name: 'RateLimitError', method: 'POST', route });
  });

  test.each([
    ['interactions/12/abc/callback', '/interactions/:id/:token/callback'],
    ['webhooks/12/messages/messages/@original', '/webhooks/:id/:token/messages/@original'],
    ['webhooks/12', '/webhooks/:id'],
    ['gateway/bot', '/gateway/bot'],
    ['applications/12/guilds/13/commands', '/applications/:id/guilds/:id/commands'],
    ['channels/12/messages/13/reactions/%F0%9F%94%94/@me', '/channels/:id/messages/:id/reactions/:other/@me'],
  ])('the route of %s is %s', (path, route) => {
    const { log, last } = kept();
    log.trouble('x', new HTTPError(500, 'no', 'GET', `http://127.0.0.1:99/api/v10/${path}?q=1`, body));
    expect(last().error.route).toBe(route);
  });

  test('of values that do not fit a schema, the paths and codes are kept', () => {
    const schema = z.object({ steps: z.array(z.object({ wait: z.number() })), notes: z.record(z.string(), z.number()) });
    const found = schema.safeParse({ steps: [{ wait: 'till the ear is dry' }], notes: { 'left ear runs thin': 'yes' } });
    const { log, lines, last } = kept();
    log.trouble('read', found.error);
    expect(last().error).toEqual({ name: 'ZodError', misfits: ['steps.0.wait invalid_type', 'notes.:key invalid_type'] });
    expect(lines[0]).not.toMatch(/ear/);
  });

  test('errors of our own come with message, place and causes, at most three', () => {
    const { log, last } = kept();
    const deep = ['five', 'four', 'three', 'two'].reduce((cause, name) => new Error(name, { cause }), new Error('six'));
    log.trouble('store', Object.assign(new RangeError('one', { cause: deep }), { code: 'ENOSPC' }));
    const { error } = last();
    expect(error).toMatchObject({ name: 'RangeError', code: 'ENOSPC', message: 'one' });
    expect(error.stack[0]).toMatch(/log\.test\.ts:\d+:\d+/);
    expect(error.cause.cause.cause.message).toBe('four');
    expect(error.cause.cause.cause).not.toHaveProperty('cause');
  });

  test('a message of any length is cut short, and soon', () => {
    const { log, last } = kept();
    const before = Date.now();
    for (const text of ['a', 'ab.', 'a b', '/webhooks/1/']) log.trouble('store', new Error(text.repeat(300_000)));
    expect(last().error.message).toHaveLength(2000);
    expect(Date.now() - before).toBeLessThan(5000);
  });

  test('a parser that quotes what it could not parse is not quoted', () => {
    const { log, lines, last } = kept();
    try {
      JSON.parse('left ear runs thin');
    } catch (error) {
      log.trouble('read', error);
    }
    expect(last().error.name).toBe('SyntaxError');
    expect(last().error.stack[0]).toMatch(/log\.test\.ts:\d+:\d+/);
    expect(lines[0]).not.toMatch(/ear/);
  });

  test('nothing that is thrown can break the log', () => {
    const { log, lines, last } = kept();
    const circle = new Error('round');
    circle.cause = circle;
    const trap = new Error('trap');
    Object.defineProperty(trap, 'message', { get: () => fail('left ear') });
    const proxy = new Proxy(new Error('x'), { get: () => fail('left ear'), has: () => fail('left ear') });
    for (const thrown of [circle, trap, proxy, 'left ear runs thin', null, undefined, Symbol('ear'), 1n, { message: 'ear' }])
      log.trouble('x', thrown);
    expect(lines).toHaveLength(9);
    expect(lines.join('')).not.toMatch(/ear/);
    expect(last().error).toEqual({ name: 'Thrown object' });
  });
});

function fail(text: string): never {
  throw new Error(text);
}
