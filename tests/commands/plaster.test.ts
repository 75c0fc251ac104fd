import { describe, expect, it } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { loadMaterials } from '../support/own-materials.ts';
import { code, example, offered, roomEach } from '../support/room.ts';

const here = roomEach();

const last = async (...lines: string[]): Promise<MessageObject | undefined> => (await here.type(...lines)).at(-1);
interface Plaster {
  material: string;
  waterPerHundred: number;
  parts: { part: string; grams: number; scaleReading: number }[];
  batches: number;
  powderGrams: number;
  waterGrams: number;
  slurryMillilitres: number;
  pieceMillilitres: number;
  wetGrams: number;
  dryGrams: number;
  evaporatesGrams: number;
  hydrationGrams: number;
}
const plaster = (message: MessageObject | undefined) => message?.data['plaster'] as Plaster;

describe('a mould of 0.4 L', () => {
  it('is filled with the water first, and what stays in the bucket on top', async () => {
    const card = await last('/plaster 0,4 L');
    // 440 mL; 100 g of powder of 2.75 g/mL and 70 g of water make 106.36 mL: 413.7 g and 289.6 g, by hand.
    expect(card?.title).toBe('Casting plaster: 413 g powder into 289 g (289 mL) water');
    const lines = card?.text.split('\n') ?? [];
    const at = (words: string) => lines.findIndex((each) => each.includes(words));
    expect(at('1. water: 289 g')).toBeGreaterThanOrEqual(0);
    expect(at('2. powder: 413 g, sifted into the water')).toBe(at('1. water') + 1);
    expect(card?.text).toContain('400 mL, and 10 % for what stays in the bucket');
    expect(plaster(card).parts).toMatchObject([
      { part: 'water', grams: 289, scaleReading: 289 },
      { part: 'powder', grams: 413, scaleReading: 702 },
    ]);
  });

  it('weighs what is in the mould, wet and dry, without the waste', async () => {
    const { wetGrams, dryGrams, evaporatesGrams, hydrationGrams, pieceMillilitres } = plaster(await last('/plaster 0.4 L'));
    // 376.07 g of powder and 263.25 g of water in 400 mL; 18.62 % of the powder's weight is taken up; by hand.
    expect(pieceMillilitres).toBeCloseTo(400, 6);
    expect(wetGrams).toBeCloseTo(639.3, 1);
    expect(hydrationGrams).toBeCloseTo(70.0, 1);
    expect(dryGrams).toBeCloseTo(446.1, 1);
    expect(evaporatesGrams).toBeCloseTo(193.2, 1);
    expect((await last('/plaster 0.4 L'))?.text).toContain('Dry at 446 g');
  });

  it('starts its clock with all that was mixed', async () => {
    const cup = await last('/plaster 0.4 L', '[Cup poured]');
    expect(cup?.data['cup']).toMatchObject({ material: 'casting-plaster', grams: 702, goodUntil: '2026-03-02T08:08:00+01:00' });
  });
});

describe('the water', () => {
  it.each(['60:100', '60', '0,6', '600 ml to 1 kg', '100 powder to 60 water'])('may be said as %s', async (water) => {
    const card = await last(`/plaster amount:1 kg of powder water:${water}`);
    expect(card?.title).toBe('Casting plaster: 1000 g powder into 600 g (600 mL) water');
    expect(card?.text).toContain('60 of water to 100 of powder by weight (70 says the sheet; less is stiffer to pour)');
  });

  it('is never less than what setting takes up', async () => {
    const refused = await last('/plaster amount:1 kg water:15');
    expect(code(refused)).toBe('water-too-little');
    expect(refused?.text).toContain('18.6');
    expect((await last(example(refused) ?? ''))?.kind).toBe('reply');
  });
});

describe('an amount', () => {
  it('of dry plaster comes out as heavy as was asked', async () => {
    const card = await last('/plaster amount:1.2 kg dry material:gypsum-stone water:30 ml per 100 g');
    expect(plaster(card)).toMatchObject({ material: 'gypsum-stone', waterPerHundred: 30 });
    expect(plaster(card).dryGrams).toBeCloseTo(1200, 6);
    expect(card?.text).toContain('Dry at 1200 g');
  });

  it('of powder is poured whole, unless somebody says what is not', async () => {
    expect(plaster(await last('/plaster 1 kg')).dryGrams).toBeCloseTo(1186.2, 1);
    expect(plaster(await last('/plaster amount:1 kg waste:25 %')).dryGrams).toBeCloseTo(1186.2 / 1.25, 0);
  });

  it('that is too much for one batch is split, and weighed one after the other where the scale needs that', async () => {
    const card = await last('/plaster 2 gal');
    expect(card?.title).toMatch(/^Casting plaster: 2 batches, each 39\d\d g powder/);
    expect(card?.text).toContain('weighed by itself');
    expect(card?.text).not.toContain('scale shows');
    const { batches, powderGrams, parts } = plaster(card);
    expect(parts.map(({ grams, scaleReading }) => grams === scaleReading)).toEqual([true, true]);
    expect(powderGrams).toBe(batches * (parts[1]?.grams ?? 0));
  });

  it('that is too little becomes what can be weighed', async () => {
    const card = await last('/plaster 20 ml');
    expect(card?.text).toContain('35.2 g are needed; less than this cannot be weighed true.');
    expect((await last('/plaster amount:20 ml scale:0.1 g'))?.text).not.toContain('needed');
  });
});

