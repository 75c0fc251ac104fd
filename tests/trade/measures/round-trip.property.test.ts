import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import {
  aboutText,
  cupText,
  massText,
  scaleText,
  temperaturesText,
  temperatureText,
} from '../../../src/trade/measures/format.ts';
import * as sizes from '../../../src/trade/measures/format-sizes.ts';
import * as read from '../../../src/trade/measures/quantity.ts';

/** What is shown is typed again: our own readers must read it, and a second implementation must agree about its size. */
const math = create(all ?? {}, { number: 'number' });
type Units = 'metric' | 'customary';

const sizeOf = (text: string): number => {
  const quantity = read.parseQuantity(text);
  if (!('kind' in quantity)) throw new Error(text);
  return quantity.kind === 'mass' ? quantity.grams : quantity.millilitres;
};

/** "4.43 sq ft (0.412 m²)": both sides of it. */
const sides = (text: string) => {
  const [, first = '', second] = /^([^()]+?)(?: \(([^()]+)\))?$/.exec(text) ?? [];
  return second === undefined ? [first] : [first, second];
};

const MATH: Record<string, string> = {
  'sq ft': 'sqft',
  'sq in': 'sqin',
  'fl oz': 'floz',
  gal: 'gallon',
  'm²': 'm2',
  'cm²': 'cm2',
};
MATH['g/m²'] = 'g/m2';
MATH['oz/sq ft'] = 'oz/sqft';
MATH['oz/sq yd'] = 'oz/sqyd';
MATH['lb/gal'] = 'lbm/gallon';
MATH['oz/min'] = 'oz/minute';
MATH['g/min'] = 'g/minute';
MATH['mL'] = 'ml';
MATH['L'] = 'litre';
MATH['lb'] = 'lbm';

/** By mathjs: "1 lb 1.6 oz" is a sum. */
const second = (text: string, base: string): number =>
  [...text.matchAll(/([\d.]+) (\D+?)(?= \d|$)/g)].reduce(
    (sum, [, number, unit = '']) => sum + Number(math.evaluate(`number(${number} ${MATH[unit] ?? unit}, ${base})`)),
    0,
  );

interface Case {
  readonly name: string;
  readonly text: (value: number, units: Units) => string;
  readonly read: (text: string) => unknown;
  readonly base: string;
  readonly least: number;
  readonly most: number;
  /** How far a shown value may be from the true one, as a share: half a unit of its last digit that matters. */
  readonly off: number;
}

const CASES: Case[] = [
  { name: 'length', text: sizes.lengthText, read: read.parseLength, base: 'mm', least: 0.02, most: 5000, off: 0.0501 },
  { name: 'area', text: sizes.areaText, read: read.parseArea, base: 'm2', least: 1e-5, most: 100, off: 0.00501 },
  { name: 'volume', text: sizes.volumeText, read: sizeOf, base: 'ml', least: 0.01, most: 8e5, off: 0.00501 },
  { name: 'mat', text: sizes.arealWeightText, read: read.parseArealWeight, base: 'g/m2', least: 5, most: 3000, off: 0.00501 },
  {
    name: 'cloth',
    text: (value, units) => sizes.arealWeightText(value, units, 'cloth'),
    read: read.parseArealWeight,
    base: 'g/m2',
    least: 5,
    most: 3000,
    off: 0.00501,
  },
  { name: 'density', text: sizes.densityText, read: read.parseDensity, base: 'g/ml', least: 0.05, most: 20, off: 0.00501 },
  {
    name: 'laying rate',
    text: sizes.massRateText,
    read: read.parseMassRate,
    base: 'g/minute',
    least: 0.1,
    most: 1000,
    off: 0.0501,
  },
  {
    name: 'weight about',
    text: (value, units) => aboutText(value, units, 1),
    read: sizeOf,
    base: 'g',
    least: 1,
    most: 8e5,
    off: 0.0501,
  },
  {
    name: 'weight about, in ounces',
    text: (value, units) => aboutText(value, units, 2.8349523125),
    read: sizeOf,
    base: 'g',
    least: 1,
    most: 8e5,
    off: 0.0501,
  },
];

const between = (least: number, most: number) =>
  fc.double({ min: Math.log(least), max: Math.log(most), noNaN: true }).map(Math.exp);

