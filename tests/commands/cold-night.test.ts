import { expect, test } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, labels, ping, roomEach, START } from '../support/room.ts';

const room = roomEach();

/** The fourth coat is done at 12:15; it cures for 16 hours at 23 °C, twice as fast with each ten degrees more. */
const OVERNIGHT = [START, '[Step done]', '+20m', '[Coat done]', '+1h', '/done', '+1h', '/done', '+1h', '/done', '+55m'];
const HOUR = 3_600_000;
const at = (text: string) => Date.parse(`2026-03-${text}:00+01:00`);

interface Entry {
  step: string;
  state: string;
  opensAt: string | null;
  closesAt: string | null;
}
const trim = (message: MessageObject | undefined): Entry | undefined =>
  (message?.data as { timeline?: Entry[] } | undefined)?.timeline?.find((entry) => entry.step === 'trim');
const movedBy = (message: MessageObject | undefined) =>
  (message?.data as { moved?: { job: string; opensAt: string }[] } | undefined)?.moved ?? [];
const said = (messages: MessageObject[]) => messages.map(({ title, text }) => `${title}\n${text}`).join('\n');

/** The end of a wait, added up minute by minute by the clock on the wall. */
function integrated(begun: number, hours: number, celsiusAt: (clock: number) => number): number {
  let gone = 0;
  for (let now = begun; ; now += 60_000) {
    const clock = (((now + HOUR) / 60_000) % 1440) / 60;
    gone += 2 ** ((celsiusAt(clock) - 23) / 10) / 60;
    if (gone >= hours) return now + 60_000;
  }
}

test('23 °C in the afternoon and 14 °C in the night: the demould goes where the integral says, and its ping with it', async () => {
  const before = (await room.type(...OVERNIGHT, '/job show')).at(-1);
  const done = at('02T11:20');
  expect(Date.parse(trim(before)?.opensAt ?? '')).toBe(done + 16 * HOUR);
  await room.type('+until 15:00', '/temp log value:23 C');
  const [card] = await room.type('/temp expect day:23 C night:14 C');
  const opens = integrated(done, 16, (clock) => (clock >= 7 && clock < 19 ? 23 : 14));
  expect(said([card as MessageObject])).toContain('later');
  const moved = movedBy(card);
  expect(moved).toEqual([expect.objectContaining({ job: 'lion-head', step: 'trim' })]);
  expect(Math.abs(Date.parse(moved[0]?.opensAt ?? '') - opens)).toBeLessThanOrEqual(60_000);
  const shown = trim((await room.type('/job show')).at(-1));
  expect(shown?.opensAt).toBe(moved[0]?.opensAt);
  const rung = (await room.type('+2d')).filter((message) => ping(message)?.kind === 'cure-done');
  expect(rung.map(({ at: when }) => Date.parse(when))).toEqual([Date.parse(moved[0]?.opensAt ?? '')]);
});

test('a reading of the night moves it again; called off, the last reading holds', async () => {
  await room.type(...OVERNIGHT, '+until 18:00', '/temp log value:23 C', '/temp expect night:16 C');
  const [warmer] = await room.type('+until 23:00', '/temp log value:20 C');
  expect(said([warmer as MessageObject])).toMatch(/opens at .* earlier/s);
  const until = (message: MessageObject | undefined) => Date.parse(movedBy(message)[0]?.opensAt ?? '');
  const done = at('02T11:20');
  const opens = integrated(done, 16, (clock) => (clock >= 19 && clock < 23 ? 16 : clock >= 23 || clock < 7 ? 20 : 23));
  expect(Math.abs(until(warmer) - opens)).toBeLessThanOrEqual(60_000);
  const [off] = await room.type('/temp expect off:yes', '/temp show');
  expect(off?.title).toBe('What was read last holds');
});

test('read outside what the material is made for, nothing is predicted: touch it', async () => {
  await room.type(...OVERNIGHT);
  const [log] = await room.type('/temp log value:9 C');
  expect(said([log as MessageObject])).toMatch(/no time any more.*9 °C.*15 to 32 °C.*Touch it/s);
  const [show] = await room.type('/job show');
  expect(trim(show)).toMatchObject({ state: 'touch', opensAt: null, closesAt: null });
  expect(show?.text).not.toMatch(/from \d\d:\d\d|opens at/);
  const [refused] = await room.type('+2d', '/done').then((all) => all.slice(-1));
  expect(code(refused)).toBe('touch-first');
  expect(labels(refused)).toEqual(['It is ready', 'Not yet']);
  const after = await room.type('[It is ready]', '/done');
  expect(after.map(code)).toEqual([undefined, undefined]);
});

test('its ping comes all the same, and says to touch', async () => {
  await room.type(...OVERNIGHT, '/temp log value:13 C');
  const rung = (await room.type('+2d')).filter((message) => ping(message)?.kind === 'cure-done');
  expect(rung).toHaveLength(1);
  expect(rung[0]?.title).toMatch(/touch/);
  expect(rung[0]?.text).toMatch(/no clock can tell/);
  expect(labels(rung[0])[0]).toBe('Check tack');
});

test('a window that nobody can tell is never called missed by the clock', async () => {
  await room.type(START, '[Step done]', '+20m', '[Coat done]', '+10m', '/temp log value:8 C');
  const rung = await room.type('+3d');
  expect(rung.flatMap((message) => ping(message)?.kind ?? [])).not.toContain('recoat-missed');
});

test('only an expected temperature outside the range warns, and is reckoned with', async () => {
  await room.type(...OVERNIGHT, '/temp log value:23 C', '/temp expect night:14 C');
  const [show] = await room.type('/job show');
  expect(trim(show)?.opensAt).not.toBeNull();
});

