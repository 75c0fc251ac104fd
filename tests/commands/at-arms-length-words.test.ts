import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, room, roomEach, START } from '../support/room.ts';

/** What people say in their own words, and what is then made of it. */
const here = roomEach();
const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

describe('a line without a command', () => {
  it.each([
    ['mix 500 g of brush-urethane', '/mix material:brush-urethane amount:500 g'],
    ['mix 300 g of B shell paste', '/mix material:shell-paste amount:300 g of B'],
    ['how much for 3 sq ft 2mm thick', '/mix material:brush-urethane area:3 sq ft thickness:2mm'],
    ['/mix 500 g brush urethane', '/mix material:brush-urethane amount:500 g'],
    ['/cup start brush-urethane 240 g', '/cup start material:brush-urethane amount:240 g'],
    ['mix 500 g of bread', '/mix material:brush-urethane amount:500 g'],
  ])('%s', async (typed, meant) => {
    expect(example(await last(typed))).toBe(meant);
    expect(code(await last(meant))).not.toBe('unknown-material');
  });
});

/** What the card of /check itself says of each result. */
describe('a finger’s words', () => {
  it.each([
    ['wet', 'not yet'],
    ['sticky', 'not yet'],
    ['tacky', 'ready'],
    ['no tack', 'past'],
    ['dry', 'past'],
    ['hard', 'past'],
  ])('%s, of a coat', async (typed, said) => {
    const answer = await last(START, '[Step done]', '+20m', '[Coat done]', '+1h', `/check result:${typed}`);
    expect(answer?.title).toBe(`Lion head: touched, ${said}`);
  });
});

/** Fahrenheit and Celsius: 60 °F is 15.6 °C, 70 °F 21.1 °C, 21 °C 69.8 °F, by the definition of the scales. */
describe('a bare temperature', () => {
  const celsius = (message: MessageObject | undefined) =>
    (message?.data as { temperature?: { celsius: number } } | undefined)?.temperature?.celsius;

  it('counts in the studio’s units', async () => {
    expect(celsius(await last('/temp log value:18,5'))).toBe(18.5);
    expect(celsius(await last('/studio set units:customary', '/temp log value:70'))).toBeCloseTo(21.11, 2);
  });

  it('is asked where it fits no workshop', async () => {
    const asked = await last('/temp log value:60');
    expect(code(asked)).toBe('which-degrees');
    expect(asked?.buttons.map(({ label }) => label)).toEqual(['60 °F (15.6 °C)', '60 °C']);
    expect(celsius(await last('[60 °F (15.6 °C)]'))).toBeCloseTo(15.56, 2);
    const other = await last('/studio set units:customary', '/temp expect day:21 night:65');
    expect(code(other)).toBe('which-degrees');
    expect(other?.buttons[0]).toMatchObject({ options: { day: '21 C' } });
  });
});

it('calls a second job of one name by its number', async () => {
  const jobs = (await last(START, START, START, '/job list'))?.text;
  expect(jobs).toContain('Lion head 2');
  expect(jobs).toContain('(lion-head-3)');
});

it('tells whoever gave a handover what the button is for', async () => {
  const pressed = await last(START, '/handover give to:kim', '[Take over]');
  expect(code(pressed)).toBe('own-offer');
  const taken = await last('@kim [Take over]');
  expect(taken?.kind).toBe('reply');
});

it('rings nobody but who is named', async () => {
  expect(code(await last(START, '/handover give to:@everyone'))).toBe('not-people');
  expect(code(await last('/job start name:Owl skin:brush-urethane shell:shell-paste holder:@here'))).toBe('not-people');
});

it('after a hold rings once for a window that was missed meanwhile', async () => {
  await here.type(START, '[Step done]', '+20m', '[Coat done]', '/job hold', '+12h');
  const rung = (await here.type('/job resume')).filter(({ kind }) => kind === 'ping');
  expect(rung).toHaveLength(1);
  expect(rung[0]?.data).toMatchObject({ ping: { kind: 'recoat-missed', late: true } });
});

/** On 25 October 2026 clocks in Berlin go back from 03:00 to 02:00: 02:30 comes at 00:30 and at 01:30 in UTC. */
it('takes a time of the hour that comes twice for the last one', async () => {
  const night = await room({ at: '2026-10-25T03:10', zone: 'Europe/Berlin' });
  const [read] = await night.type('/temp log value:20 C at:02:30');
  expect(read?.data).toMatchObject({ temperature: { at: expect.stringContaining('02:30:00+01:00') } });
  await night.close();
});
