import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { smallestBatchGrams, weigh } from '../../../src/trade/mixing/mix.ts';
import { roundParts } from '../../../src/trade/mixing/rounding.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { ask, good, gramsOf, mixOf, SCALE, words } from '../asks.ts';
import { material, part } from '../example.ts';

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
