import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correct } from '../../../src/trade/mixing/correction.ts';
import { ratioErrorPercent } from '../../../src/trade/mixing/mix.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { good, refused } from '../asks.ts';
import { ab, material, part } from '../example.ts';

const limits = { stepGrams: 1, roomGrams: null };
const poured = (...grams: number[]) => grams.map((one, i) => ({ part: 'ABC'[i] as string, grams: one }));

describe('correction', () => {
  it('171 g of A and 200 g of B at 80:100 want 14 g of B', () => {
    const correction = good(correct(ab(80, 100), poured(171, 200), limits));
    expect(correction).toMatchObject({ add: { part: 'B', grams: 14 }, totalGrams: 385, verdict: 'add' });
    expect(correction.errorPercentBefore).toBeCloseTo(6.875, 9);
    expect(correction.errorPercentAfter).toBe(Number((100 * Math.abs(171 / 214 / 0.8 - 1)).toFixed(6)));
  });
  it('within tolerance nothing is added', () => {
    expect(correct(ab(80, 100), poured(162, 200), limits)).toMatchObject({
      add: null,
      adds: [],
      totalGrams: 362,
      verdict: 'good',
    });
  });
  it('a part that is missing altogether', () => {
    expect(correct(ab(80, 100), [{ part: 'a', grams: 160 }], limits)).toMatchObject({
      add: { part: 'B', grams: 200 },
      errorPercentBefore: 100,
      errorPercentAfter: expect.closeTo(0, 9),
    });
  });
  it('what does not fit is still said', () => {
    expect(correct(ab(80, 100), poured(171, 200), { stepGrams: 1, roomGrams: 380 })).toMatchObject({
      add: { part: 'B', grams: 14 },
      verdict: 'too-much',
    });
  });
  it.each([
    [poured(0, 0), 'nothing-poured'],
    [poured(1, 1, 1), 'unknown-part'],
  ])('%o is refused', (cup, code) => expect(refused(correct(ab(80, 100), cup, limits)).code).toBe(code));

  it('where no steps will do beside the over-poured part, the batch is made larger', () => {
    const example = material([part('A', 100), part('B', 50), part('C', 3)], { tolerancePercent: 10 });
    const correction = good(correct(example, poured(20, 10), limits));
    expect(correction).toMatchObject({ verdict: 'add' });
    expect(correction.errorPercentAfter).toBeLessThanOrEqual(10);
    expect(correct(example, poured(20, 10), { stepGrams: 1, roomGrams: 35 })).toMatchObject({ verdict: 'too-much' });
    expect(correct(ab(80, 100), poured(1, 1), limits)).toMatchObject({ verdict: 'add', totalGrams: 9 });
  });
  it('where nothing is tolerated the scale may not be able to do it', () =>
    expect(refused(correct(ab(80, 100, { tolerancePercent: 0 }), poured(1.5, 1.7), limits)).code).toBe('scale-too-coarse'));
  it('a good cup that is over the room is too much', () =>
    expect(correct(ab(80, 100), poured(160, 200), { stepGrams: 1, roomGrams: 300 })).toMatchObject({
      verdict: 'too-much',
      adds: [],
      add: null,
    }));

  it('measured again it is within tolerance, or as good as any whole steps would be', () => {
    const share = fc.integer({ min: 1, max: 100 });
    const cup = fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 60 }));
    fc.assert(
      fc.property(share, share, fc.option(share, { nil: undefined }), cup, (a, b, c, amounts) => {
        const example = material([part('A', a), part('B', b), ...(c === undefined ? [] : [part('C', c)])]);
        const shares = example.parts.map((one) => one.weightShare);
        const before = amounts.slice(0, shares.length);
        fc.pre(before.some((grams) => grams > 0));
        const correction = correct(example, poured(...before), limits);
        if (correction instanceof Refusal) {
          expect(correction.code).toBe('scale-too-coarse');
          return;
        }
        const after = example.parts.map(
          ({ name }, i) => (before[i] as number) + (correction.adds.find((add) => add.part === name)?.grams ?? 0),
        );
        const error = ratioErrorPercent(after, example);
        expect(error).toBeCloseTo(correction.errorPercentAfter, 9);
        if (correction.verdict === 'add') expect(error).toBeLessThanOrEqual(example.tolerancePercent);
        expect(after.reduce((sum, grams) => sum + grams, 0)).toBe(correction.totalGrams);
        if (error <= example.tolerancePercent) return;
        // The part that is over-poured most stays; around what the others lack, no whole step does better.
        const fill = Math.max(...before.map((grams, i) => grams / (shares[i] as number)));
        const ideal = before.map((grams, i) => Math.max(0, fill * (shares[i] as number) - grams));
        const near = (i: number) =>
          i >= shares.length ? [0] : [Math.floor((ideal[i] as number) + 1e-9), Math.ceil((ideal[i] as number) - 1e-9)];
        for (const x of near(0))
          for (const y of near(1))
            for (const z of near(2)) {
              expect(error).toBeLessThanOrEqual(
                ratioErrorPercent(
                  before.map((grams, i) => grams + ([x, y, z][i] as number)),
                  example,
                ) + 1e-7,
              );
            }
      }),
    );
  });
});
