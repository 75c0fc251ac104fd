import { describe, expect, it } from 'vitest';
import { smallestBatchGrams } from '../../../src/trade/mixing/mix.ts';
import { good, mixOf, refused, words } from '../asks.ts';
import { ab, material, part } from '../example.ts';

describe('the order and the reading', () => {
  const thick = { pascalSeconds: 70 };
  it('the thickest goes first, those of unknown thickness last', () => {
    const example = material([part('A', 1), part('B', 1, { pascalSeconds: 1 }), part('C', 2, thick)]);
    const mix = good(mixOf(example, '400 g'));
    expect(mix.parts.map((one) => [one.part, one.scaleReading])).toEqual([
      ['C', 200],
      ['B', 300],
      ['A', 400],
    ]);
  });
  it('unless the material says otherwise', () => {
    const example = material([part('powder', 100, thick), part('water', 60)], { pourOrder: ['water', 'powder'] });
    expect(good(mixOf(example, '160 g')).parts.map((one) => one.part)).toEqual(['water', 'powder']);
  });
  it('steps of a tenth stay clean', () => {
    const mix = good(mixOf(ab(90, 100), '133.3 g', { scale: { stepGrams: 0.1 } }));
    for (const one of mix.parts) expect(String(one.scaleReading)).toMatch(/^\d+(\.\d)?$/);
  });
});

describe('additives', () => {
  const pigment = { name: 'pigment', of: 'B', leastPercent: 1, mostPercent: 4, usualPercent: 2 };
  const example = ab(80, 100, { additives: [pigment] });
  it.each([
    ['2% pigment', 4, 'B'],
    ['2 % white pigment of A', 3, 'A'],
    ['5% fibre', 18, null],
    ['5 phr fibre', 10, 'B'],
    ['2.5% fibre of a', 4, 'A'],
  ])('%s', (text, grams, of) => {
    const mix = good(mixOf(example, '200 g of b', { additives: text }));
    expect(mix.additives).toMatchObject([{ grams, of, scaleReading: 360 + grams }]);
    expect([mix.totalGrams, mix.cupGrams, mix.anchored]).toEqual([360, 360 + grams, 'B']);
  });
  it.each([
    ['5% pigment', 'additive-out-of-range'],
    ['9 phr pigment', 'additive-out-of-range'],
    ['2% pigmnt', 'additive-unclear'],
    ['2% fibre of C', 'unknown-part'],
    ['0.1% fibre', 'additive-too-small'],
    ['60% fibre', 'additive-out-of-range'],
    ['2% b', 'additive-is-part'],
    ['2% fibre, 3% Fibre', 'additive-twice'],
    ['2% pigment, 1% white pigment', 'additive-twice'],
  ])('%s is refused', (text, code) => expect(refused(mixOf(example, '200 g of B', { additives: text })).code).toBe(code));
});

it('says how far the step of the scale puts an additive off', () => {
  const mix = good(mixOf(ab(80, 100), '180 g', { additives: '0.4% fibre' }));
  expect(mix.additives).toMatchObject([{ grams: 1, offPercent: 38.888889 }]);
});

