import { expect, test } from 'vitest';
import { code, example, offered, roomEach } from '../support/room.ts';
import { NEW, planOf, SHIFTS, startsOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const type = (line: string) => here.type(line);
const latestOf = async (step: string, line: string) =>
  planOf(await last(line))
    ?.steps.find((each) => each.step === step)
    ?.latestAt?.slice(11, 16);

test('a start that was asked for may slip, and does not squeeze what follows', async () => {
  await here.type(SHIFTS, `/job start name:Owl ${NEW}`);
  // By hand: four coats, an hour apart, the last begun by 15:45; so the first by 12:45, and the seal 45 min before that.
  expect(await latestOf('coat-1', '/plan job:owl start:9:00')).toBe('12:45');
  expect(planOf(await last('/plan job:owl start:14:00'))?.steps[0]?.latestAt).toBeNull();
});

test.each([
  ['heute 17-19', '02 17:00'],
  ['today, 17:00-19:00', '02 17:00'],
  ['from 17:00 to 19:00', '02 17:00'],
  ['heute von 17 bis 19 Uhr', '02 17:00'],
])('extra:%s', async (typed) => {
  const plan = await last(SHIFTS, `/plan name:Owl ${NEW} start:8:00 extra:${typed}`);
  expect(plan?.text).toContain('It counts on one more person from 17:00 until 19:00.');
});

test.each([
  ['area:20 x 30', 'unit-missing', 'area:20 x 30 cm'],
  ['area:0,4 m2 room:abc', 'temperature-unreadable', 'room:21 C'],
  ['area:0,4 m2 room:55 C', 'no-room', 'room:21 C'],
  ['area:0,4 m2 room:45 C', 'room-outside', 'room:32 C'],
  ['area:0,4 m2 room:10', 'room-outside', 'room:15 C'],
  ['area:0,4 m2 room:70', 'which-degrees', 'room:70 F'],
])('a refusal of %s keeps all else that was typed', async (typed, refusal, mended) => {
  await here.type(SHIFTS);
  for (const command of ['/plan', '/job start']) {
    const refused = await last(`${command} name:Owl ${NEW} ${typed} start:tue 8:00`);
    expect(code(refused)).toBe(refusal);
    for (const part of ['name:Owl', 'skin:brush-urethane', 'shell:shell-paste', 'start:"tue 8:00"', mended])
      expect(example(refused)).toContain(part);
    expect((await last(example(refused)))?.kind).toBe('reply');
  }
});

test('so does a reserve without its unit, which is hours where it is small', async () => {
  const refused = await last(SHIFTS, `/plan name:Owl ${NEW} ready-by:friday noon reserve:2`);
  expect(example(refused)).toBe(`/plan name:Owl ${NEW} ready-by:friday noon reserve:2 h`);
  expect((await last(example(refused)))?.kind).toBe('reply');
});

test('in a customary studio bare sides are inches, and bare degrees Fahrenheit', async () => {
  await here.type(SHIFTS, '/studio set units:customary');
  expect(example(await last(`/plan name:Owl ${NEW} area:18 x 24`))).toContain('area:18 x 24 in');
  expect((await last(`/plan name:Owl ${NEW} start:tue 8:00 room:72`))?.text).toContain('a room at 72 °F');
  const hot = await offered(type, `/plan name:Owl ${NEW} start:tue 8:00 room:100 F`, 'room-outside');
  expect(hot?.text).toContain('a room at 89 °F');
});

test('what was typed alone is shown in a line that works', async () => {
  await here.type(SHIFTS);
  await offered(type, '/plan room:abc', 'temperature-unreadable');
  await offered(type, '/job start name:Owl area:18 x 24', 'unit-missing');
});

test('a job is planned in no room that its materials are not made for', async () => {
  await here.type(SHIFTS, `/job start name:Owl ${NEW}`, '/done job:owl');
  const refused = await last('/job plan job:owl room:41');
  expect(code(refused)).toBe('room-outside');
  expect(refused?.text).toContain('Brush-on urethane rubber is made for 15 to 32 °C');
  expect((await last(example(refused)))?.title).toContain('Owl is planned with the room at 32 °C');
  await offered(type, '/plan job:owl room:8', 'room-outside');
});

test('a start by the hour alone is by the 24 h clock', async () => {
  expect(startsOf(await last(SHIFTS, `/plan name:Owl ${NEW} start:tomorrow 9`))['seal']).toBe('03 09:00');
});

test('a job that cannot be planned says which it is', async () => {
  const lines = [SHIFTS, `/job start name:Owl ${NEW}`, '/done', '+15m', '/done early:yes', '+7h'];
  expect((await last(...lines, '/plan job:owl'))?.text).toContain('Its window was missed');
});

test('what was read too cold asks for a finger', async () => {
  const lines = [SHIFTS, `/job start name:Owl ${NEW}`, '/done', '+15m', '/done early:yes', '/temp log value:11 C', '+1h'];
  const shown = (await last(...lines, '/plan job:owl'))?.text;
  expect(shown).toContain('Somebody must touch it first');
  expect(shown).not.toContain('missed');
});
