import { expect, test } from 'vitest';
import { code, labels, ping, roomEach } from '../support/room.ts';
import { NEW, SHIFTS, startsOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);

/** The second coat opens at 09:15 and closes at 12:30; coats take 15 minutes, and the next opens 45 minutes after one. */
const FIRST_COAT_AT_0830 = [SHIFTS, `/job start name:Owl ${NEW} area:0,4 m2`, '/done', '+30m', '/done'];

test('a cup that is mixed before its window goes on when that opens, also in the plan', async () => {
  await here.type(...FIRST_COAT_AT_0830);
  const plan = startsOf(await last('+40m', '/mix job:owl', '[Cup poured]', '/plan job:owl'));
  expect([plan['coat-2'], plan['coat-3']]).toEqual(['02 09:15', '02 10:15']);
  expect((await last('+20m', '/done'))?.title).toContain('Second coat done at 09:30');
});

test('hands that a window closed over were in time: one press says so', async () => {
  await here.type(...FIRST_COAT_AT_0830);
  const refused = await last('+until 12:40', '/done note:thin at the ear');
  expect([code(refused), labels(refused)]).toEqual([
    'window-missed',
    ['Abrade and go on', 'Scrap the coat', 'Done, begun in time'],
  ]);
  const done = await last('[Done, begun in time]');
  expect(done?.title).toContain('Second coat done at 12:40');
  expect(done?.data).toMatchObject({
    timeline: expect.arrayContaining([expect.objectContaining({ opensAt: '2026-03-02T13:25:00+01:00' })]),
  });
  const shown = JSON.stringify(await last('/job show job:owl'));
  expect(shown).toContain('thin at the ear; begun before its window closed');
  expect(code(await last('+until 16:00', '/done begun:12:30'))).toBe('out-of-order');
});

test('the ping at the end of a window asks whether hands are at it, and one press says so once they are done', async () => {
  await here.type(...FIRST_COAT_AT_0830);
  const rung = (await here.type('+until 12:31')).find((message) => ping(message)?.kind === 'recoat-missed');
  expect(rung?.text).toContain('If it was begun in time, finish it, and say so then.');
  expect(labels(rung)).toEqual(['Done, begun in time', 'Abrade and go on', 'Snooze']);
  expect((await last('+until 12:36', '[Done, begun in time]'))?.title).toContain('Second coat done at 12:36');
});
