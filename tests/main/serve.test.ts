import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, expect, it } from 'vitest';
import { Platform } from '../support/platform/platform.ts';
import { program, type Served, serving } from '../support/served.ts';

const folder = mkdtempSync(join(tmpdir(), 'coatbell-serve.'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let platform: Platform;
const running: Served[] = [];
const served = (dataDir: string, more: Record<string, string> = {}) => {
  const one = serving(platform, join(folder, dataDir), more);
  running.push(one);
  return one;
};
const registered = async (dataDir: string, ...args: string[]) => {
  const one = program(['register', '--data', join(folder, dataDir), ...args], {
    DISCORD_TOKEN: platform.settings.token,
    DISCORD_API: platform.api,
  });
  return { code: await one.ended, said: one.log.map(({ line }) => line).join('\n'), errors: one.errors() };
};

beforeEach(async () => {
  platform = new Platform();
});
afterEach(async () => {
  for (const { child } of running.splice(0)) child.kill('SIGKILL');
  await platform.stop();
});

it('registers its commands once, in a server or everywhere, and serves until it is told to end', async () => {
  const studio = platform.server('studio');
  const bench = platform.channel(studio, 'bench');
  const dana = platform.person('dana');
  await platform.start();
  expect(await registered('a')).toMatchObject({ code: 0, said: expect.stringMatching(/^\d+ commands are registered/) });
  expect(await registered('a')).toMatchObject({ code: 0, said: expect.stringContaining('already') });
  expect(await registered('a', '--server', studio.id)).toMatchObject({ code: 0, said: expect.stringMatching(/registered for/) });
  expect(platform.requestsTo('PUT', /commands$/)).toHaveLength(2);
  const bot = served('a', { COATBELL_PORT: '0' });
  const { about } = await bot.event('started');
  await bot.event('ready');
  const exchange = await platform
    .command({ channel: bench, user: dana, name: 'mix', options: { material: 'brush-urethane', amount: '500 g' } })
    .answered();
  expect(exchange.text).toMatch(/^### GO · Brush-on urethane rubber: 500 g/);
  expect(exchange.acknowledgedAfterMs).toBeLessThan(3000);
  const page = await fetch(`http://127.0.0.1:${(about as { port: number }).port}/healthz`);
  expect([page.status, ((await page.json()) as { ok: boolean }).ok]).toEqual([200, true]);
  const metrics = await (await fetch(`http://127.0.0.1:${(about as { port: number }).port}/metrics`)).text();
  expect(metrics).toContain('coatbell_commands_total{command="mix",how="answered"} 1');
  bot.child.kill('SIGTERM');
  expect(await bot.ended).toBe(0);
  expect(JSON.stringify(bot.log)).not.toContain(platform.settings.token);
  expect(platform.complaints).toEqual([]);
}, 60_000);

it('serves without being told to where there is a token, and waits for a platform that is away at the start', async () => {
  const studio = platform.server('studio');
  platform.channel(studio, 'bench');
  await platform.start();
  await platform.stop();
  const bot = program(['--data', join(folder, 'b')], {
    DISCORD_TOKEN: platform.settings.token,
    DISCORD_API: platform.api,
  });
  running.push(bot);
  await bot.event('trouble');
  await platform.start();
  await bot.event('ready');
  bot.child.kill('SIGINT');
  expect(await bot.ended).toBe(0);
}, 60_000);

it.each([
  ['serve', {}, 2, /DISCORD_TOKEN/],
  ['register', {}, 2, /DISCORD_TOKEN/],
  ['serve', { DISCORD_TOKEN: 'x', COATBELL_SHARDS: '3/2' }, 2, /COATBELL_SHARDS/],
  ['serve', { DISCORD_TOKEN: 'x', COATBELL_PORT: 'http' }, 2, /COATBELL_PORT/],
  ['serve', { DISCORD_TOKEN: 'x', COATBELL_LOG: 'loud' }, 2, /COATBELL_LOG/],
])('%s with %j ends with %i and says why', async (verb, settings, code, why) => {
  await platform.start();
  const one = program([verb, '--data', join(folder, 'c')], { ...(settings as object), DISCORD_API: platform.api });
  expect(await one.ended).toBe(code);
  expect(one.errors()).toMatch(why);
});

it('ends with 2 where the platform does not take the token', async () => {
  await platform.start();
  const bot = served('d', { DISCORD_TOKEN: 'wrong.token.here' });
  expect(await bot.ended).toBe(2);
  expect(bot.errors()).not.toContain('wrong.token');
  expect(JSON.stringify(bot.log)).not.toContain('wrong.token');
});