describe('refusals', () => {
  it('a batch that is too small names one that will do', () => {
    const refusal = refused(mixOf(ab(90, 100), '12 g of B'));
    expect(refusal.code).toBe('batch-too-small');
    expect(good(mixOf(ab(90, 100), refusal.example as string)).ratioErrorPercent).toBeLessThan(5);
  });
  it('a batch that is too large says how many of what size', () => {
    const refusal = refused(mixOf(ab(1, 1, { mostGrams: 1000 }), '2.5 kg'));
    expect(refusal.code).toBe('batch-too-large');
    expect(words(refusal)).toContain('3 equal batches of 834 g');
    expect(refusal.example).toBe('834 g');
  });
  it.each([
    ['5 kg', ab(90, 100), { scale: { mostGrams: 5000 } }],
    ['1 kg', ab(90, 100, { mostGrams: 1000 }), {}],
  ])('%s at that limit is not rounded above it', (amount, example, more) => {
    const wish = Number.parseInt(amount, 10) * 1000;
    expect(good(mixOf(example, amount, more)).totalGrams).toBeLessThanOrEqual(wish);
  });
  it('what is stirred in counts towards the largest batch', () => {
    const refusal = refused(mixOf(ab(1, 1, { mostGrams: 1000 }), '1 kg', { additives: '5% fibre' }));
    expect(refusal.code).toBe('batch-too-large');
    expect(words(refusal)).toContain('with what is stirred in: mix 2 equal batches of 500 g');
  });
  it('no batch beyond the limits is offered for an additive', () => {
    const refusal = refused(mixOf(ab(1, 1, { mostGrams: 800 }), '500 g', { additives: '0.05% fibre' }));
    expect([refusal.code, refusal.example]).toEqual(['additive-too-small', undefined]);
    expect(words(refusal)).toMatch(/I expected a finer scale\.$/);
  });
  it('an ounce scale is spoken to in ounces', () => {
    const refusal = refused(mixOf(ab(90, 100), '20 g', { scale: { stepGrams: 2.8349523125 } }));
    expect(words(refusal)).toMatch(/I expected at least [\d.]+ oz in all/);
  });
  it('next to nothing is not called 0 g', () => {
    const refusal = refused(mixOf(ab(90, 100), '0.0001 g'));
    expect(words(refusal)).toMatch(/^less than 1 g in all/);
    expect(words(refusal)).toContain('each reading can be half a step off');
  });
  it('a material that tolerates nothing still has a smallest batch', () => {
    expect(smallestBatchGrams(ab(1, 1, { tolerancePercent: 0 }), 1)).toBe(
      smallestBatchGrams(ab(1, 1, { tolerancePercent: 0.1 }), 1),
    );
  });
  it.each([
    ['500 g of C', {}, 'unknown-part'],
    ['500 mL', {}, 'density-missing'],
    ['500 g', { by: 'volume' as const }, 'volume-ratio-missing'],
    ['500 g', { scale: { mostGrams: 400 } }, 'scale-too-small'],
    ['395 g', { scale: { mostGrams: 400 }, additives: '5% fibre' }, 'scale-too-small'],
  ])('%s %o', (amount, more, code) => expect(refused(mixOf(ab(90, 100), amount, more)).code).toBe(code));
});

/** Common practice, no source: a heap of powder packs as it likes, so it is weighed; its density is that of the solid. */
describe('a powder', () => {
  const densities = { powder: 2.75, water: 1 };
  const gypsum = (more: Partial<typeof densities> = densities) =>
    material(
      [
        part('powder', 100, { gramsPerMillilitre: more.powder ?? null }),
        part('water', 70, { gramsPerMillilitre: more.water ?? null }),
      ],
      { family: 'gypsum' },
    );

  it.each([
    ['1 kg', 'volume', undefined],
    ['0.4 L', 'volume', undefined],
    ['1 kg of powder', 'volume', undefined],
    ['400 mL of powder', 'weight', '500 g of powder'],
    ['400 mL of powder', 'volume', '500 g of powder'],
  ] as const)('%s by %s is refused', (amount, by, example) => {
    const refusal = refused(mixOf(gypsum(), amount, { by }));
    expect([refusal.code, refusal.example]).toEqual(['powder-by-volume', example]);
  });

  it('is refused by volume also where no density is known', () =>
    expect(refused(mixOf(gypsum({}), '1 kg', { by: 'volume' })).code).toBe('powder-by-volume'));

  it.each(['1 kg', '0.4 L', '700 mL of water', '1 kg of powder'])('%s by weight is not', (amount) =>
    expect(good(mixOf(gypsum(), amount)).parts).toHaveLength(2),
  );
});
