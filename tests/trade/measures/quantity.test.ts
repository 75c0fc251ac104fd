import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../../src/trade/measures/number.ts';
import * as read from '../../../src/trade/measures/quantity.ts';
import { Refusal } from '../../../src/words/refusal.ts';
import { refused, words } from '../asks.ts';

const mass = (grams: number, of: string | null = null) => ({ quantity: { kind: 'mass', grams }, of });
const volume = (millilitres: number, of: string | null = null) => ({ quantity: { kind: 'volume', millilitres }, of });

describe('numbers', () => {
  it.each([
    ['1,5', 1.5],
    ['.5', 0.5],
    [',5', 0.5],
    ['½', 0.5],
    ['1½', 1.5],
    ['¾', 0.75],
    ['1/2', 0.5],
    ['1 1/2', 1.5],
    ['0,400', 0.4],
    ['1.200', 1.2],
    ['1200', 1200],
    ['1 200', 1200],
    ['12 500', 12500],
    ["1'200", 1200],
    ['1’200,5', 1200.5],
    ['1 100/200', 1.5],
    ['0', 0],
  ])('%s is %d', (text, value) => expect(parseNumber(text)).toBe(value));

  it('asks which of two readings is meant', () => {
    expect(words(refused(parseNumber('1,200')))).toContain('write 1200 or 1.2');
  });

  it.each([
    ['-3', 'number-negative'],
    ['1e9', 'number-unreadable'],
    ['Infinity', 'number-unreadable'],
    ['1/0', 'number-unreadable'],
    ['1.200,5', 'number-unreadable'],
    ['9'.repeat(400), 'number-unreadable'],
    ['', 'number-unreadable'],
  ])('%s is refused', (text, code) => expect(refused(parseNumber(text)).code).toBe(code));
});

describe('amounts', () => {
  it.each([
    ['500 g', mass(500)],
    ['1.2 kg', mass(1200)],
    ['1 000 g', mass(1000)],
    ['1 000 g of B', mass(1000, 'B')],
    ["1'200 g", mass(1200)],
    ['1 1/2 kg', mass(1500)],
    ['150g of B', mass(150, 'B')],
    ['150 g B', mass(150, 'B')],
    ['0,4 L', volume(400)],
    ['1/2 lb', mass(226.796185)],
    ['1 lb 4 oz', mass(566.9904625)],
    ['40 cl', volume(400)],
    ['2 pt', volume(946.352946)],
    ['16 imp fl oz', volume(454.609)],
    ['16 fl. oz.', volume(473.176473)],
    ['500 grams', mass(500)],
    ['500 g total', mass(500)],
  ])('%s', (text, expected) => expect(read.parseAmount(text)).toEqual(expected));

  it.each([
    ['1:1', 'ratio-not-amount'],
    ['90:100', 'ratio-not-amount'],
    ['100/45', 'ratio-not-amount'],
    ['1 to 1', 'ratio-not-amount'],
    ['90 : 100', 'ratio-not-amount'],
    ['1/2', 'unit-missing'],
    ['1e3 g', 'number-unreadable'],
    ['1e99 g', 'number-unreadable'],
    ['1001 kg', 'amount-absurd'],
    ['1,200 kg', 'number-ambiguous'],
    ['500', 'unit-missing'],
    ['500 of B', 'unit-missing'],
    ['500 gr', 'unit-unknown'],
    ['0 g', 'amount-zero'],
    ['-5 g', 'number-negative'],
    ['1,200 g', 'number-ambiguous'],
    ['500 g A 300 g B', 'amount-unreadable'],
    ['some', 'amount-unreadable'],
    ['', 'amount-unreadable'],
  ])('%s is refused with an example that would do', (text, code) => {
    const refusal = refused(read.parseAmount(text));
    expect(refusal.code).toBe(code);
    expect(read.parseAmount(refusal.example ?? '')).not.toBeInstanceOf(Refusal);
  });
});

it('what is offered for a number that cannot be read is made from it', () => {
  expect(refused(read.parseAmount('1e3 g')).example).toBe('1000 g');
  const two = refused(read.parseAmount('1,200 kg'));
  expect(words(two)).toContain('write 1200 kg or 1.2 kg');
  expect(two.example).toBe('1.2 kg');
});

it.each([
  [read.parseLength, '3 mm', 3],
  [read.parseLength, '3/8 in', 9.525],
  [read.parseLength, '5 mil', 0.127],
  [read.parseLength, '120 µm', 0.12],
  [read.parseLength, '1 1/2"', 38.1],
  [read.parseArea, '0,4 m²', 0.4],
  [read.parseArea, '400 cm2', 0.04],
  [read.parseArea, '20x30cm', 0.06],
  [read.parseArea, '20 cm x 30 cm', 0.06],
  [read.parseArea, '8 x 10 in', 0.0516128],
  [read.parseArea, '3 sq ft', 0.27870912],
  [read.parseDuration, '1h30', 90],
  [read.parseDuration, '1 h 30 min', 90],
  [read.parseDuration, '90m', 90],
  [read.parseDuration, '3 d', 4320],
  [read.parseDuration, '45 s', 0.75],
  [read.parseDuration, '2.5 h', 150],
  [read.parseTemperature, '21°C', 21],
  [read.parseTemperature, '-5 C', -5],
  [read.parsePercent, '5 %', 5],
  [read.parsePercent, '5', 5],
  [read.parseRatePerMole, '51.2 kJ/mol', 51200],
  [read.parseDensity, '1.08 g/mL', 1.08],
  [read.parseDensity, '1.08', 1.08],
] as const)('%o of %s is %d', (parse, text, value) => expect(parse(text)).toBe(value));

/** What is typed with gloves on, by people who have grown up with one system or the other: handbook factors, by hand. */
