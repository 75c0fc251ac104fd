import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  parseArea,
  parseArealWeight,
  parseDensity,
  parseLength,
  parseMassRate,
  parsePressure,
  parsePrice,
  parseQuantity,
  parseTemperature,
} from '../../src/trade/measures/quantity.ts';

// A second implementation: mathjs, with 64 digits where it has the unit. Values marked so are computed, not published;
// NIST Handbook 44, appendix C, and SP 811, appendix B, are the authorities, and their digits here are from memory.
const math = create(all ?? {}, { number: 'BigNumber', precision: 64 });
const second = (from: string, to: string) => Number(math.evaluate(`number(${from}, ${to})`));

const size = (text: string) => {
  const quantity = parseQuantity(text);
  if (!('kind' in quantity)) throw new Error(text);
  return quantity.kind === 'mass' ? quantity.grams : quantity.millilitres;
};
const close = (got: unknown, expected: number) => expect(Math.abs((got as number) / expected - 1)).toBeLessThan(1e-12);

describe('units', () => {
  // The definitions of 1959 and of 1976 (from memory), and mathjs 15.2.
  it.each([
    ['1 oz', 28.349523125, '1 oz', 'g'],
    ['1 lb', 453.59237, '1 lbm', 'g'],
    ['1 fl oz', 29.5735295625, '1 floz', 'ml'],
    ['1 us gal', 3785.411784, '1 gallon', 'ml'],
    ['1 pt', 473.176473, '1 pint', 'ml'],
    ['1 qt', 946.352946, '1 quart', 'ml'],
    ['1 in3', 16.387064, '1 cuin', 'ml'],
  ])('%s is %d', (text, expected, from, to) => {
    close(size(text), expected);
    close(size(text), second(from, to));
  });

  // The imperial gallon is 4.54609 L by definition (from memory); mathjs knows only the American one.
  it.each([
    ['1 imp fl oz', 28.4130625],
    ['1 imp gal', 4546.09],
    ['1 UK pint', 568.26125],
  ])('%s is %d', (text, expected) => close(size(text), expected));

  it.each([
    ['1 in', 25.4, '1 inch', 'mm'],
    ['1 mil', 0.0254, '1 mil', 'mm'],
    ['1 ft', 304.8, '1 foot', 'mm'],
    ['1 yd', 914.4, '1 yard', 'mm'],
  ])('%s is %d mm', (text, expected, from, to) => {
    close(parseLength(text), expected);
    close(parseLength(text), second(from, to));
  });

  it('areas and densities', () => {
    close(parseArea('1 sq ft'), 0.09290304);
    close(parseArea('1 ft2'), second('1 sqft', 'm2'));
    close(parseArea('1 in2'), second('1 sqin', 'm2'));
    // 119.826427 kg/m³ by mathjs.
    close(parseDensity('1 lb/gal'), second('1 lbm/gallon', 'kg/m^3') / 1000);
    expect(parseDensity('1 lb/gal')).toBeCloseTo(0.119826427, 9);
    // 1.5 oz/ft² is 457.728 g/m² by mathjs; and out of an ounce and a foot.
    close(parseArealWeight('1.5 oz/ft2'), second('1.5 oz/sqft', 'g/m^2'));
    expect(parseArealWeight('1.5 oz/sq ft')).toBeCloseTo(457.728, 3);
    close(parseArealWeight('6 oz/sq yd'), second('6 oz/sqyd', 'g/m^2'));
    close(parseDensity('1 lb/ft3'), second('1 lbm/cuft', 'g/cm^3'));
    close(parseDensity('1 oz/in3'), second('1 oz/cuin', 'g/cm^3'));
    expect((size('1.5 oz') as number) / (parseArea('1 ft2') as number)).toBeCloseTo(457.728, 3);
  });

  it('rates, stresses and prices', () => {
    close(parseMassRate('1 oz/min'), second('1 oz/minute', 'g/minute'));
    close(parseMassRate('1 lb/h'), second('1 lbm/hour', 'g/minute'));
    close(parseMassRate('1 kg/h'), 1000 / 60);
    // 4.4482216152605 N on 6.4516 cm²: SP 811, from memory; mathjs has ten digits of it.
    close(parsePressure('1 psi'), 4.4482216152605 / 0.00064516);
    expect(parsePressure('1 psi')).toBeCloseTo(second('1 psi', 'Pa'), 5);
    close(parsePressure('1 mbar'), 100);
    close((parsePrice('1 USD/lb') as { perKilogram: number }).perKilogram, second('1 kg', 'lbm'));
    close((parsePrice('1 USD/oz') as { perKilogram: number }).perKilogram, second('1 kg', 'oz'));
  });

  it('temperature', () => {
    expect(parseTemperature('72 F')).toBeCloseTo(22.2222, 4);
    close(parseTemperature('72 °F'), second('72 degF', 'degC'));
  });
});
