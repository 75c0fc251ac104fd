import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { layerGrams, layerOf } from '../../src/trade/cover/layers.ts';
import { parseArea, parseLength } from '../../src/trade/measures/quantity.ts';
import { good } from '../trade/asks.ts';
import { poursOver } from '../trade/cover/pours.ts';
import { material, part } from '../trade/example.ts';

const math = create(all ?? {});
/** As heavy as water, so that grams are millilitres. */
const WATERY = material([part('A', 100, { gramsPerMillilitre: 1 })]);

describe('spreading rates', () => {
  // painting-advice.blogspot.com, 2014/06 (read there): what a litre covers, and how thick it then lies.
  it.each([
    [10, 100],
    [8, 125],
  ])('%d m²/L lie %d µm thick', (squareMetres, micrometres) => {
    expect(layerGrams(squareMetres, micrometres / 1000, 1, 0)).toBeCloseTo(1000, 9);
  });

  // Arithmetic: a litre is a cubic decimetre.
  it('a litre over a square metre is a millimetre', () => {
    const layer = layerOf('skin', WATERY, poursOver(1, [1]), 0, { stepGrams: 1, mostGrams: null });
    expect([layer?.volumeLitres, layer?.grams]).toEqual([1, 1000]);
  });

  it('a US gallon a thousandth of an inch thick covers 1604.167 square feet', () => {
    // The gallon is 231 cubic inches; worked out with mathjs: no published value.
    const squareFeet = math.number(math.evaluate('231 inch^3 / (0.001 inch)'), 'ft^2');
    expect(squareFeet).toBeCloseTo(1604.1667, 3);
    const grams = layerGrams(good(parseArea(`${squareFeet.toFixed(6)} sq ft`)), good(parseLength('1 mil')), 1, 0);
    expect(Math.abs(grams / math.number(math.evaluate('231 inch^3'), 'cm^3') - 1)).toBeLessThan(1e-6);
  });
});