test('pot lives move, too, and the card says by how much', async () => {
  await room.type('/temp log value:23 C', '/cup start material:brush-urethane amount:100 g', '+5m');
  const [card] = await room.type('/temp log value:18 C');
  // Fifteen of its twenty minutes are left, and they take 2^0.5 times as long.
  expect(card?.text).toMatch(/cup-1.*good until 08:26, 6 min later/);
  expect(card?.data).toMatchObject({ movedCups: [{ cup: 'cup-1' }] });
});

test.each([
  ['/temp expect', 'nothing-expected'],
  ['/temp expect day:banana', 'temperature-unreadable'],
  ['/temp expect night:140 C', 'bad-temperature'],
  ['/temp expect night:14 C off:yes', 'day-or-off'],
  ['/temp expect night:14 C hours:whenever', undefined],
])('%s is refused, and nothing moves', async (line, expected) => {
  const [answer] = await room.type(line);
  expect(answer?.kind).toBe('refusal');
  if (expected !== undefined) expect(code(answer)).toBe(expected);
  const [show] = await room.type('/temp show');
  expect(show?.data).toMatchObject({ expected: null });
});

test('the board says what the last reading moved, as long as it is to come', async () => {
  await room.type(START, '[Step done]', '+20m', '[Coat done]', '/temp log value:18 C');
  const [board] = await room.type('/board');
  // 45 minutes from 08:20 take 2^0.5 times as long.
  expect(board?.text).toMatch(/Moved by what was read or expected last:\n.*Lion head: Second coat opens at 09:24, 19 min later/);
  const [later] = await room.type('/temp log value:18 C', '/board').then((all) => all.slice(-1));
  expect(later?.text).not.toContain('Moved by');
});

test('a door that stood open for some minutes does not take the times away', async () => {
  await room.type(...OVERNIGHT, '/temp log value:20 C', '+1h', '/temp log value:12 C', '+20m', '/temp log value:19 C');
  expect(trim((await room.type('/job show')).at(-1))?.opensAt).not.toBeNull();
  const gone = await room.type('/temp log value:12 C', '+40m', '/temp log value:19 C', '/job show');
  expect(trim(gone.at(-1))?.opensAt).toBeNull();
});

test('where nobody can tell, it rings once more before the clock would close the window', async () => {
  await room.type(START, '[Step done]', '+20m', '[Coat done]', '/temp log value:13 C');
  const rung = (await room.type('+2d')).filter((message) => ping(message)?.step === 'coat-2');
  expect(rung.map((message) => ping(message)?.kind)).toEqual(['recoat-open', 'recoat-closing']);
  expect(rung[1]?.text).toContain('By the clock it would soon be too late for Second coat.');
});

test('tacky is not cured: a cure is not opened by a finger before its time', async () => {
  const shown = await room.type(...OVERNIGHT, '/job show');
  expect(labels(shown.at(-1))).not.toContain('Check tack');
  const refused = (await room.type('/check result:ready')).at(-1);
  expect(code(refused)).toBe('not-cured');
  const [done] = await room.type(String((refused?.text.match(/For example: (.*)/) ?? [])[1]));
  expect(done?.title).toContain('Trim the flange done');
});

// Our rule; no source: no workshop is colder than −30 °C or hotter than 60 °C.
test.each([
  ['60 C', undefined],
  ['60.1 C', 'bad-temperature'],
  ['-30 C', undefined],
  ['-30.1 C', 'bad-temperature'],
])('%s is read, or taken for a slip of the finger', async (value, expected) => {
  const [log, day, night] = await room.type(
    `/temp log value:${value}`,
    `/temp expect day:${value}`,
    `/temp expect night:${value}`,
  );
  expect([log, day, night].map(code)).toEqual([expected, expected, expected]);
});

test('day is from seven to seven, unless somebody says otherwise', async () => {
  const [own, usual] = await room.type('/temp expect day:23 C night:14 C hours:06:00-22:00', '/temp expect day:23 C night:14 C');
  expect(usual?.data).toMatchObject({ expected: { dayCelsius: 23, nightCelsius: 14, dayHours: '07:00-19:00' } });
  expect(usual?.title).toContain('by day (07:00-19:00)');
  expect(own?.data).toMatchObject({ expected: { dayHours: '06:00-22:00' } });
  const [before, at] = await room.type(
    '+until 18:59',
    '/mix brush-urethane amount:500 g',
    '+1m',
    '/mix brush-urethane amount:500 g',
  );
  expect(before?.text).toMatch(/ at 23 °C/);
  expect(at?.text).toContain('At 14 °C no pot life can be told');
});

test.each(['9 C', '35 C'])(
  'a reading of %s names at once each material that is still to come and is not made for it',
  async (value) => {
    const count = (text: string | undefined, words: string) => (text ?? '').split(words).length - 1;
    const [, read] = await room.type(START, `/temp log value:${value}`);
    expect(
      count(read?.text, `The bench is at ${value.replace('C', '°C')}; Brush-on urethane rubber is made for 15 to 32 °C`),
    ).toBe(1);
    expect(count(read?.text, 'Urethane shell paste is made for')).toBe(1);
    const [, closed] = await room.type('/job close', `/temp log value:${value}`);
    expect(count(closed?.text, 'is made for')).toBe(0);
  },
);

test('a reading says nothing of a material whose last coat has cured', async () => {
  await room.type(...OVERNIGHT, '+20h', '/done');
  const [read] = await room.type('/temp log value:9 C');
  expect(read?.text).not.toContain('Brush-on urethane rubber');
  expect(read?.text).toContain('Urethane shell paste');
});
