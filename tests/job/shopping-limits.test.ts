import { describe, expect, test } from 'vitest';
import type { PlannedStep } from '../../src/job/events.ts';
import { type Shopping, shoppingFor } from '../../src/job/shopping.ts';
import type { ShoppingAsk, ShoppingJob } from '../../src/job/shopping-needs.ts';
import { step } from '../support/given.ts';
import { ab, material, part } from '../trade/example.ts';
import { askFor } from './shopping-ask.ts';

/** A gram of the rubber is a millilitre; the resins lay three tenths of glass (common practice, no source). */
const RUBBER = material([part('A', 90, { gramsPerMillilitre: 1 }), part('B', 100, { gramsPerMillilitre: 1 })], { id: 'rubber' });
const resin = (id: string, family: 'polyester' | 'epoxy') =>
  material(
    [
      part('resin', 100, { gramsPerMillilitre: 1.2, pascalSeconds: 0.5 }),
      part('hardener', 2, { gramsPerMillilitre: 1.2, pascalSeconds: 0.1 }),
    ],
    { id, family, use: ['shell'] },
  );
const PASTE = ab(1, 1, { id: 'paste', use: ['shell'] });
const LIST = [RUBBER, resin('polyester', 'polyester'), resin('epoxy', 'epoxy'), PASTE];
const ask = (more: Partial<ShoppingAsk> = {}) => askFor(LIST, more);
const coat = (grams: number | null, more: Partial<PlannedStep> = {}): PlannedStep =>
  step('coat-1', null, {
    title: 'First coat',
    material: { id: 'rubber', name: 'Rubber' },
    layerMillimetres: 0.5,
    grams,
    ratio: { shares: [90, 100], tolerancePercent: 5 },
    ...more,
  });
const shell = (id: string, grams: number, more: Partial<PlannedStep> = {}) =>
  coat(grams, {
    id: 'shell',
    kind: 'shell',
    material: { id, name: id },
    layerMillimetres: 3,
    ratio: { shares: id === 'paste' ? [1, 1] : [100, 2], tolerancePercent: 30 },
    ...more,
  });
const list = (
  steps: readonly PlannedStep[],
  { poured = [], ...more }: Partial<ShoppingAsk & Pick<ShoppingJob, 'poured'>> = {},
): Shopping => shoppingFor([{ name: 'Owl', steps, areaSquareMetres: 0.4, poured }], ask(more));

describe('glass mat', () => {
  // 1122 g with 10 % waste are 1020 g of resin; 30 % of glass to 70 % makes 437.14 g, with a tenth of off-cuts 480.86 g.
  const whole = (1020 * 3 * 1.1) / 7;

  test('is less by what lies under a cup that is poured', () => {
    const [mats] = list([shell('polyester', 1122)], { poured: [{ grams: 561 }] }).mats;
    expect(mats?.grams).toBeCloseTo(whole / 2, 1);
    expect(mats?.jobs).toMatchObject([{ job: 'Owl', grams: mats?.grams }]);
    // For a later step nothing is poured yet.
    expect(list([coat(190), shell('polyester', 1122)], { poured: [{ grams: 561 }] }).mats[0]?.grams).toBeCloseTo(whole, 1);
  });
  test.each([1, 2, 5, 20, 28.349523125])('goes by the resin that is laid, not by what a scale of %d g makes of it', (stepGrams) =>
    expect(list([shell('polyester', 1122)], { scale: { stepGrams, mostGrams: null } }).mats[0]?.grams).toBeCloseTo(whole, 1),
  );
  test('of two kinds where one of two resins dissolves no binder', () =>
    expect(
      list([shell('polyester', 1122), shell('epoxy', 561)]).mats.map(({ unbound, grams }) => [unbound, Math.round(grams)]),
    ).toEqual([
      [false, 481],
      [true, 240],
    ]));
});

describe('cups', () => {
  // Filled to two thirds, so that each holds half as much again. Multiples of 19 g are weighed out as they are: 9 to 10.
  test.each([
    [15_200, { millilitres: 30_000, count: 1 }],
    [13_338, { millilitres: 30_000, count: 1 }],
    [13_319, { millilitres: 20_000, count: 1 }],
    [22_800, { millilitres: 40_000, count: 1 }],
    [152, { millilitres: 250, count: 1 }],
    [171, { millilitres: 500, count: 1 }],
  ])('of %d g', (grams, expected) => expect(list([coat(grams)]).cups).toEqual([expected]));

  test('what is left of a step after one that is poured takes a smaller one', () =>
    expect(list([coat(190)], { poured: [{ grams: 100 }] }).cups).toEqual([{ millilitres: 250, count: 1 }]));
  test('the smallest first, and last what nobody can tell', () =>
    expect(list([shell('paste', 500), coat(190), coat(57)]).cups).toEqual([
      { millilitres: 100, count: 1 },
      { millilitres: 500, count: 1 },
      { millilitres: null, count: 1 },
    ]));
  test('how much is laid in time makes them smaller, never larger than a batch may be', () => {
    const batches = shell('paste', 250, { mostGrams: 100 });
    const count = (laid: number) =>
      list([batches], { laidInTimeGrams: new Map([['paste', laid]]) }).cups.map((each) => each.count);
    // Three batches of 84 g are 252 g.
    expect([count(500), count(100), count(60)]).toEqual([[3], [3], [5]]);
  });
  test('what is poured, and not laid, goes by its batch alone, and nothing about it is unsure', () => {
    const block = shell('paste', 1000, { layerMillimetres: null });
    expect(list([block], { laidInTimeGrams: new Map([['paste', 130]]) }).cups).toEqual([{ millilitres: null, count: 1 }]);
    expect(list([block]).cupsUnsure).toEqual([]);
    expect(list([coat(190)]).cupsUnsure).toEqual([]);
    expect(list([shell('paste', 1000)]).cupsUnsure).toEqual(['paste']);
  });
});

describe('what is brushed on thinly', () => {
  const handiwork = (id: string, title: string, kind: PlannedStep['kind']) =>
    coat(null, { id, title, kind, material: null, layerMillimetres: null, ratio: null });
  test('is told from the id of a step, too, and not from a coat that only has the word in its name', () => {
    expect(list([handiwork('seal', 'Make the model ready', 'prepare')]).release.map(({ what }) => what)).toEqual(['sealer']);
    expect(list([coat(190, { title: 'Coat over the wax' })]).release).toEqual([]);
  });
});

test('with a size and no amount, it is the density that is missing', () =>
  expect(list([coat(null)]).unknown.map(({ why }) => why)).toEqual(['no-density']));

test('in one cup each part is what a scale of whole grams shows, also where no more may be mixed at once', () => {
  const [rubber] = list([coat(67, { mostGrams: 67 })]).materials;
  // 31.7 and 35.3 g: 32 and 36 were a gram more than may be.
  expect(rubber?.parts).toEqual([
    { part: 'A', grams: 32 },
    { part: 'B', grams: 35 },
  ]);
});
