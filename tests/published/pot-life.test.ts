import { expect, test } from 'vitest';
import { potLifeOf } from '../../src/trade/cups/pot-life.ts';
import { ab } from '../trade/example.ts';

/**
 * That gel time goes down with the mixed volume, and must be told with it, is ASTM D2471 (withdrawn in 2008); it gives no
 * law for it. The straight line between two values, and the nearest value beyond them, are our choice. So this is a second
 * implementation, no published pot life: `interp` of NumPy does the same, and the values are those that its documentation prints
 * (read at docs.scipy.org, numpy 1.4, numpy.interp).
 */
const material = ab(1, 1, {
  reference: { celsius: 23, massGrams: 1 },
  potLifeMinutes: 3,
  potLifeByMass: [
    { massGrams: 2, potLifeMinutes: 2 },
    { massGrams: 3, potLifeMinutes: 0 },
  ],
});

test.each([
  [2.5, 1],
  [0, 3],
  [1, 3],
  [1.5, 2.5],
  [2.72, 0.56],
  [3.14, 0],
])('through (1, 3), (2, 2) and (3, 0): %d gives %d', (grams, minutes) =>
  expect(potLifeOf(material, grams).minutes).toBeCloseTo(minutes, 10),
);
