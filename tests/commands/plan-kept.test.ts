import { expect, test } from 'vitest';
import { code, roomEach } from '../support/room.ts';
import { NEW, SHIFTS } from './plans.ts';

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
  expect((await last('/job plan job:owl ready-by:none'))?.title).toContain('Owl is planned anew');
  expect((await last('/plan job:owl'))?.data).toMatchObject({ plan: { readyBy: null } });
  expect(code(await last('/job plan job:owl ready-by:none'))).toBe('nothing-to-change');
  expect(code(await last('+1h', '/done job:owl', '/job plan job:owl start:10:00'))).toBe('begun-already');
});
