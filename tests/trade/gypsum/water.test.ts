import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { parseWater } from '../../../src/trade/gypsum/water.ts';
import { good, refused } from '../asks.ts';

describe('water to powder', () => {
  it.each([
    ['70:100', 70],
    ['70', 70],
    ['0.7', 70],
    ['0,7', 70],
    ['.7', 70],
    ['1.2', 120],
    ['70 %', 70],
    ['70/100', 70],
    ['70,100', 70],
    ['70 to 100', 70],
    ['100:70', 70],
    ['110:100', 110],
    ['2:1', 50],
    ['1:2', 50],
    ['1.4 : 1', 71.4285714],
    ['w/p 0.6', 60],
    ['W:P 0,6', 60],
    ['100 powder to 70 water', 70],
    ['100 parts plaster : 70 parts water', 70],
    ['water 70 powder 100', 70],
    ['70 parts wather to 100 of plastr', 70],
    ['110 water to 100 powder', 110],
    ['90 powder 100 water', 111.111111],
    ['30 ml per 100 g', 30],
    ['30ml/100g', 30],
    ['700 ml water to 1 kg powder', 70],
    ['1,4 kg : 1 L', 71.4285714],
    ['5 oz per 1 lb', 31.25],
  ])('%s is %d to 100', (typed, water) => expect(good(parseWater(typed))).toBeCloseTo(water, 6));

  it.each([
    ['15', 'water-too-little'],
    ['18:100', 'water-too-little'],
    ['0.1', 'water-too-little'],
    ['1.4', 'water-too-much'],
    // Up to 1.5 a bare number is water ÷ powder, above it parts to 100: of both there is no such plaster.
    ['1.5', 'water-too-much'],
    ['1.51', 'water-too-little'],
    ['130', 'water-too-much'],
    // Neither order is a plaster: it is read as it stands in 70:100.
    ['1000:1', 'water-too-much'],
    ['1:1000', 'water-too-little'],
    ['water 130 powder 100', 'water-too-much'],
    ['1 L per 1 L', 'powder-by-volume'],
    ['30 ml', 'water-unreadable'],
    ['100 powder', 'water-unreadable'],
    ['70 70 70', 'water-unreadable'],
    ['0:100', 'water-unreadable'],
    ['wet', 'water-unreadable'],
    ['', 'water-unreadable'],
    ['-70', 'number-negative'],
  ])('%s is refused as %s, with something that would do', (typed, code) => {
    const refusal = refused(parseWater(typed));
    expect(refusal.code).toBe(code);
    expect(good(parseWater(refusal.example ?? ''))).toBeGreaterThan(18.6);
  });

  test('means the same however it is said', () => {
    fc.assert(
      fc.property(fc.integer({ min: 19, max: 99 }), fc.constantFrom(0.1, 1, 2.5, 10), (water, times) => {
        const [w, p] = [Number((water * times).toFixed(3)), 100 * times];
        const ways = [
          `${w} water to ${p} powder`,
          `${p} powder, ${w} water`,
          `${w} ml per ${p} g`,
          `${p} g : ${w} mL`,
          `${String(w).replace('.', ',')} g water : ${p} g plaster`,
          `${w}:${p}`,
          `w/p ${water / 100}`,
          `${water}`,
        ];
        for (const way of ways) expect(good(parseWater(way)), way).toBeCloseTo(water, 6);
      }),
    );
  });
});
