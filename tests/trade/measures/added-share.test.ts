import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseAddedShare, parseScaleStep } from '../../../src/trade/measures/quantity.ts';
import { good, refused } from '../asks.ts';

test.each([
  ['0', 0],
  ['12,5 %', 12.5],
  ['100%', 100],
])('%s may be added', (typed, percent) => expect(parseAddedShare(typed)).toBe(percent));

test('nobody adds more than as much again', () =>
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1000, noNaN: true }), (share) => {
      const typed = `${share.toFixed(2)} %`;
      const read = parseAddedShare(typed);
      if (Number(share.toFixed(2)) <= 100) expect(read).toBe(Number(share.toFixed(2)));
      else expect(refused(read)).toMatchObject({ code: 'share-out-of-range', example: '10 %' });
    }),
  ));

test.each([
  ['0,1 g', 0.1],
  ['500 mg', 0.5],
  // The avoirdupois ounce is 28.349523125 g, by the international agreement of 1959.
  ['0.05 oz', 1.41747615625],
])('a scale shows steps of %s', (typed, grams) => expect(good(parseScaleStep(typed))).toBeCloseTo(grams, 10));

test.each([
  ['5 mL', 'bad-scale'],
  ['fine', 'amount-unreadable'],
  ['5', 'unit-missing'],
])('a scale with steps of %s is refused', (typed, code) => {
  const refusal = refused(parseScaleStep(typed));
  expect(refusal.code).toBe(code);
  expect(good(parseScaleStep(refusal.example ?? ''))).toBe(0.1);
});
