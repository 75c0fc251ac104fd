import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { ping, room, roomEach } from '../support/room.ts';
import { NEW, planOf, SHIFTS, troublesOf } from './plans.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);
const START = (name: string) => `/job start name:${name} ${NEW} area:0,1 m2`;
const at = (message: { at: string } | undefined) => message?.at.slice(11, 16);

test('two coats whose windows close together ring before one pair of hands cannot do both', async () => {
  // Second coats of 15 minutes close at 12:30 and at 12:35: whoever goes first must begin by 12:20, and half an hour sooner it rings.
  await here.type('/shift set hours:06:00-20:00 days:daily', '/shift hands count:1', START('Owl'), START('Fox'));
  await here.type('/done job:owl', '/done job:fox', '+35m', '/done job:owl at:8:30', '/done job:fox at:8:35');
  const rung = (await here.type('+until 12:19')).filter((each) => ping(each)?.kind === 'plan-closing');
  expect(rung.map((each) => [at(each), each.title])).toEqual([
    ['11:50', expect.stringContaining('Owl: begin Second coat by 12:20')],
  ]);
  expect(rung[0]?.text).toContain('Second coat of Fox does not fit beside it');
  // It was said in time: by 12:20 all fits, a minute later it does not.
  expect(troublesOf(await last('/plan'))).toEqual([]);
  expect(troublesOf(await last('+1m', '/plan'))).toEqual([]);
  expect(troublesOf(await last('+1m', '/plan'))).toMatchObject([{ clash: [expect.any(String)] }]);
});

test('with hands for both, nothing presses but the windows', async () => {
  await here.type('/shift set hours:06:00-20:00 days:daily', '/shift hands count:2', START('Owl'), START('Fox'));
  await here.type('/done job:owl', '/done job:fox', '+35m', '/done job:owl at:8:30', '/done job:fox at:8:35');
  const kinds = (await here.type('+until 12:29')).map((each) => ping(each)?.kind);
  expect(kinds).not.toContain('plan-closing');
  expect(kinds.filter((kind) => kind === 'recoat-closing')).toHaveLength(2);
});

test('a job that can make way closes no plan of another', async () => {
  await here.type(SHIFTS, `/plan name:Lion ${NEW} start:8:00 ready-by:wed 14:00`, '[Start this plan]');
  await here.type(`/plan name:Vase ${NEW} ready-by:wed 14:00`, '[Start this plan]', '/done job:lion', '+45m');
  const done = await last('/done job:lion');
  // Its window closes at 12:45, the fourth coat and the promise leave more time: nothing is to be said.
  expect(done?.text).not.toContain('Begin by');
  expect(planOf(await last('/plan job:lion'))?.steps[0]).toMatchObject({
    step: 'coat-2',
    closesAt: expect.stringContaining('T12:45'),
  });
  const closing = (await here.type('+until 12:44')).filter((each) => ping(each)?.kind === 'plan-closing');
  expect(closing.filter(({ title }) => title.startsWith('Lion'))).toEqual([]);
});

test('what is merely put off is told with when it would be', async () => {
  // First coats may begin until 12:45 for the fourth to go on by 16:00; later they wait for the next morning.
  await here.type(SHIFTS, START('Owl'), '/done');
  const [rung] = (await here.type('+until 12:44')).filter((each) => ping(each)?.kind === 'plan-closing');
  expect(rung?.title).toContain('begin First coat by 12:45');
  expect(rung?.text).toContain('Later, it waits until Tue 08:00 and is ready Thu 09:20');
});

describe('where nobody answers', () => {
  // Coats may begin until 09:15 for the fourth to go on by 12:15; Thursday 10:00 can be kept if they begin on Tuesday.
  const asked = [
    '/shift set hours:08:00-12:30 days:daily',
    '/shift hands count:1',
    `${START('Owl')} ready-by:thu 10:00`,
    '/done',
  ];
  const calls = (shown: readonly MessageObject[]) =>
    shown.filter((each) => ping(each)?.kind === 'plan-closing').map((each) => [each.at.slice(8, 16), each.title.slice(0, 31)]);

  test('the next day is called as well, before a promise breaks', async () => {
    await here.type(...asked);
    expect(calls(await here.type('+until 12:30', '+21h'))).toEqual([
      ['02T09:00', 'Owl: begin First coat by 09:15'],
      ['03T08:45', 'Owl: begin First coat by 09:15'],
    ]);
  });

  test('what comes when its time is over says what is planned now', async () => {
    const dataDir = mkdtempSync(join(tmpdir(), 'coatbell-last-call.'));
    try {
      const before = await room({ dataDir });
      await before.type(...asked);
      await before.close();
      const after = await room({ dataDir, at: '2026-03-02T13:00' });
      const shown = (await after.type('+1m')).find((each) => ping(each)?.kind === 'plan-closing');
      expect(shown?.title).toBe('Owl: First coat was to begin by 09:15');
      expect(shown?.text).toContain('As planned: Tue 08:00');
      expect(shown?.text).not.toContain('Later, it waits');
      await after.close();
    } finally {
      rmSync(dataDir, { recursive: true });
    }
  });

  test('a shift that falls away rings nothing that should have been before', async () => {
    await here.type('/shift set hours:08:00-12:30, 12:30-18:00 days:daily', '/shift hands count:1', START('Owl'), '/done');
    const shown = await here.type('+until 11:00', '/shift set hours:08:00-12:30 days:daily', '+1m');
    expect(calls(shown)).toEqual([]);
  });
});

test('a coat that is to wait rings when it opens, for its holder alone, and when it is planned', async () => {
  await here.type('/shift set hours:08:00-12:00 days:daily', '/shift duty who:kim', '/shift hands count:1', START('Owl'));
  await here.type('+35m', '/done');
  const rung = (await here.type('+24h')).filter((each) => ping(each)?.step === 'coat-1' && ping(each)?.kind === 'step-due');
  expect(rung.map((each) => [each.at.slice(8, 16), each.to, each.title])).toEqual([
    ['02T08:50', ['you'], 'Owl: First coat is open, but wait until Tue 08:00'],
    ['03T08:00', ['you'], 'Owl: First coat is due'],
    ['03T08:10', ['you', 'kim'], 'Owl: First coat is due'],
  ]);
});
