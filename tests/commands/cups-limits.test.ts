import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, labels, ping, roomEach, START } from '../support/room.ts';
import { cups, loadOwn } from './planned-cups.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

describe('the rate, where nobody says it', () => {
  /** Laid in so many minutes, one after the other. */
  const laid = (minutes: readonly number[], grams = 150) =>
    minutes.flatMap((each) => [
      `/cup start material:shell-paste amount:${grams} g`,
      each < 1 ? `+${each * 60}s` : `+${each}m`,
      '/cup spent',
    ]);
  const ASK = '/cups material:shell-paste amount:1 kg';

  it('is asked for, with buttons that carry on what was said', async () => {
    const asked = await last('/cups material:shell-paste amount:1 kg cup:100 g');
    expect([code(asked), labels(asked)]).toEqual(['rate-missing', ['10 g/min', '20 g/min', '40 g/min']]);
    expect(asked?.text).toContain('How fast do you lay it?');
    expect(cups(await last('[20 g/min]'))).toMatchObject({ rateGramsPerMinute: 20, count: 10, rateFrom: 'asked' });
  });

  it('is the median of the last cups, on whichever bench', async () => {
    await here.type(...laid([6, 5]));
    expect(code(await last(ASK))).toBe('rate-missing');
    // 150 g in 6, 5 and 7 min: 25, 30 and 21.4 g/min.
    await here.type('#bench-2', ...laid([7]));
    const card = await last('#bench-3', ASK);
    expect(cups(card)).toMatchObject({ rateGramsPerMinute: 25, rateFrom: 'learned' });
    expect(card?.text).toContain('at 25 g/min (your last 3 cups)');
    expect(cups(await last(`${ASK} rate:10 g/min`))).toMatchObject({ rateGramsPerMinute: 10, rateFrom: 'asked' });
    expect(code(await last('/cups material:shell-epoxy amount:1 kg'))).toBe('rate-missing');
  });

  it('is halfway between the middle two of an even number', async () => {
    await here.type(...laid([6, 5, 5, 6]));
    expect(cups(await last(ASK)).rateGramsPerMinute).toBeCloseTo(27.5, 9);
  });

  it('goes by the last twelve', async () => {
    await here.type(...laid([15, 15, 15, 15, 15, 15, 15, 15, 15, 15]), ...laid([5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5]));
    const card = await last(ASK);
    expect(cups(card)).toMatchObject({ rateGramsPerMinute: 30 });
    expect(card?.text).toContain('(your last 12 cups)');
  });

  it('goes by no cup that was thrown away, taken back, not weighed, emptied at once or left standing', async () => {
    await here.type(...laid([6, 6]));
    await here.type('/cup start material:shell-paste amount:150 g', '+6m', '/cup discard');
    await here.type('/cup start material:shell-paste', '+6m', '/cup spent');
    await here.type(...laid([0.5]), ...laid([120]), ...laid([6]), '/undo', '/cup discard');
    expect(code(await last(ASK))).toBe('rate-missing');
    await here.type(...laid([6]));
    expect(cups(await last(ASK))).toMatchObject({ rateGramsPerMinute: 25 });
  });

  it('comes from a step, too, that used up several cups together', async () => {
    const cup = '/cup start material:brush-urethane amount:100 g job:lion-head';
    await here.type(START, '[Step done]', '+20m', cup, '+5m', cup, '+5m', cup, '+5m', '/done');
    const card = await last('#bench-2', '/cups material:brush-urethane amount:1 kg');
    // 300 g from 08:20 to 08:35.
    expect(cups(card)).toMatchObject({ rateGramsPerMinute: 20, rateFrom: 'learned' });
    expect(card?.text).toContain('(your last 3 cups)');
  });
});

