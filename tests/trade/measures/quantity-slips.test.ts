import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../../src/trade/measures/number.ts';
import * as read from '../../../src/trade/measures/quantity.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { refused, words } from '../asks.ts';

const mass = (grams: number, of: string | null = null) => ({ quantity: { kind: 'mass', grams }, of });
const volume = (millilitres: number, of: string | null = null) => ({ quantity: { kind: 'volume', millilitres }, of });

describe('with gloves on', () => {
  it.each([
    ['20 x 30 cm', 0.06],
    ['20cm x 30cm', 0.06],
    ['20×30cm', 0.06],
    ['20 by 30 cm', 0.06],
    ['20 cm by 30', 0.06],
    ['20 x 30cms', 0.06],
    ['1 m x 50 cm', 0.5],
    ['8 x 12 in', 0.06193536],
    ['8" x 12"', 0.06193536],
    ['12in by 18in', 0.13935456],
    ["2' x 3'", 0.55741824],
    ["2'6\" x 3'", 0.6967728],
    ['2 ft 6 in x 3 ft', 0.6967728],
    ['0,4 qm', 0.4],
    ['0.4 m^2', 0.4],
    ['400 square cm', 0.04],
    ['4 sqft', 0.37161216],
    ['4 sq. ft.', 0.37161216],
    ['4 sf', 0.37161216],
    ['4 sq foot', 0.37161216],
    ['4 sq inches', 0.00258064],
  ])('an area, %s, is %d m²', (text, value) => expect(read.parseArea(text)).toBeCloseTo(value, 12));

  it.each([
    ['1-1/2 in', 38.1],
    ['1½"', 38.1],
    ['2\'6"', 762],
    ['1 cm 5 mm', 15],
    ['3mms', 3],
    ['5 thou', 0.127],
  ])('a length, %s, is %d mm', (text, value) => expect(read.parseLength(text)).toBeCloseTo(value, 12));

  it.each([
    ['1lb4oz', mass(566.9904625)],
    ['1 kg 200 g', mass(1200)],
    ['1.200 g', mass(1.2)],
    ['2 qts', volume(1892.705892)],
    ['3 pts', volume(1419.529419)],
    ['2 fl ounces', volume(59.147059125)],
    ['2 ltr', volume(2000)],
    ['1 gal 2 qt', volume(5678.117676)],
  ])('an amount, %s', (text, expected) => expect(read.parseAmount(text)).toEqual(expected));

  it.each([
    ['70F', 190 / 9],
    ['70 ºF', 190 / 9],
    ['21 ˚C', 21],
    ['21 C.', 21],
    ['+5 C', 5],
    ['21 centigrade', 21],
    ['21 degrees', 21],
    ['18,5 Grad', 18.5],
    ['64 fahrenheit', 160 / 9],
    ['18,5', 18.5],
    ['-5 C', -5],
  ])('a temperature, %s, is %d °C', (text, value) => expect(read.parseTemperature(text, 'C')).toBeCloseTo(value, 12));

  it.each([
    [read.parseArealWeight, '450 gsm', 450],
    [read.parseArealWeight, '450 g per sq m', 450],
    [read.parseArealWeight, '450 grams per square metre', 450],
    [read.parseArealWeight, '1.5 oz/ft²', 457.72759091091],
    [read.parseArealWeight, '1.5 oz per square foot', 457.72759091091],
    [read.parseArealWeight, '6 oz/yd^2', 203.43448484929],
    [read.parseMassRate, '25 g / min', 25],
    [read.parseMassRate, '1.5 kg per hour', 25],
    [read.parseMassRate, '1.5 kilo an hour', 25],
    [read.parseMassRate, '2 lb/hr', 15.119745666667],
    [read.parseMassRate, '1 oz a minute', 28.349523125],
    [read.parseDensity, '9 lb per gal', 1.0784378458521],
    [read.parseDensity, '1080 kg/m³', 1.08],
    [read.parsePressure, '0,4 kPa', 400],
    [read.parsePressure, '40 N/m2', 40],
  ] as const)('%o of %s is %d', (parse, text, value) => expect(parse(text)).toBeCloseTo(value, 9));

  it.each([
    ['24,50 €/kg', 24.5, 'EUR'],
    ['£9 a kg', 9, 'GBP'],
    ['9 usd per pound', 19.841603596639, 'USD'],
  ])('a price, %s', (text, perKilogram, currency) => expect(read.parsePrice(text)).toEqual({ perKilogram, currency }));

  it('a dollar sign means twenty currencies, and MPa may be meant for mPa: neither is guessed', () => {
    expect(refused(read.parsePrice('$9/lb')).code).toBe('price-unreadable');
    expect(refused(read.parsePressure('40 MPa')).code).toBe('pressure-unreadable');
  });
});