describe('what is meant', () => {
  it.each([
    ['plaster', 'casting-plaster'],
    ['stone', 'gypsum-stone'],
    ['Hard', 'gypsum-stone'],
  ])('by %s is the one gypsum with that word in its name', async (typed, id) =>
    expect(plaster(await last(`/plaster amount:0.4 L material:${typed}`)).material).toBe(id),
  );

  it('is asked where two have the word', async () => {
    const one = (id: string, name: string) => `  - id: ${id}
    name: ${name}
    family: gypsum
    use: [casting]
    parts: [{ part: powder, density: 2.75 }, { part: water, density: 1.00 }]
    ratio: { weight: { powder: 100, water: 70 } }
    tolerance: 5 %
    reference: { temperature: 20 C }
    potLife: 8 min
    hazards: [dust, hot-plaster]
    source: an invented example
`;
    await loadMaterials(here.type, `materials:\n${one('ledge-soft', 'Soft alabaster')}${one('ledge-hard', 'Hard alabaster')}`);
    const asked = await last('/plaster amount:0.4 L material:alabaster');
    expect([code(asked), asked?.buttons.map(({ label }) => label)]).toEqual([
      'which-gypsum',
      ['Soft alabaster', 'Hard alabaster'],
    ]);
    expect(plaster(await last('[Hard alabaster]')).material).toBe('ledge-hard');
    // Its list names no pour order: the water goes first all the same.
    expect((await last('/mix material:ledge-hard amount:1 kg'))?.text).toMatch(/1\. water: .*\n.*2\. powder/);
  });
});

it('says what a scale that carries nearly nothing can do', async () => {
  const refused = await last('/studio set carries:11 g', '/plaster 0.4 L');
  expect(code(refused)).toBe('scale-too-coarse');
  expect(refused?.text).toContain('11 g');
  expect(plaster(await last(example(refused) ?? '')).batches).toBeGreaterThan(1);
});

it('can be put right only in the sheet’s own ratio', async () => {
  const labels = async (typed: string) => (await last(typed))?.buttons.map(({ label }) => label);
  expect(await labels('/plaster 0.4 L')).toEqual(['Cup poured', 'Poured wrong']);
  expect(await labels('/plaster amount:0.4 L water:60')).toEqual(['Cup poured']);
});

it('reads well in a customary studio', async () => {
  const card = await last('/studio set units:customary', '/plaster 0.5 gal');
  expect(card?.title).toBe('Casting plaster: 1957 g (4 lb 5 oz) powder into 1370 g (3 lb 0.3 oz) water');
  expect(card?.text).toContain('or 46.3 fl oz (1.37 L), into the bucket');
  expect(card?.text).toContain('It makes 0.55 gal (2.08 L): 0.5 gal (1.89 L), and 10 %');
});

it('shows the caution of dust in full once a day, and the heat each time', async () => {
  const [first, second, ownMix] = await here.type('/plaster 0.4 L', '/plaster 0.4 L', '/mix casting-plaster amount:1 kg');
  expect(first?.text).toContain('Fine dust harms the lungs');
  expect(second?.text).not.toContain('Fine dust harms the lungs');
  for (const card of [first, second]) expect(card?.text.match(/never round a hand/g)).toHaveLength(1);
  expect(ownMix?.text).not.toContain('Fine dust harms the lungs');
});

it('warns where the bench is too cold', async () => {
  expect((await last('/temp log value:3 C', '/plaster 0.4 L'))?.text).toContain('Casting plaster is made for 5 to 38 °C');
});

describe('what is typed with gloves on', () => {
  it.each([
    ['/plaster amount:0.4', 'unit-missing'],
    ['/plaster amount:2 of', 'unit-missing'],
    ['/plaster amount:70:100', 'ratio-not-amount'],
    ['/plaster amount:5 kg cheese', 'plaster-amount-unreadable'],
    ['/plaster amount:2 L powder', 'powder-by-volume'],
    ['/plaster amount:0,4 L water:wet', 'water-unreadable'],
    ['/plaster amount:0,4 L water:-2', 'number-negative'],
    ['/plaster amount:0,4 L water:1,200', 'number-ambiguous'],
    ['/plaster amount:0,4 L waste:300 %', 'share-out-of-range'],
    ['/plaster amount:0,4 L scale:fine', 'amount-unreadable'],
    ['/plaster amount:0,4 L scale:5 mL', 'bad-scale'],
    ['/plaster amount:0,4 L material:casting-plastr', 'unknown-material'],
    ['/plaster amount:0,4 L material:xyz', 'unknown-material'],
    ['/plaster amount:0,4 L material:brush-urethane', 'not-gypsum'],
  ])('%s is refused as %s, with a line that works', async (typed, expected) => {
    const answer = await offered(here.type, typed, expected);
    expect(plaster(answer).batches).toBe(1);
  });

  it('offers the gypsums instead of what is none', async () => {
    const refused = await last('/plaster amount:0,4 L water:0,6 material:brush-urethane');
    expect(refused?.buttons.map(({ label }) => label)).toEqual(['Casting plaster', 'Hard gypsum stone']);
    expect(plaster(await last('[Hard gypsum stone]'))).toMatchObject({ material: 'gypsum-stone', waterPerHundred: 60 });
  });
});