describe.each(CASES)('$name', ({ text, read: reader, base, least, most, off }) => {
  it.each(['metric', 'customary'] as const)('in %s is read back as what it was', (units) => {
    fc.assert(
      fc.property(between(least, most), (value) => {
        for (const side of sides(text(value, units))) {
          expect(side).toMatch(/^\d/);
          expect(side).not.toMatch(/e[+-]?\d|\.\d*0(?!\d)|^0 |-/);
          const back = reader(side) as number;
          expect(Math.abs(back / value - 1), side).toBeLessThan(off);
          expect(Math.abs(back / second(side, base) - 1), side).toBeLessThan(1e-9);
        }
      }),
    );
  });

  it.each(['metric', 'customary'] as const)('in %s never shows more for less', (units) => {
    fc.assert(
      fc.property(between(least, most), fc.double({ min: 1, max: 1.2, noNaN: true }), (value, times) => {
        const [one, other] = [value, value * times].map((each) => reader(sides(text(each, units))[0] ?? '') as number);
        expect(one).toBeLessThanOrEqual((other ?? 0) * (1 + 1e-12));
      }),
    );
  });
});

describe('a scale', () => {
  const STEPS = [0.01, 0.1, 0.5, 1, 5, 2.8349523125, 0.28349523125, 28.349523125, 3.543690390625];
  it('shows what lies on its steps so that it is read back exactly, and never as 16 oz of a pound', () => {
    fc.assert(
      fc.property(fc.constantFrom(...STEPS), fc.integer({ min: 1, max: 3000 }), (step, count) => {
        const grams = step * count;
        for (const shown of [scaleText(grams, step), sides(massText(grams, 'customary', step))[0] ?? ''])
          expect(sizeOf(shown), shown).toBeCloseTo(grams, 6);
        const texts = massText(grams, 'customary', step);
        expect(texts).not.toMatch(/lb 0 oz|(?<![\d.])16 oz|-0/);
        for (const side of sides(texts)) expect(Math.abs(sizeOf(side) - grams), texts).toBeLessThanOrEqual(grams * 0.0501);
      }),
    );
  });

  it('in ounces shows them first, and grams first where it shows grams', () => {
    expect(massText(0.1, 'customary', 0.1)).toBe('0.1 g (0.0035 oz)');
    expect(massText(10_000, 'customary', 1)).toBe('10 kg (22 lb 1 oz)');
    expect(massText(9998.9, 'customary', 2.8349523125)).toBe('22 lb 0.7 oz (9999 g)');
    expect(massText(453.4, 'customary', 1)).toBe('453 g (1 lb)');
    expect(massText(16 * 28.349523125, 'customary', 2.8349523125)).toBe('1 lb (454 g)');
    expect(aboutText(3701.2, 'customary', 2.8349523125)).toBe('8 lb 2.5 oz (3700 g)');
    expect(aboutText(0.2045, 'metric', 1)).toBe('0.2 g');
    expect(scaleText(3.543690390625, 3.543690390625)).toBe('0.125 oz');
  });
});

it('a measuring cup shows its own marks first', () => {
  const halfOunce = 14.78676478125;
  expect(cupText(220, 'metric', 5)).toBe('220 mL');
  expect(cupText(220, 'customary', 5)).toBe('220 mL (7.44 fl oz)');
  expect(cupText(halfOunce * 15, 'customary', halfOunce)).toBe('7.5 fl oz (222 mL)');
});

it('where two units meet, what is shown decides', () => {
  expect(sizes.volumeText(999.7, 'metric')).toBe('1 L');
  expect(sizes.lengthText(999.7, 'metric')).toBe('1 m');
  expect(sizes.areaText(0.009999, 'metric')).toBe('0.01 m²');
  expect(sizes.lengthText(25.4, 'customary')).toBe('1 in (25.4 mm)');
  expect(sizes.lengthText(914.4, 'customary')).toBe('3 ft (914 mm)');
  expect(sizes.lengthText(0, 'customary')).toBe('0 in (0 mm)');
  expect(sizes.lengthsText([0.72, 1.01, 1.47], 'customary')).toBe('0.028, 0.04, 0.058 in');
});

describe('a temperature', () => {
  it('is read back to the tenth of a kelvin, or to the half of a degree Fahrenheit', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 250, noNaN: true }), (celsius) => {
        const [fahrenheit = '', metric = ''] = sides(temperatureText(celsius, 'customary'));
        expect(metric).toBe(temperatureText(celsius, 'metric'));
        expect(Math.abs((read.parseTemperature(metric) as number) - celsius)).toBeLessThanOrEqual(0.05 + 1e-6);
        const back = read.parseTemperature(fahrenheit) as number;
        expect(Math.abs(back - celsius)).toBeLessThanOrEqual(5 / 18 + 1e-6);
        expect(back).toBeCloseTo(Number(math.evaluate(`number(${Number.parseFloat(fahrenheit)} degF, degC)`)), 9);
        expect(fahrenheit + metric).not.toMatch(/-0(?![.\d])/);
      }),
    );
  });

  it('range has its unit once', () => {
    expect(temperaturesText(15, 32.2222, 'metric')).toBe('15 to 32.2 °C');
    expect(temperaturesText(15, 32.2222, 'customary')).toBe('59 to 90 °F (15 to 32.2 °C)');
  });
});
