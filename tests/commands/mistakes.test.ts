import { expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, ping, room, roomEach, START } from '../support/room.ts';

/** Mistakes that people make, and what they get. */
const here = roomEach();

const kinds = (messages: MessageObject[]) => messages.flatMap((message) => ping(message)?.kind ?? []);
const FIRST_COAT = [START, '[Step done]', '+20m', '[Coat done]'];

it('a cup that is poured too early, and forgotten, hides no window', async () => {
  await here.type(...FIRST_COAT, '+10m', '/cup start amount:356 g', '+5m', '/cup spent');
  expect(kinds(await here.type('+6h'))).toEqual(['recoat-open', 'recoat-closing', 'recoat-missed']);
  expect(code((await here.type('/done'))[0])).toBe('window-missed');
});

it('a second press of Cup poured, and a press after the coat, make no second cup', async () => {
  await here.type(START, '[Step done]', '+20m', '[Mix next coat]', '[Cup poured]');
  const [twice] = await here.type('@kim', '[Cup poured]');
  expect(code(twice)).toBe('already-poured');
  expect(twice?.text).toMatch(/cup-1 is that cup: logged by @you/);
  const [, stale] = await here.type('[Coat done]', '[Cup poured]');
  expect(code(stale)).toBe('already-done');
});

it('a cure cannot be past', async () => {
  const coats = ['+45m', '[Coat done]', '+45m', '[Coat done]', '+45m', '[Coat done]', '+1h'];
  await here.type(...FIRST_COAT, ...coats);
  expect(code((await here.type('/check result:past'))[0])).toBe('no-end');
  expect(kinds(await here.type('+20h'))).toEqual(['cure-done']);
});

it('two handovers to two people are two handovers', async () => {
  await here.type(START, '/job start name:Fox skin:brush-urethane shell:shell-paste');
  await here.type('/handover give to:kim job:lion-head', '/handover give to:dana job:fox');
  const [kim, dana] = await here.type('@kim', '/handover take', '@dana', '/handover take');
  expect(kim?.title).toBe('@kim has Lion head now');
  expect(dana?.title).toBe('@dana has Fox now');
});

it('whoever takes over is offered no Undo of what somebody else did', async () => {
  const offer = [...FIRST_COAT, '/handover give to:kim', '@kim [Take over]'];
  const taken = (await here.type(...offer)).at(-1);
  expect(taken?.title).toBe('@kim has Lion head now');
  expect(taken?.buttons.map(({ label }) => label)).not.toContain('Undo');
  expect((await here.type('@kim /job show')).at(-1)?.title).toContain('Lion head');
});

it('with nothing offered, nobody takes over a whole bench by a bare word', async () => {
  await here.type(START, '/job start name:Fox skin:brush-urethane shell:shell-paste');
  expect(code((await here.type('@kim', '/handover take'))[0])).toBe('which-job');
});

it('who gives away what somebody else has brings that holder in', async () => {
  await here.type(...FIRST_COAT, '@ana', '/handover give to:dana');
  const pings = await here.type('+1h');
  expect(pings.find(({ data }) => (data as { ping: { kind: string } }).ping.kind === 'handover')?.to).toEqual([
    'ana',
    'you',
    'dana',
  ]);
});

it('an answer within the same minute is an answer', async () => {
  await here.type('/shift duty who:you, kim, dana', ...FIRST_COAT, '+45m', '/job note text:on it');
  expect(kinds(await here.type('+30m'))).toEqual([]);
  const other = await room();
  await other.type('/shift duty who:you, kim, dana', ...FIRST_COAT, '+45m', '[Mix next coat]');
  expect(kinds(await other.type('+30m'))).toEqual([]);
  await other.close();
});

it('a snooze that nobody answers reaches everybody on duty after all', async () => {
  await here.type('/shift duty who:you, kim', ...FIRST_COAT, '+45m', '[Snooze]');
  expect((await here.type('+30m')).map(({ at, to }) => [at.slice(11, 16), to])).toEqual([
    ['09:15', ['you']],
    ['09:25', ['you', 'kim']],
  ]);
});

it('Undo on a card takes back what that card says, once', async () => {
  await here.type(...FIRST_COAT, '/cup start material:shell-paste amount:100 g');
  const [undone] = await here.type('[Undo]');
  expect(undone?.title).toBe('Taken back: Lion head, the step First coat');
  const [again] = await here.type('@kim', '[Undo]');
  expect(code(again)).toBe('already-undone');
  expect(again?.text).toContain('@you');
});

it('a bare undo takes back one’s own', async () => {
  const [, , undone] = await here.type(START, '@kim', '/job note text:mine', '@you', '/undo');
  expect(undone?.title ?? '').not.toContain('note');
});

it('a job cannot be undone from under what was logged on it', async () => {
  await here.type(START, '@kim', '[Step done]');
  expect(code((await here.type('@you', '/undo'))[0])).toBe('not-the-last');
});

it('a reading in Fahrenheit is said to a tenth', async () => {
  const [reading, shown] = await here.type('/temp log value:64 F', '/temp show');
  expect([reading?.title, shown?.text]).toEqual(['Bench at 17.8 °C since 08:00', '08:00: 17.8 °C']);
});

it('a material mistyped for a role is offered for that role', async () => {
  const [refused] = await here.type('/job start name:Owl skin:brush-uretane shell:shell-paste');
  expect(refused?.text).toContain('For example: /job start name:Owl skin:brush-urethane shell:');
});

it('a reading says what it moves, the closing too', async () => {
  const [, , , , cold] = await here.type(...FIRST_COAT, '/temp log value:18 C');
  // Q10 = 2: five kelvin below the reference, everything takes 2^0.5 times as long; 45 min and 4 h from 08:20.
  expect(cold?.text).toContain('opens at 09:24, 19 min later; closes at 13:59, 1 h 39 min later');
});

it('what is poured is not mixed again', async () => {
  await here.type(...FIRST_COAT, '+45m', '/cup start amount:356 g');
  const [brief] = await here.type('/handover brief');
  expect(brief?.text).toContain('Still to mix: 951 g of Brush-on urethane rubber');
});

it('what is wrong with the pour is not the only thing that may be wrong with the cup', async () => {
  await here.type('/cup start material:brush-urethane amount:360 g', '+18m');
  const [fix] = await here.type('/fix material:brush-urethane poured:171 g A, 200 g B');
  expect(fix?.data).toMatchObject({ correction: { add: null, verdict: 'too-late' } });
  const [much] = await here.type('/cup spent', '/fix material:shell-paste poured:410 g A, 1000 g B').then((all) => all.slice(-1));
  expect(much?.data).toMatchObject({ correction: { add: null, verdict: 'too-much' } });
});
