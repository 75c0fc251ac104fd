import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, ping, roomEach, START } from '../support/room.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
const labels = (message: MessageObject | undefined) => message?.buttons.map(({ label }) => label);
const example = (message: MessageObject | undefined) => /^For example: (.*)$/m.exec(message?.text ?? '')?.[1] ?? '';

interface Cups {
  material: string;
  totalGrams: number;
  count: number;
  gramsEach: number;
  rateGramsPerMinute: number;
  rateFrom: string;
  potLifeMinutes: number;
  minutesEach: number;
  parts: { part: string; grams: number; scaleReading: number }[];
  clocks: { cup: number; mixAt: string; useBy: string }[];
}
const cups = (message: MessageObject | undefined) => message?.data['cups'] as Cups;

/** Pot lives that make sums easy: a straight line from 10 min of 100 g to 6 min of 500 g. */
const LIST = `materials:
  - id: ledge-paste
    name: A paste of our own
    family: urethane
    use: [shell]
    parts: [{ part: A, density: 1.0 }, { part: B, density: 1.0 }]
    ratio: { weight: { A: 1, B: 1 } }
    tolerance: 5 %
    reference: { temperature: 23 C, mass: 100 g }
    potLife: 10 min
    potLifeByMass: [{ mass: 500 g, potLife: 6 min }]
    cure: { law: q10, q10: 2 }
    hazards: [isocyanate]
    source: an invented example
`;
async function loadOwn() {
  const folder = mkdtempSync(join(tmpdir(), 'coatbell-cups.'));
  writeFileSync(join(folder, 'own.yaml'), LIST);
  const answer = await last(`/material load file:${join(folder, 'own.yaml')}`);
  rmSync(folder, { recursive: true });
  expect(answer?.kind).toBe('reply');
}

describe('/cups', () => {
  it('plans equal cups that are laid in four fifths of their pot life, each with its clock', async () => {
    await loadOwn();
    const card = await last('/cups material:ledge-paste amount:900 g rate:50 g/min');
    // By hand: m = 0.8 × 50 × (11 − m/100) gives 314.3 g; 900 g are 3 cups of 300 g, which last 8 min and take 6.
    expect(card?.title).toBe('3 cups of 300 g, one every 6 min');
    expect(cups(card)).toEqual({
      material: 'ledge-paste',
      totalGrams: 900,
      count: 3,
      gramsEach: 300,
      rateGramsPerMinute: 50,
      rateFrom: 'asked',
      potLifeMinutes: 8,
      minutesEach: 6,
      parts: [
        { part: 'A', grams: 150, scaleReading: 150 },
        { part: 'B', grams: 150, scaleReading: 300 },
      ],
      clocks: [
        { cup: 1, mixAt: '2026-03-02T08:00:00+01:00', useBy: '2026-03-02T08:08:00+01:00' },
        { cup: 2, mixAt: '2026-03-02T08:06:00+01:00', useBy: '2026-03-02T08:14:00+01:00' },
        { cup: 3, mixAt: '2026-03-02T08:12:00+01:00', useBy: '2026-03-02T08:20:00+01:00' },
      ],
    });
    expect(card?.text).toContain('Cup 3: mix at 08:12, use by 08:20.');
    expect(card?.text).toContain('No more than 314 g in one: laid in 6 min, 80 % of the pot life');
    expect(card?.text).toContain('Pot life 8 min at 23 °C (for 300 g, read between the sheet’s values).');
    expect(card?.text).toContain('Isocyanates can sensitise');
    expect(labels(card)).toEqual(['Cup poured']);
  });

  it('plans smaller cups where it is warmer', async () => {
    await loadOwn();
    const card = await last('/temp log value:33 C', '/cups material:ledge-paste amount:900 g rate:50 g/min');
    // Q10 = 2, ten kelvin above: half the pot life. m = 0.8 × 50 × (11 − m/100)/2 gives 183.3 g: 5 cups of 180 g, 4.6 min.
    expect(cups(card)).toMatchObject({ count: 5, gramsEach: 180 });
    expect(cups(card).potLifeMinutes).toBeCloseTo(4.6, 4);
  });

  it('starts the clock of each cup, one button after the other', async () => {
    await loadOwn();
    await here.type('/cups material:ledge-paste amount:900 g rate:50 g/min');
    const first = await last('[Cup poured]');
    expect(first?.data['cup']).toMatchObject({ grams: 300, goodUntil: '2026-03-02T08:08:00+01:00' });
    expect(labels(first)).toEqual(['Cup spent', 'Next cup poured', 'Poured wrong']);
    const second = await last('+6m', '[Cup spent]', '[Next cup poured]');
    expect(second?.data['cup']).toMatchObject({ cup: 'cup-2', goodUntil: '2026-03-02T08:14:00+01:00' });
    const third = await last('[Next cup poured]');
    expect(labels(third)).toEqual(['Cup spent', 'Discard cup', 'Poured wrong']);
  });

  it('lays shell paste in small cups', async () => {
    const card = await last('/cups material:shell-paste amount:2.4 kg rate:25 g/min');
    const { count, gramsEach, minutesEach, potLifeMinutes, clocks } = cups(card);
    // 9 min is the sheet's longest pot life of it: 0.8 × 9 min × 25 g/min = 180 g at the most.
    expect(gramsEach).toBeLessThanOrEqual(180);
    expect(minutesEach).toBeLessThanOrEqual(0.8 * potLifeMinutes + 1e-6);
    // Rounding takes less than a gram from each part of each cup, or adds it.
    expect(Math.abs(count * gramsEach - 2400)).toBeLessThan(2 * count);
    expect(clocks).toHaveLength(count);
    // Four of many, and the last.
    expect(card?.text.match(/^Cup \d+: mix at/gm)).toHaveLength(5);
    expect(card?.text).toContain(`Cup ${count}: mix at`);
  });

  it('keeps to the container, by weight and by volume', async () => {
    expect(cups(await last('/cups shell-paste amount:0,6 kg rate:1,5kg/h cup:120 g'))).toMatchObject({
      count: 5,
      gramsEach: 120,
    });
    // 41 g of 1.23 and 100 g of 1.00 make 133.3 mL: 1.0575 g/mL, so that 100 mL are 105.75 g; 6 cups of 100 g.
    const card = await last('/cups shell-paste amount:600 g rate:25 g/min cup:100 mL');
    expect(cups(card)).toMatchObject({ count: 6, gramsEach: 100 });
    expect(card?.text).toContain('No more than 105 g in one: the container holds no more.');
  });

  it('speaks in ounces to a studio that weighs in them', async () => {
    await here.type('/studio set units:customary scale:0.1 oz');
    const asked = await last('/cups shell-paste amount:3 lb');
    expect(labels(asked)).toEqual(['0.5 oz/min', '1 oz/min', '1.5 oz/min']);
    const card = await last('[1 oz/min]');
    expect(card?.title).toMatch(/^\d+ cups of [\d.]+ oz \([\d.]+ g\), one every \d min$/);
    expect(cups(card).rateGramsPerMinute).toBeCloseTo(28.349523125, 9);
    expect(card?.text).toContain('at 1 oz/min (28.3 g/min)');
    expect((await last('[Cup poured]'))?.data['cup']).toMatchObject({ material: 'shell-paste' });
    const slow = await last('/cups shell-paste amount:3 lb rate:0.05 oz/min');
    expect([code(slow), example(slow)]).toEqual(['too-slow', expect.stringContaining('oz/min')]);
    expect((await last(example(slow)))?.kind).toBe('reply');
  });

  it('raises a small rest to what can be weighed true, and says so', async () => {
    const card = await last('/cups shell-paste amount:20 g rate:20 g/min');
    expect(card?.title).toMatch(/^1 cup of 5\d g, laid in 3 min$/);
    expect(card?.text).toContain('20 g are needed; less than this cannot be weighed true.');
  });
});