describe('a slip of a unit', () => {
  it.each([
    [read.parseAmount, '500 gramm', 'unit-unknown', '500 gram'],
    [read.parseAmount, '500 gramm of B', 'unit-unknown', '500 gram of B'],
    [read.parseAmount, '500 litr', 'unit-unknown', '500 litre'],
    [read.parseAmount, '500 mililiter', 'unit-unknown', '500 milliliter'],
    [read.parseAmount, '12 ounzes', 'unit-unknown', '12 ounces'],
    [read.parseLength, '3 milimeter', 'length-unreadable', '3 millimeter'],
    [read.parseLength, '1 1/2 inchs', 'length-unreadable', '1 1/2 inches'],
    [read.parseArea, '0,4 squre m', 'area-unreadable', '0,4 square m'],
    [read.parseArea, '20 x 30 inchs', 'area-unreadable', '20 x 30 inches'],
    [read.parseDuration, '20 minuts', 'duration-unreadable', '20 minutes'],
    [read.parseTemperature, '70 farenheit', 'temperature-unreadable', '70 fahrenheit'],
    [read.parseTemperature, '21 celcius', 'temperature-unreadable', '21 celsius'],
  ] as const)('%o of %s names what was meant', (parse, text, code, example) => {
    const refusal = refused((parse as (typed: string) => unknown)(text));
    expect([refusal.code, refusal.example]).toEqual([code, example]);
    expect(words(refusal)).toContain('did you mean');
    expect((parse as (typed: string) => unknown)(example)).not.toBeInstanceOf(Refusal);
  });

  it.each(['2 tsp', '1 cup', '1 stone', '500 gr', '3 of B', 'half a litre', '5 hundred g'])('is not seen in %s', (text) => {
    expect(words(refused(read.parseAmount(text)))).not.toContain('did you mean');
  });

  it.each(['3 millis', '4 feet square', '1.5 oz'])('nor in %s, which may mean two things', (text) => {
    for (const parse of [read.parseLength, read.parseArea, read.parseArealWeight])
      if (parse(text) instanceof Refusal) expect(words(refused(parse(text)))).not.toContain('did you mean');
  });
});

it('a bare temperature needs to be told its unit', () => {
  expect(refused(read.parseTemperature('21')).code).toBe('unit-missing');
  expect(read.parseTemperature('21', 'C')).toBe(21);
  expect(read.parseTemperature('212', 'F')).toBe(100);
});

describe('what was poured', () => {
  const poured = (a: number, b: number) => [
    { part: 'A', quantity: { kind: 'mass', grams: a } },
    { part: 'B', quantity: { kind: 'mass', grams: b } },
  ];
  it.each([
    '171 g A, 200 g B',
    'A 171 g B 200 g',
    '171g A 200g B',
    '171 g of A and 200 g of B',
    'A: 171 g; B: 200 g',
    'A 171 B 200',
    '171 A,200 B',
  ])('%s', (text) => expect(read.parsePoured(text)).toEqual(poured(171, 200)));
  it('decimal commas', () => expect(read.parsePoured('171,5 g A, 200 g B')).toEqual(poured(171.5, 200)));
  it.each([
    ['171 g A, 200 B', 'unit-missing'],
    ['171 g A, 3 g a', 'part-twice'],
    ['171 g', 'poured-unreadable'],
    ['', 'poured-unreadable'],
  ])('%s is refused', (text, code) => expect(refused(read.parsePoured(text)).code).toBe(code));
});

it('additives', () => {
  expect(read.parseAdditives('2% pigment of B, 3 phr thickener')).toEqual([
    { name: 'pigment', percent: 2, basis: 'percent', of: 'B' },
    { name: 'thickener', percent: 3, basis: 'phr', of: null },
  ]);
  expect(read.parseAdditives('1,5 % catalyst')).toEqual([{ name: 'catalyst', percent: 1.5, basis: 'percent', of: null }]);
  expect(refused(read.parseAdditives('pigment')).code).toBe('additive-unreadable');
});

it('whatever is typed, the readers answer', () => {
  const typed = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc
      .array(fc.constantFrom('1', '1/2', ',', '.', ' ', 'g', 'oz', 'x', ':', 'of', 'A', '%', '½', '-', 'h', 'in', '²'))
      .map((bits) => bits.join('')),
  );
  const finite = (value: unknown): boolean =>
    typeof value === 'number'
      ? Number.isFinite(value) && value >= 0
      : typeof value !== 'object' || value === null || value instanceof Refusal || Object.values(value).every(finite);
  const readers = [
    parseNumber,
    read.parseAmount,
    read.parseLength,
    read.parseArea,
    read.parseDuration,
    read.parsePercent,
    read.parseDensity,
    read.parsePoured,
    read.parseAdditives,
  ];
  fc.assert(
    fc.property(typed, (text) => readers.every((reader) => finite(reader(text)))),
    { numRuns: 500 },
  );
});
