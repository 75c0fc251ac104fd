import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it, test } from 'vitest';
import { parseFraction } from '../../../src/trade/laminate/fraction.ts';
import { parseMats, readingsOf } from '../../../src/trade/laminate/mats.ts';
import { good, refused } from '../asks.ts';

const math = create(all ?? {});
const rows = (text: string) =>
  good(parseMats(text)).map(({ count, gramsPerSquareMetre, make }) => [count, Math.round(gramsPerSquareMetre), make]);

describe('mats', () => {
  it.each([
    ['2 x 450 g/m2, 1 x 300 g/m2', [2, 450, null], [1, 300, null]],
    ['2x450g/m2,1x300g/m2', [2, 450, null], [1, 300, null]],
    ['2 × 450 g/m² and 300 gsm', [2, 450, null], [1, 300, null]],
    ['two layers of 450 g/m2 and one layer of 300', [2, 450, null], [1, 300, null]],
    ['450 g/m^2 x 2 + 300g', [2, 450, null], [1, 300, null]],
    ['450 x 2', [2, 450, null]],
    ['450', [1, 450, null]],
    // A bare number from 80 on can only be grams.
    ['80', [1, 80, null]],
    ['79 g', [1, 79, null]],
    ['3 layers 450 grams per square metre', [3, 450, null]],
    ['2 mats 450', [2, 450, 'mat']],
    ['450 g/m2 csm twice', [2, 450, 'mat']],
    ['3 plies of 200 g/m2 twill carbon', [3, 200, 'cloth']],
    ['2 x 0,45 kg/m2', [2, 450, null]],
    ['2 x 1,5 oz mat', [2, 458, 'mat']],
    ['1 1/2 oz chopped strand mat', [1, 458, 'mat']],
    ['2 x 1.5 oz/sq ft', [2, 458, 'mat']],
    ['2 x 1.5 ounces per square foot', [2, 458, 'mat']],
    ['6 oz woven cloth', [1, 203, 'cloth']],
    ['4 x 6 oz/sq yd', [4, 203, 'cloth']],
  ])('%s', (typed, ...expected) => expect(rows(typed)).toEqual(expected));

  it.each([
    ['2 x 1.5 oz', 'ounces-unclear'],
    ['1 x 450 g/m2, 6 ounces', 'ounces-unclear'],
    ['1.5', 'unit-missing'],
    ['2 x 25', 'unit-missing'],
    ['79', 'unit-missing'],
    ['2 450 g/m2', 'areal-weight-out-of-range'],
    ['450 oz/sq ft', 'areal-weight-out-of-range'],
    ['2.5 x 450 g/m2', 'layers-out-of-range'],
    ['0 x 450 g/m2', 'layers-out-of-range'],
    ['500 x 450 g/m2', 'layers-out-of-range'],
    ['50 x 450 g/m2, 50 x 300 g/m2', 'layers-out-of-range'],
    ['two layers', 'mats-unreadable'],
    ['2 x', 'mats-unreadable'],
    ['thick', 'mats-unreadable'],
    ['', 'mats-unreadable'],
  ])('%s is refused as %s, with something that would do', (typed, code) => {
    const refusal = refused(parseMats(typed));
    expect(refusal.code).toBe(code);
    expect(good(parseMats(refusal.example ?? '')).length).toBeGreaterThan(0);
  });

  it('keeps what was typed in what it offers', () => {
    expect(refused(parseMats('2 x 1.5 oz')).example).toBe('2 x 1.5 oz/sq ft');
    expect(refused(parseMats('2 450 g/m2')).example).toBe('2 x 450 g/m2');
    expect(refused(parseMats('2 x 1.5')).example).toBe('2 x 1.5 oz/sq ft');
    expect(readingsOf('2 x 6 oz, 1 x 450 g/m2')).toEqual({
      mat: '2 x 6 oz/sq ft, 1 x 450 g/m2',
      cloth: '2 x 6 oz/sq yd, 1 x 450 g/m2',
    });
  });

  test('ounces are those of another library, for mat and for cloth', () => {
    const tenths = fc.integer({ min: 5, max: 120 }).map((each) => each / 10);
    fc.assert(
      fc.property(tenths, fc.integer({ min: 1, max: 20 }), (ounces, count) => {
        for (const [word, unit] of [
          ['mat', 'sqft'],
          ['cloth', 'sqyd'],
        ] as const) {
          const expected = Number(math.evaluate(`number(${ounces} oz / ${unit}, g/m^2)`));
          if (expected < 10 || expected > 2400) continue;
          for (const typed of [`${count} x ${ounces} oz ${word}`, `${count}x${String(ounces).replace('.', ',')}oz ${word}`]) {
            const [mats] = good(parseMats(typed));
            expect(mats?.count).toBe(count);
            expect(Math.abs((mats?.gramsPerSquareMetre ?? 0) / expected - 1)).toBeLessThan(1e-9);
          }
        }
      }),
    );
  });
});

describe('shares', () => {
  it.each([
    ['30 %', 30],
    ['30', 30],
    ['0,3', 30],
    ['0.45', 45],
    ['37,5%', 37.5],
  ])('%s of fibre is %d %%', (typed, percent) => expect(parseFraction(typed)).toBe(percent));
  it.each(['90 %', '5 %', '0.05', '0.3 %'])('%s of fibre is refused', (typed) =>
    expect(refused(parseFraction(typed))).toMatchObject({ code: 'fraction-out-of-range', example: '30 %' }),
  );
});
