import { expect, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, labels, roomEach, START } from '../support/room.ts';

const room = roomEach();
const last = async (...lines: string[]) => (await room.type(...lines)).at(-1);

/** The first coat, done at 08:20; the next may go on from 09:05 to 12:20. */
const COAT = [START, '[Step done]', '+20m', '[Coat done]'];

test('a mix long before its window says so first; shortly before, it is in time', async () => {
  const early = await last(...COAT, '/mix');
  expect(early?.text).toMatch(/^Too early: Second coat opens at 09:05 \(in 45 min\)/);
  const near = await last('+30m', '/mix');
  expect(near?.text).not.toContain('Too early');
});

test('a missed window is decided, not mixed for; who says just how much is told, and may', async () => {
  const refused = await last(...COAT, '+5h', '/mix');
  expect([code(refused), labels(refused)]).toEqual(['window-missed', ['Abrade and go on', 'Scrap the coat']]);
  const typed = await last('/mix material:brush-urethane amount:100 g');
  expect(typed?.text).toMatch(/^Do not mix: the window for Second coat closed at 12:20/);
});

test('a cup that is poured is not mixed again, until it is over or thrown away', async () => {
  const again = await last(...COAT, '+45m', '/mix', '[Cup poured]', '/mix');
  expect(again?.text).toMatch(/^cup-1 is poured for it already, good until 09:25/);
  expect((await last('/cup discard', '/mix'))?.text).not.toContain('poured for it already');
});

test('a cup that went over in the hand is mixed anew, and the brief counts it as still to mix', async () => {
  const stillToMix = (message: MessageObject | undefined) =>
    (message?.data as { brief?: { jobs: { stillToMix: { grams: number }[] }[] } } | undefined)?.brief?.jobs[0]?.stillToMix[0]
      ?.grams;
  const before = stillToMix(await last(...COAT, '+45m', '/handover brief'));
  const poured = stillToMix(await last('/cup start amount:356 g', '/handover brief'));
  expect((before ?? 0) - (poured ?? 0)).toBe(356);
  expect(stillToMix(await last('+1h', '/handover brief'))).toBe(before);
  expect(stillToMix(await last('/cup spent', '/handover brief'))).toBe(poured);
});

test('a step that takes several cups and is called done after one says so', async () => {
  await room.type('/studio set carries:200 g', ...COAT, '+45m', '/mix');
  const cup = await last('[Cup poured]');
  expect(labels(cup)).toContain('Next cup poured');
  expect(labels(cup)).not.toContain('Coat done');
  const done = await last('/done');
  expect(done?.text).toMatch(/178 g of 35\d g is logged as poured for it/);
});

test('cups that nobody called spent are one line after some hours, and no alarm', async () => {
  await room.type('/cup start material:brush-urethane amount:100 g', '/cup start material:shell-paste amount:100 g');
  expect((await last('+1h', '/board'))?.text).toContain('cup-1: 100 g of');
  const later = await last('+12h', '/board');
  expect(later?.text).toContain('Over for hours, and not called spent: cup-1 and cup-2.');
  expect(later?.text).not.toContain('do not brush it on');
});

test('without an area there is nothing to press for a mix', async () => {
  const job = await last('/job start name:Fox skin:brush-urethane shell:shell-paste', '/done early:yes', '+20m', '/job show');
  expect(labels(job)).not.toContain('Mix next coat');
});

test('a coat cannot have been done before its cup was mixed', async () => {
  await room.type(...COAT, '+45m', '/cup start amount:356 g', '+2m');
  const refused = await last('/done at:5m ago');
  expect([code(refused), refused?.text]).toEqual(['out-of-order', expect.stringContaining('which was mixed at 09:05')]);
  expect((await last('/done at:1m ago'))?.title).toContain('Second coat done at 09:06');
});
