import { Client, GatewayIntentBits } from 'discord.js';
import type { RESTPostAPIChatInputApplicationCommandsJSONBody } from 'discord-api-types/v10';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { register } from '../../../../src/adapters/discord/registering/register.ts';
import { registration } from '../../../../src/chat/registration.ts';
import { commands } from '../../../../src/main/registry.ts';
import { Platform } from '../../../support/platform/platform.ts';
import { PlainMemory } from '../interactions/counter.ts';

const platform = new Platform();
const server = platform.server('studio');
const client = () => new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: platform.api, retries: 0 } });
let one: Client;
const puts = () => platform.requestsTo('PUT', /commands$/).map(({ path }) => path);

beforeAll(async () => {
  await platform.start();
  one = client();
  one.rest.setToken(platform.settings.token);
});
afterAll(async () => {
  await one.destroy();
  await platform.stop();
  expect(platform.complaints).toEqual([]);
});

const bodies = registration(commands);
const application = platform.world.applicationId;

it('registers all commands at once, and not again while they are the same', async () => {
  const memory = new PlainMemory();
  const given = { rest: one.rest, application, server: null, bodies, memory };
  expect(await register(given)).toBe('registered');
  expect(puts()).toEqual([`/applications/${application}/commands`]);
  expect(platform.world.commands.get('global')?.map(({ name }) => name)).toEqual(bodies.map(({ name }) => name));
  const turned = bodies.map((body) => Object.fromEntries(Object.entries(body).reverse())) as typeof bodies;
  expect(await register({ ...given, bodies: turned })).toBe('unchanged');
  expect(puts()).toHaveLength(1);
  expect(await register({ ...given, force: true })).toBe('registered');
  expect(await register({ ...given, bodies: bodies.slice(1) })).toBe('registered');
  expect(puts()).toHaveLength(3);
});

it('tells one server apart from all, and asks which application it is', async () => {
  const memory = new PlainMemory();
  const given = { rest: one.rest, bodies, memory };
  const before = puts().length;
  expect(await register({ ...given, server: server.id })).toBe('registered');
  expect(puts().at(-1)).toBe(`/applications/${application}/guilds/${server.id}/commands`);
  expect(await register({ ...given, server: null })).toBe('registered');
  expect(await register({ ...given, server: server.id })).toBe('unchanged');
  expect(puts()).toHaveLength(before + 2);
  expect([...memory.kept.keys()]).toEqual([`registered:${application}:${server.id}`, `registered:${application}:global`]);
});

it('remembers nothing that did not arrive', async () => {
  const memory = new PlainMemory();
  const given = { rest: one.rest, application, server: null, bodies, memory };
  platform.fault({ method: 'PUT', path: /commands$/, harm: { kind: 'status', status: 503, when: 'before' } });
  await expect(register(given)).rejects.toThrow();
  expect(memory.kept.size).toBe(0);
  expect(await register(given)).toBe('registered');
});

type Body = RESTPostAPIChatInputApplicationCommandsJSONBody;
const body = (more: Partial<Body>): Body => ({ type: 1, name: 'mix', description: 'Mixes', ...more });
const text = (name: string, more: object = {}) => ({ type: 3 as const, name, description: 'x', ...more });

it.each<[string, Body[], string]>([
  ['a name', [body({ name: 'Mix it' })], '/Mix it'],
  ['a description', [body({ description: 'x'.repeat(101) })], '/mix'],
  ['an option’s name', [body({ options: [text('AMOUNT')] })], '/mix, option AMOUNT'],
  ['too many options', [body({ options: Array.from({ length: 26 }, (_, n) => text(`o${n}`)) })], '/mix: 26 options'],
  ['the order', [body({ options: [text('a'), text('b', { required: true })] })], '/mix, option b'],
  [
    'a choice',
    [
      body({
        options: [
          {
            type: 1,
            name: 'start',
            description: 'x',
            options: [text('a', { choices: [{ name: 'x', value: 'y'.repeat(101) }] })],
          },
        ],
      }),
    ],
    '/mix start, option a',
  ],
  ['two of one name', [body({}), body({})], '/mix: declared twice'],
  ['too many', Array.from({ length: 101 }, (_, n) => body({ name: `m${n}` })), '101 commands'],
  [
    'too much in all',
    [
      body({
        options: Array.from({ length: 25 }, (_, n) =>
          text(`o${n}`, { choices: Array.from({ length: 25 }, (_, c) => ({ name: `choice-${c}`, value: `value-${c}` })) }),
        ),
      }),
    ],
    '/mix: 1',
  ],
])('sends nothing where %s is beyond a limit, and says which', async (_, given, where) => {
  const before = platform.requests.length;
  await expect(register({ rest: one.rest, server: null, bodies: given, memory: new PlainMemory() })).rejects.toThrow(where);
  expect(platform.requests).toHaveLength(before);
});
