import { expect, test } from 'vitest';
import { paceLine, paceText } from '../../src/cards/pace.ts';
import type { Text } from '../../src/words/text.ts';
import { did, fixed, given, RUBBER, recoat, started, step } from '../support/given.ts';
import { code, ping, roomEach, START } from '../support/room.ts';
import { studio } from '../support/studio.ts';

const room = roomEach();
type Paces = { paces: { material: string; factor: number; checks: number }[] };
type Timeline = { timeline: { step: string; opensAt: string }[] };
const paces = async () => ((await room.type('/temp pace')).at(-1)?.data as Paces | undefined)?.paces;

/** A first coat, done at 08:20: the next may go on after 45 minutes, says its sheet. */
const COAT = [START, '[Step done]', '+20m', '[Coat done]'];
const opens = async () =>
  ((await room.type('/job show')).at(-1)?.data as Timeline | undefined)?.timeline.find(({ step }) => step === 'coat-2')?.opensAt;

test('a coat that was ready early makes the next ones ready earlier, and the card says why', async () => {
  expect(await paces()).toEqual([]);
  await room.type(...COAT, '+27m', '/check result:ready');
  // 27 of 45 minutes, believed by a quarter: 0.6^(1/4).
  expect(await paces()).toEqual([{ material: 'brush-urethane', factor: expect.closeTo(0.6 ** 0.25, 3), checks: 1 }]);
  const [done] = await room.type('/done').then((all) => all.slice(-1));
  expect(done?.text).toMatch(/Reckoned for here: .*cures 12 % faster than its sheet \(1 coat that was touched\)/);
  const rung = (await room.type('+2h')).find((message) => ping(message)?.kind === 'recoat-open');
  const minutes = (Date.parse(rung?.at ?? '') - Date.parse('2026-03-02T08:47+01:00')) / 60_000;
  expect(minutes).toBe(Math.ceil(45 * 0.6 ** 0.25));
});

test('what one bench learns moves the others, and their pings', async () => {
  await room.type('#two', ...COAT, '#bench', ...COAT);
  const before = await opens();
  await room.type('#two', '+10m', '/check result:ready', '#bench');
  expect(Date.parse((await opens()) ?? '')).toBeLessThan(Date.parse(before ?? ''));
});

test('taken back, it was never learned', async () => {
  await room.type(...COAT, '+27m', '/check result:ready', '/undo');
  expect(await paces()).toEqual([]);
});

test('it can be done away with, and is learned anew', async () => {
  await room.type(...COAT, '+27m', '/check result:ready', '+1m');
  const [gone] = await room.type('/temp unlearn material:brush-urethane');
  expect(gone?.title).toMatch(/its sheet’s times count again/);
  expect(await paces()).toEqual([]);
  await room.type('/done', '+20m', '/check result:ready');
  expect(await paces()).toEqual([expect.objectContaining({ checks: 1 })]);
});

test('an unknown material is refused', async () =>
  expect(code((await room.type('/temp unlearn material:brush-uretane')).at(-1))).toBe('unknown-material'));

test('the card that takes a check back reckons without it already', async () => {
  await room.type(...COAT, '+27m', '/check result:ready');
  const [undone] = await room.type('/undo');
  expect(undone?.text).toContain('from 09:05');
  expect(undone?.text).not.toContain('Reckoned for here');
});

const said = (text: Text) => text.map((span) => ('text' in span && typeof span.text === 'string' ? span.text : '')).join('');

// Our rule; no source: less than 2 % is within what a finger can tell.
test.each([
  [1, 'just as its sheet says'],
  [1.019, 'just as its sheet says'],
  [0.981, 'just as its sheet says'],
  [1.0201, '2 % slower than its sheet'],
  [0.9799, '2 % faster than its sheet'],
])('%d times as long as the sheet says is “%s”, and only a difference is told of a wait', (factor, words) => {
  const pace = { factor, checks: 3 };
  expect(said(paceText(pace))).toBe(`${words} (3 coats that were touched)`);
  const learned = studio({ paces: new Map([[RUBBER.id, pace]]) });
  const lines = (wait: ReturnType<typeof recoat>) => {
    const steps = [step('a', wait, { material: RUBBER }), step('b')];
    return paceLine(given(started('08:00', { steps }), did('a', '09:00')).job, learned).map(said);
  };
  expect(lines(recoat(45, 180))).toEqual(
    words.startsWith('just') ? [] : [`Reckoned for here: Rubber cures ${words} (3 coats that were touched).`],
  );
  // No finger moves the clock of a seal that dries.
  expect(lines(fixed(45))).toEqual([]);
});
