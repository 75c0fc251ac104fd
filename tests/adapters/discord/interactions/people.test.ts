import { Client, GatewayIntentBits } from 'discord.js';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { withPeople } from '../../../../src/adapters/discord/interactions/asked.ts';
import { People } from '../../../../src/adapters/discord/interactions/people.ts';
import type { Option } from '../../../../src/chat/option.ts';
import { isRefusal } from '../../../../src/words/refusal.ts';
import { Platform } from '../../../support/platform/platform.ts';

const platform = new Platform();
const server = platform.server('studio');
const elsewhere = platform.server('elsewhere');
const dana = platform.person('dana', { nick: 'Dana Oh' });
const troubles: unknown[] = [];
let client: Client;
let people: People;

beforeAll(async () => {
  await platform.start();
  client = new Client({ intents: [GatewayIntentBits.Guilds], rest: { api: platform.api, retries: 0 } });
  client.rest.setToken(platform.settings.token);
});
beforeEach(() => {
  troubles.length = 0;
  people = new People({ rest: client.rest, trouble: (_, error) => troubles.push(error), most: 4, patienceMilliseconds: 300 });
});
afterAll(async () => {
  await client.destroy();
  await platform.stop();
  expect(platform.complaints).toEqual([]);
});

it('knows whom it has heard of, in that server alone', async () => {
  people.learn(server.id, '11111', { nick: 'Kim', globalName: 'Kimberley', username: 'kim_1' });
  expect(people.name(server.id, '11111')).toBe('Kim');
  expect(people.name(elsewhere.id, '11111')).toBeUndefined();
  const { length } = platform.requests;
  for (const typed of ['kim', ' KIM_1 ', 'kimberley']) expect(await people.find(server.id, typed)).toBe('11111');
  expect(platform.requests).toHaveLength(length);
  people.learn(server.id, '11111', { username: 'kim_2' });
  expect(people.name(server.id, '11111')).toBe('kim_2');
});

it('takes no first of two who are called alike', async () => {
  people.learn(server.id, '11111', { nick: 'Kim', username: 'a' });
  people.learn(server.id, '22222', { nick: 'kim', username: 'b' });
  expect(await people.find(server.id, 'Kim')).toBeNull();
  expect(await people.find(server.id, 'b')).toBe('22222');
});

it('asks the platform for others, and takes only who is called just so', async () => {
  expect(await people.find(server.id, 'dan')).toBeNull();
  expect(await people.find(server.id, 'dana oh')).toBe(dana.user.id);
  expect(people.name(server.id, dana.user.id)).toBe('Dana Oh');
  expect(await people.find(server.id, '')).toBeNull();
});

it('waits no longer than it may, and takes a refusal for nobody', async () => {
  const path = `/guilds/${server.id}/members/search`;
  platform.fault({ path, harm: { kind: 'slow', ms: 1500, when: 'before' } });
  const before = Date.now();
  expect(await people.find(server.id, 'dana')).toBeNull();
  expect(Date.now() - before).toBeLessThan(1000);
  expect(troubles).toEqual([]);
  platform.fault({ path, harm: { kind: 'status', status: 403, code: 50001, when: 'before' } });
  expect(await people.find(server.id, 'dana')).toBeNull();
  expect(troubles).toHaveLength(1);
});

it('forgets whom it has not heard of for longest', () => {
  for (const id of ['11111', '22222', '33333', '44444']) people.learn(server.id, id, { username: id });
  people.learn(server.id, '11111', { username: 'again' });
  people.learn(server.id, '55555', { username: 'new' });
  expect(people.known(server.id)).toEqual(['55555', '11111', '44444', '33333']);
  people.learn(server.id, 'no-id', { username: 'x' });
  expect(people.known(server.id)).toHaveLength(4);
});

const option = (name: string, more: Partial<Option>): Option => ({
  name,
  about: '',
  kind: 'string',
  required: false,
  choices: [],
  also: [],
  complete: undefined,
  free: false,
  least: undefined,
  most: undefined,
  ...more,
});
const declared = [option('who', { complete: 'person' }), option('holder', { kind: 'person' }), option('note', { free: true })];
const names: Record<string, string> = { dana: '11111', 'kim oh': '22222', lee: '33333' };
const find = async (name: string) => names[name.toLowerCase()] ?? null;
const here = async (id: string) => id !== '99999';

it.each([
  ['dana', '<@11111>'],
  ['@dana, Kim Oh and lee', '<@11111>, <@22222>, <@33333>'],
  ['Kim Oh', '<@22222>'],
  ['dana lee', '<@11111>, <@33333>'],
  ['<@44444> <@!55555>,<@&66666>', '<@44444>, <@55555>, <@&66666>'],
  ['<@44444> and dana', '<@44444>, <@11111>'],
  ['44444, &66666', '<@44444>, <@&66666>'],
  ['dana, dana', '<@11111>'],
  [' , ', ' , '],
])('reads %j as people', async (who, expected) => {
  expect(
    await withPeople({ command: 'x', options: { who, note: 'dana' } }, declared, { find, here, names: () => ['Lee'] }),
  ).toEqual({
    command: 'x',
    options: { who: expected, note: 'dana' },
  });
});

it('takes a single person by name, too', async () => {
  const asked = await withPeople({ command: 'x', options: { holder: 'Lee' } }, declared, { find, here, names: () => ['Lee'] });
  expect(asked).toMatchObject({ options: { holder: '<@33333>' } });
  for (const holder of ['dana, lee', '<@&66666>'])
    expect(
      isRefusal(await withPeople({ command: 'x', options: { holder } }, declared, { find, here, names: () => ['Lee'] })),
    ).toBe(true);
});

it.each(['kimm', 'dana, kimm', '@everyone', 'dana; <@abc>', '<@99999>', 'dana, 99999'])('refuses %j', async (who) => {
  const refused = await withPeople({ command: 'x', options: { who } }, declared, { find, here, names: () => ['Lee'] });
  expect(isRefusal(refused) && refused.code).toBe('unknown-person');
});

it('asks for no more names than a person would type', async () => {
  let asked = 0;
  const counting = async () => {
    asked += 1;
    return null;
  };
  await withPeople({ command: 'x', options: { who: Array.from({ length: 500 }, (_, n) => `p${n}`).join(' ') } }, declared, {
    find: counting,
    here,
    names: () => [],
  });
  expect(asked).toBeLessThanOrEqual(12);
});

it('shows the line that was typed with a name that would do, whatever people call themselves', async () => {
  const asked = { command: 'x', options: { who: 'kimm', holder: '44444', photo: 'https://files.example/1' } };
  const all = [...declared, option('photo', { kind: 'attachment' })];
  const example = async (names: string[]) => {
    const refused = await withPeople(asked, all, {
      find: async (name) => (name === 'Lee' ? '33333' : null),
      here,
      names: () => names,
    });
    return isRefusal(refused) ? refused.example : null;
  };
  expect(await example(['a, Lee', '<@1>', '12345', 'two of them', 'Lee'])).toBe('/x who:Lee holder:<@44444>');
  expect(await example([])).toBe('/x who:kim holder:<@44444>');
});
