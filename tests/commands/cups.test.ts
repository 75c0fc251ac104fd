import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { code, example, labels, roomEach } from '../support/room.ts';
import { cups, loadOwn } from './planned-cups.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);

describe('/cups', () => {
  it('plans equal cups that are laid in four fifths of their pot life, each with its clock', async () => {
    await loadOwn(here.type);
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
    await loadOwn(here.type);
    const card = await last('/temp log value:33 C', '/cups material:ledge-paste amount:900 g rate:50 g/min');
    // Q10 = 2, ten kelvin above: half the pot life. m = 0.8 × 50 × (11 − m/100)/2 gives 183.3 g: 5 cups of 180 g, 4.6 min.
    expect(cups(card)).toMatchObject({ count: 5, gramsEach: 180 });
    expect(cups(card).potLifeMinutes).toBeCloseTo(4.6, 4);
  });

  it('starts the clock of each cup, one button after the other', async () => {
    await loadOwn(here.type);
    await here.type('/cups material:ledge-paste amount:900 g rate:50 g/min');
    const first = await last('[Cup poured]');
    expect(first?.data['cup']).toMatchObject({ grams: 300, goodUntil: '2026-03-02T08:08:00+01:00' });
    expect(labels(first)).toEqual(['Next cup poured', 'Cup spent', 'Poured wrong']);
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
    expect(cups(card).rateGramsPerMinute).toBeCloseTo(28.349523125, 6);
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

  it('is planned from now on where no clock can tell when the step opens', async () => {
    const card = await last(
      ...[WALL, '[Step done]', '+20m', '[Coat done]', '/temp log value:8 C', '+40m', '/temp log value:23 C'],
      '/cups rate:25 g/min',
    );
    // 40 min at 8 °C are 14 of the 45 that the coat takes: by the clock it would open at 09:31.
    expect(cups(card).clocks[0]?.mixAt).toBe('2026-03-02T09:00:00+01:00');
  });

  it('is all there where no more than 2 % of it are missing', async () => {
    const pour = (grams: number) => `/cup start material:brush-urethane amount:${grams} g job:wall`;
    // Of 1386 g, 2 % are 27.7 g: with 1357 g there are 29 to come, with 1360 g only 26.
    const rest = await last(WALL, '[Step done]', '+20m', pour(700), '+1m', pour(657), '/cups rate:25 g/min');
    expect([rest?.kind, cups(rest)?.count]).toEqual(['reply', 1]);
    const other = WALL.replace('Wall', 'Ceiling');
    const ceiling = (grams: number) => pour(grams).replace('wall', 'ceiling');
    const none = await last(
      ...['#two', other, '[Step done]', '+20m', ceiling(700), '+1m', ceiling(660), '/cups job:ceiling rate:25 g/min'],
    );
    expect(code(none)).toBe('all-poured');
  });

  it('is nobody’s guess where the job has no area, or where the material is another one', async () => {
    const bare = '/job start name:Owl skin:brush-urethane shell:shell-paste';
    const refused = await last(bare, '[Step done]', '/cups rate:25 g/min');
    expect(code(refused)).toBe('amount-missing');
    expect((await last(example(refused)))?.kind).toBe('reply');
    expect(code(await last('/cups material:shell-paste rate:25 g/min'))).toBe('amount-missing');
  });
});
