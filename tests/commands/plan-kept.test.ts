import { expect, test } from 'vitest';
import { code, labels, roomEach } from '../support/room.ts';
import { NEW, reserveOf, SHIFTS, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);

test('a plan that is started twice begins one job', async () => {
  const again = await last(SHIFTS, `/plan name:Owl ${NEW} start:9:00`, '[Start this plan]', '[Start this plan]');
  expect(code(again)).toBe('already-planned');
});

test('a promise is made, and taken back; a start only before the first step', async () => {
  await here.type(SHIFTS, `/job start name:Owl ${NEW} start:9:00`);
  expect((await last('/job plan job:owl ready-by:fri 16:00'))?.title).toContain('Owl is to be ready by Fri 16:00');
  expect((await last('/plan job:owl'))?.data).toMatchObject({ plan: { readyBy: '2026-03-06T16:00:00+01:00' } });
  expect((await last('/job plan job:owl ready-by:none'))?.title).toContain('Owl: no promise any more');
  expect((await last('/plan job:owl'))?.data).toMatchObject({ plan: { readyBy: null } });
  expect(code(await last('/job plan job:owl ready-by:none'))).toBe('nothing-to-change');
  expect(code(await last('+1h', '/done job:owl', '/job plan job:owl start:10:00'))).toBe('begun-already');
});

test('a warmer room that would do is one press, and then there is no trouble any more', async () => {
  const cold = await last(SHIFTS, `/job start name:Owl ${NEW} start:8:00 ready-by:wed 9:30`, '/temp log value:15 C');
  expect(troublesOf(cold)).toMatchObject([{ job: 'owl', cause: { kind: 'late' } }]);
  expect(labels(cold)).toContain('Warm the room to 19 °C');
  expect((await last('[Warm the room to 19 °C]'))?.data).toMatchObject({ expected: { dayCelsius: 19, nightCelsius: 19 } });
  expect(troublesOf(await last('/plan job:owl'))).toEqual([]);
});

test('a reserve is kept also forward', async () => {
  const lines = [`/plan name:Owl ${NEW} start:8:00`, `/plan name:Owl ${NEW} start:8:00 reserve:3 h`];
  const [usual, safe] = [await last(SHIFTS, lines[0] ?? ''), await last(lines[1] ?? '')];
  expect(usual?.text).not.toContain('may slip');
  // A quarter of the window of 3 h 15 min is the most that is kept of it.
  expect(safe?.text).toContain('Any one step may slip by');
  expect(reserveOf(safe)).toBe(180);
});
