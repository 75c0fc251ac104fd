import { describe, expect, test } from 'vitest';
import { shoppingCard } from '../../src/cards/shopping-card.ts';
import { plainText } from '../../src/chat/plain.ts';
import type { MaterialToBuy, Shopping } from '../../src/job/shopping.ts';
import { studio } from '../support/studio.ts';

const read = (text: Parameters<typeof plainText>[0]) => plainText(text, { zone: 'Etc/UTC', now: 0 });
const shown = (more: Partial<Shopping>, units: 'metric' | 'customary' = 'metric') => {
  const empty: Shopping = { jobs: ['Owl'], materials: [], release: [], mats: [], cups: [], cupsUnsure: [], unknown: [] };
  const card = shoppingCard({ shopping: { ...empty, ...more }, studio: studio({ units }) });
  return { title: read(card.title), lines: card.lines.map(read) };
};
const stuff = (name: string, grams: number, jobs: MaterialToBuy['jobs'] = [{ job: 'Owl', grams }]): MaterialToBuy => ({
  material: name.toLowerCase(),
  name,
  grams,
  parts: [
    { part: 'A', grams: grams * 0.4 },
    { part: 'B', grams: grams * 0.6 },
  ],
  jobs,
});

describe('the title', () => {
  const four = ['Rubber', 'Paste', 'Resin', 'Plaster'].map((name) => stuff(name, 50));
  test('names three materials, and of four the first three', () => {
    expect(shown({ materials: four.slice(0, 3) }).title).toBe('Shopping for Owl: 50 g of Rubber, 50 g of Paste, 50 g of Resin');
    expect(shown({ materials: four }).title).toBe('Shopping for Owl: 50 g of Rubber, 50 g of Paste, 50 g of Resin and 1 more');
  });
  test('says whether nothing is needed, or nothing can be told', () => {
    expect(shown({})).toEqual({ title: 'Owl: nothing more to mix', lines: [] });
    const unknown = [{ job: 'Owl', step: 'First coat', name: 'Rubber', why: 'no-size' as const }];
    expect(shown({ unknown }).title).toBe('Shopping for Owl: no amount can be told yet');
  });
});

describe('whose it is', () => {
  const shared = stuff('Rubber', 50, [
    { job: 'Owl', grams: 20 },
    { job: 'Cat', grams: 30 },
  ]);
  test('of two jobs each has its share', () => {
    const { title, lines } = shown({ jobs: ['Owl', 'Cat'], materials: [shared] });
    expect(title).toBe('Shopping for 2 jobs: 50 g of Rubber');
    expect(lines).toEqual([
      'Rubber: A 20 g, B 30 g.',
      'Owl: 20 g of Rubber.',
      'Cat: 30 g of Rubber.',
      expect.stringContaining('waste counted'),
    ]);
  });
  test('of one alone nothing more is said', () => expect(shown({ materials: [stuff('Rubber', 50)] }).lines).toHaveLength(2));
  test('a step that lacks the same as others is told once', () => {
    const of = (job: string, step: string) => ({ job, step, name: 'Rubber', why: 'no-density' as const });
    const unknown = [of('Owl', 'First coat'), of('Owl', 'Second coat'), of('Cat', 'First coat')];
    expect(shown({ unknown, jobs: ['Owl', 'Cat'] }).lines).toEqual([
      'First coat and 1 more, Owl: how much Rubber is not known, its size or its densities do not tell.',
      'First coat, Cat: how much Rubber is not known, its size or its densities do not tell.',
    ]);
  });
});

describe('what is brushed on', () => {
  const line = (millilitres: number | null, units: 'metric' | 'customary' = 'metric') =>
    shown({ release: [{ what: 'wax', millilitres, jobs: ['Owl'], unsized: [] }] }, units).lines[0];
  test.each([
    [24, '24 mL'],
    [99, '99 mL'],
    [101, '110 mL'],
    [234, '240 mL'],
  ])('%d mL, in tens where it is much', (millilitres, expected) =>
    expect(line(millilitres)).toBe(`About ${expected} of wax, in two thin coats.`),
  );
  // A US fluid ounce is the 128th part of a gallon of 231 cubic inches.
  const ounces = (count: number) => (count * 231 * 25.4 ** 3) / 1000 / 128;
  test.each([
    [15.5, /^About 16 fl oz /],
    [16.5, /^About 20 fl oz /],
    [20.5, /^About 24 fl oz /],
  ])('%d fl oz, in fours where it is more than a pint', (count, expected) =>
    expect(line(ounces(count), 'customary')).toMatch(expected),
  );
  test('how much of it, nobody can tell without a size', () =>
    expect(line(null)).toBe('Also wax; how much is not known, no size was given.'));
});

test('glass mat by tenths of a square metre, rounded up', () => {
  const mat = (unbound: boolean) => ({ unbound, gramsPerSquareMetre: 450, squareMetres: 1.01, grams: 455, jobs: [] });
  const { lines } = shown({ mats: [mat(false), mat(true)] });
  expect(lines[0]).toMatch(/^Glass mat: 1\.1 m² of /);
  expect(lines[1]).toMatch(/^Glass mat, stitched or unbound .*: 1\.1 m² of /);
});

test('cups that may have to be smaller are named, and only those', () => {
  const cups = [{ millilitres: 500, count: 2 }];
  expect(shown({ cups }).lines).toEqual(['Cups: 2 of 500 mL.']);
  expect(shown({ cups, cupsUnsure: ['Paste'] }).lines[1]).toMatch(/^Paste may need smaller cups/);
});