describe('a cup’s mass', () => {
  it('shortens the pot life that a mix and a cup are told of', async () => {
    await loadOwn(here.type);
    const [between, beyond, below] = await here.type(
      '/mix material:ledge-paste amount:300 g',
      '/mix material:ledge-paste amount:800 g',
      '/mix material:ledge-paste amount:60 g',
    );
    expect(between?.text).toContain('Use within 8 min at 23 °C (for 300 g, read between the sheet’s values).');
    expect(beyond?.text).toContain(
      'Use within 6 min at 23 °C (so says the sheet, of 500 g, the most that it gives; more in one cup goes off sooner).',
    );
    expect(below?.text).toContain('Use within 10 min at 23 °C (so says the sheet, of 100 g, the least that it gives).');
    const warm = await last('/temp log value:33 C', '/mix material:ledge-paste amount:300 g');
    expect(warm?.text).toContain('Use within 4 min at 33 °C (8 min at 23 °C for 300 g, read between the sheet’s values).');
  });

  it('is kept with the cup at the data sheet’s temperature', async () => {
    await loadOwn(here.type);
    const pings = await here.type('/cup start material:ledge-paste amount:300 g', '+4m', '/temp log value:33 C', '+10m');
    // 8 min at 23 °C: half of it gone by 08:04, and the rest goes twice as fast.
    expect(pings.flatMap((each) => (ping(each)?.kind === 'pot-over' ? [each.at.slice(11, 16)] : []))).toEqual(['08:06']);
  });
});

describe('what cannot be planned', () => {
  it.each([
    ['/cups', 'material-missing'],
    ['/cups material:shell-paste', 'amount-missing'],
    ['/cups material:shel-paste amount:2 kg rate:25 g/min', 'unknown-material'],
    ['/cups material:shell-paste amount:2 kg rate:30', 'unit-missing'],
    ['/cups material:shell-paste amount:2 kg rate:fast', 'mass-rate-unreadable'],
    ['/cups material:shell-paste amount:2 kg rate:0 g/min', 'mass-rate-zero'],
    ['/cups material:shell-paste amount:2 rate:25 g/min', 'unit-missing'],
    ['/cups material:shell-paste amount:2 kg cup:big rate:25 g/min', 'amount-unreadable'],
    ['/cups material:shell-paste amount:2 kg', 'rate-missing'],
    ['/cups material:shell-paste amount:2 kg rate:100000 kg/h', 'rate-absurd'],
    ['/cups material:shell-paste amount:2 kg rate:2 g/min', 'too-slow'],
    ['/cups material:shell-paste amount:2 kg rate:2 g/min cup:20 g', 'too-slow'],
    ['/cups material:shell-paste amount:2 kg rate:25 g/min cup:20 g', 'container-too-small'],
    ['/cups material:shell-paste amount:900 kg rate:25 g/min', 'too-many-cups'],
    ['/cups material:shell-paste amount:2 kg job:nobody', 'unknown-job'],
  ])('%s is refused, with a line that works', async (typed, expected) => {
    const refused = await last(typed);
    expect(code(refused)).toBe(expected);
    expect(example(refused)).toMatch(/^\//);
    const answer = await last(example(refused));
    expect(answer?.kind, answer?.text).toBe('reply');
  });

  it('keeps a number that lacked its unit', async () =>
    expect(example(await last('/cups material:shell-paste amount:2 kg rate:30'))).toContain('rate:30 g/min'));

  it('says what would help hands that are too slow', async () =>
    expect((await last('/cups material:shell-paste amount:2 kg rate:2 g/min'))?.text).toMatch(
      /a second pair of hands, a slower material, a cooler room/,
    ));

  it.each([
    ['10 C', 'no flame or hot plate under a pot'],
    ['35 C', 'Bring room and material into that range as its sheet says'],
  ])('trusts no clock at %s', async (celsius, help) => {
    const refused = await last(`/temp log value:${celsius}`, '/cups material:shell-paste amount:2 kg rate:25 g/min');
    expect(code(refused)).toBe('outside-usable');
    expect(refused?.text).toContain('made for 15 to 32 °C');
    expect(refused?.text).toContain(help);
    await here.type(example(refused));
    expect((await last('/cups material:shell-paste amount:2 kg rate:25 g/min'))?.kind).toBe('reply');
  });
});