describe('what a job’s next step needs', () => {
  const WALL = '/job start name:Wall skin:brush-urethane shell:shell-paste area:2 m2';

  it('is planned from when the step opens, and each cup counts for it', async () => {
    const card = await last(WALL, '[Step done]', '/cups rate:25 g/min');
    // 2 m² × 0.56 mm × 1.125 g/mL and 10 % waste: 1386 g; 20 min × 0.8 × 25 g/min = 400 g: 4 cups of 346.5 g.
    expect(cups(card)).toMatchObject({ material: 'brush-urethane', count: 4 });
    expect(Math.abs(cups(card).gramsEach - 346.5)).toBeLessThan(1);
    // Seal, done at 08:00, waits for 15 min.
    expect(cups(card).clocks[0]?.mixAt).toBe('2026-03-02T08:15:00+01:00');
    expect(card?.text).toContain('for First coat, Wall:');
    await here.type('+20m');
    const first = await last('[Cup poured]');
    expect(first?.data['cup']).toMatchObject({ job: 'wall' });
    expect(code(await last('[Cup poured]'))).toBe('already-poured');
    const rest = await last('/cups rate:25 g/min');
    expect(cups(rest)).toMatchObject({ count: 3 });
    expect(cups(rest).clocks.map(({ cup }) => cup)).toEqual([2, 3, 4]);
    const fourth = await last('[Cup poured]', '[Next cup poured]', '[Next cup poured]');
    expect(labels(fourth)).toEqual(['Coat done', 'Cup spent', 'Poured wrong']);
    expect(code(await last('/cups rate:25 g/min'))).toBe('all-poured');
  });

  it('is nobody’s guess where the job has no area, or where the material is another one', async () => {
    const bare = '/job start name:Owl skin:brush-urethane shell:shell-paste';
    const refused = await last(bare, '[Step done]', '/cups rate:25 g/min');
    expect(code(refused)).toBe('amount-missing');
    expect((await last(example(refused)))?.kind).toBe('reply');
    expect(code(await last('/cups material:shell-paste rate:25 g/min'))).toBe('amount-missing');
  });
});

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
    await loadOwn();
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
    await loadOwn();
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
    ['10 C', 'Warm the room and the material'],
    ['35 C', 'Let the room and the material cool down'],
  ])('trusts no clock at %s', async (celsius, help) => {
    const refused = await last(`/temp log value:${celsius}`, '/cups material:shell-paste amount:2 kg rate:25 g/min');
    expect(code(refused)).toBe('outside-usable');
    expect(refused?.text).toContain('made for 15 to 32 °C');
    expect(refused?.text).toContain(help);
    await here.type(example(refused));
    expect((await last('/cups material:shell-paste amount:2 kg rate:25 g/min'))?.kind).toBe('reply');
  });
});
