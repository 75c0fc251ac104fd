import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallestBatchGrams, weigh } from '../../../src/trade/mixing/mix.ts';
import { roundParts } from '../../../src/trade/mixing/rounding.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { ask, good, gramsOf, mixOf, refused, SCALE, words } from '../asks.ts';
import { ab, material, part } from '../example.ts';

/** The definition of the error, written another way: over all pairs, each way round where the reference is not the smaller. */
const errorBy = (amounts: readonly number[], shares: readonly number[]) =>
  100 *
  Math.max(
    0,
    ...shares.flatMap((larger, ref) =>
      shares.map((share, i) =>
        share > larger ? 0 : Math.abs(((amounts[i] as number) * larger) / ((amounts[ref] as number) * share) - 1),
      ),
    ),
  );
/** Results are handed out with six decimals. */
const six = (value: number) => Number(value.toFixed(6));
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
        expect(mix.ratioErrorPercent).toBe(six(mix.ratioErrorPercent));
        expect(Math.abs(mix.ratioErrorPercent - errorBy(amounts, list))).toBeLessThan(5.1e-7);
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

  it('no steps below and above the ideal beat the chosen ones, nor equal them and are nearer to the wish', () => {
    const three = fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 3, maxLength: 3 });
    const key = (amounts: readonly number[], list: readonly number[], wish: number) => {
      const pairs = [
        [0, 1],
        [0, 2],
        [1, 2],
      ].map((pair) =>
        errorBy(
          pair.map((i) => amounts[i] as number),
          pair.map((i) => list[i] as number),
        ),
      );
      const total = amounts.reduce((sum, grams) => sum + grams, 0);
      return [Math.max(...pairs), pairs.reduce((sum, error) => sum + error, 0), Math.abs(total - wish)];
    };
    fc.assert(
      fc.property(three, fc.integer({ min: 30, max: 3000 }), (list, wish) => {
        const whole = list.reduce((sum, share) => sum + share, 0);
        const near = list.map((share) => {
          const floor = Math.floor((wish * share) / whole + 1e-9);
          return [floor, Math.ceil((wish * share) / whole - 1e-9)].map((one) => Math.max(1, one));
        });
        const chosen = key(roundParts(wish, list, 1), list, wish);
        for (const a of near[0] as number[])
          for (const b of near[1] as number[])
            for (const c of near[2] as number[]) {
              const other = key([a, b, c], list, wish);
              const differs = other.findIndex((one, i) => Math.abs(one - (chosen[i] as number)) > 1e-7);
              if (differs >= 0) expect(other[differs]).toBeGreaterThan(chosen[differs] as number);
            }
      }),
    );
  });

  it('what a refusal offers is weighed out when it is typed back, and nothing is above a limit or out of tolerance', () => {
    const densities = fc.array(fc.double({ min: 0.7, max: 2.5, noNaN: true }), { minLength: 3, maxLength: 3 });
    const scales = fc.record({
      stepGrams: fc.constantFrom(0.1, 0.5, 1, 2, 5, 2.8349523125),
      mostGrams: fc.constantFrom(null, 500, 5000, 4535.9237),
      measureStepMillilitres: fc.constantFrom(1, 5),
    });
    fc.assert(
      fc.property(
        shares,
        densities,
        fc.record({ tolerancePercent: fc.constantFrom(0, 2, 5, 10), mostGrams: fc.constantFrom(null, 1000, 1234.5) }),
        scales,
        fc.oneof(fc.integer({ min: 1, max: 1500 }), fc.integer({ min: 1, max: 12_000 }), fc.constantFrom(500, 1000, 5000)),
        fc.constantFrom(' g', ' g of A', ' mL', ' g of B'),
        fc.constantFrom('', '5 % fibre', '0.1 % fibre', '3 % fibre of A, 2 phr chalk'),
        fc.constantFrom('weight' as const, 'volume' as const),
        (list, density, more, scale, wish, unit, additives, by) => {
          const parts = list.map((share, i) => part('ABC'[i] as string, share, { gramsPerMillilitre: density[i] as number }));
          const example = material(parts, more);
          const mix = mixOf(example, `${wish}${unit}`, { by, additives, scale });
          if (mix instanceof Refusal) {
            if (mix.example === undefined) return;
            const offered = good(mixOf(example, mix.example, { by, additives, scale }));
            if (mix.code !== 'batch-too-small') return;
            if (by === 'weight') expect(offered.totalGrams).toBeGreaterThanOrEqual(offered.smallestBatchGrams - 1e-5);
            const [, claimed, litres] = /(?:at least|such as) ([\d.]+) (?:mL|(L)) in all/.exec(words(mix)) ?? [];
            if (by === 'volume')
              expect(offered.totalMillilitres).toBeGreaterThanOrEqual(Number(claimed) * (litres ? 1000 : 1) - 0.51);
            return;
          }
          expect(mix.cupGrams).toBeLessThanOrEqual((scale.mostGrams ?? Number.POSITIVE_INFINITY) + 1e-5);
          expect(mix.cupGrams).toBeLessThanOrEqual((more.mostGrams ?? Number.POSITIVE_INFINITY) + 1e-5);
          if (more.tolerancePercent > 0) expect(mix.ratioErrorPercent).toBeLessThanOrEqual(more.tolerancePercent + 1e-6);
        },
      ),
      { numRuns: 500 },
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
