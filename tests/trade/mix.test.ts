import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallestBatchGrams, weigh } from '../../src/trade/mix.ts';
import { roundParts } from '../../src/trade/rounding.ts';
import { ask, good, gramsOf, mixOf, refused, SCALE, words } from './asks.ts';
import { ab, material, part } from './example.ts';

/** The definition of the error, written another way: over all pairs of a largest part and any other. */
const errorBy = (amounts: readonly number[], shares: readonly number[]) =>
  100 *
  Math.max(
    0,
    ...shares.flatMap((largest, ref) =>
      largest < Math.max(...shares)
        ? []
        : shares.map((share, i) => Math.abs(((amounts[i] as number) * largest) / ((amounts[ref] as number) * share) - 1)),
    ),
  );
const shares = fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 2, maxLength: 3 });
const step = fc.constantFrom(0.1, 0.5, 1, 2, 5);
const named = (list: readonly number[]) => material(list.map((share, i) => part('ABC'[i] as string, share)));

describe('weighing out', () => {
  it('the chosen steps are as good as any beside them', () => {
    fc.assert(
      fc.property(shares, step, fc.integer({ min: 1, max: 3000 }), fc.integer({ min: -1, max: 1 }), (list, by, wish, anchor) => {
        const held = anchor < 0 ? null : anchor;
        const chosen = roundParts(wish, list, by, held);
        const whole = list.reduce((sum, share) => sum + share, 0);
        const count = (i: number) => Math.round((chosen[i] as number) / by);
        const scale = held === null ? 1 : (count(held) * by * whole) / ((list[held] as number) * wish);
        for (const [i, amount] of chosen.entries()) {
          expect(amount).toBeGreaterThan(0);
          expect(amount).toBe(Number(amount.toFixed(1)));
          expect(Math.abs(amount - (wish * scale * (list[i] as number)) / whole)).toBeLessThan(by * (1 + 1e-9));
        }
        const near = (i: number) => {
          if (i === held) return [count(i)];
          const ideal = (wish * scale * (list[i] as number)) / whole / by;
          return [-1, 0, 1].map((off) => count(i) + off).filter((n) => n > 0 && Math.abs(n - ideal) < 1 - 1e-6);
        };
        for (const a of near(0))
          for (const b of near(1))
            for (const c of list.length > 2 ? near(2) : [0]) {
              expect(errorBy(chosen, list)).toBeLessThanOrEqual(errorBy([a, b, c].slice(0, list.length), list) + 1e-7);
            }
      }),
    );
  });

  it('parts sum to the total, near the wish, with the error that is claimed, and within tolerance', () => {
    fc.assert(
      fc.property(shares, step, fc.integer({ min: 1, max: 5000 }), (list, stepGrams, over) => {
        const example = named(list);
        const wish = smallestBatchGrams(example, stepGrams) + over;
        const mix = good(weigh(example, ask(`${wish} g`), { ...SCALE, stepGrams }));
        const amounts = example.parts.map(({ name }) => gramsOf(mix, name) as number);
        expect(amounts.reduce((sum, grams) => sum + grams, 0)).toBeCloseTo(mix.totalGrams, 6);
        expect(Math.abs(mix.totalGrams - wish)).toBeLessThan(stepGrams * list.length);
        expect(mix.parts.at(-1)?.scaleReading).toBe(mix.totalGrams);
        expect(mix.ratioErrorPercent).toBeCloseTo(errorBy(amounts, list), 7);
        expect(mix.ratioErrorPercent).toBeLessThanOrEqual(example.tolerancePercent + 1e-9);
      }),
    );
  });

  it('from the smallest batch on, half a step on every part is forgiven; below it, it is not', () => {
    fc.assert(
      fc.property(
        shares,
        step,
        fc.constantFrom(1, 2, 5, 10),
        fc.double({ min: 1, max: 20, noNaN: true }),
        (list, by, tolerancePercent, times) => {
          const smallest = smallestBatchGrams({ ...named(list), tolerancePercent }, by);
          const whole = list.reduce((sum, share) => sum + share, 0);
          const worst = (total: number) => {
            const errors: number[] = [];
            for (let signs = 0; signs < 2 ** list.length; signs += 1) {
              const read = list.map((share, i) => (total * share) / whole + ((signs >> i) & 1 ? by / 2 : -by / 2));
              errors.push(read.some((grams) => grams <= 0) ? Number.POSITIVE_INFINITY : errorBy(read, list));
            }
            return Math.max(...errors);
          };
          expect(worst(smallest * times)).toBeLessThanOrEqual(tolerancePercent + 1e-6);
          expect(worst(smallest - by * 1.001)).toBeGreaterThan(tolerancePercent);
        },
      ),
    );
  });

  it('volume to weight and back', () => {
    const density = fc.double({ min: 0.7, max: 2.5, noNaN: true });
    fc.assert(
      fc.property(
        shares,
        fc.array(density, { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 5000, max: 20_000 }),
        (list, densities, wish) => {
          const example = material(
            list.map((share, i) => part('ABC'[i] as string, share, { gramsPerMillilitre: densities[i] as number })),
            { tolerancePercent: 50 },
          );
          const mix = good(mixOf(example, `${wish} mL`, { scale: { stepGrams: 0.01 } }));
          expect(Math.abs((mix.totalMillilitres as number) / wish - 1)).toBeLessThan(1e-4);
          const poured = good(mixOf(example, `${mix.totalGrams} g`, { by: 'volume', scale: { measureStepMillilitres: 0.01 } }));
          for (const one of poured.parts) expect(Math.abs(one.grams - (gramsOf(mix, one.part) as number))).toBeLessThan(0.2);
        },
      ),
    );
  });
});

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
  ])('%s is refused', (text, code) => expect(refused(mixOf(example, '200 g of B', { additives: text })).code).toBe(code));
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
    ['500 g of C', {}, 'unknown-part'],
    ['500 mL', {}, 'density-missing'],
    ['500 g', { by: 'volume' as const }, 'volume-ratio-missing'],
    ['500 g', { scale: { mostGrams: 400 } }, 'scale-too-small'],
    ['395 g', { scale: { mostGrams: 400 }, additives: '5% fibre' }, 'scale-too-small'],
  ])('%s %o', (amount, more, code) => expect(refused(mixOf(ab(90, 100), amount, more)).code).toBe(code));
});
