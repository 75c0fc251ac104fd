import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Hollow, leastArea, usualLayers, wallVolume } from '../../../src/trade/casting/wall.ts';
import { isRefusal } from '../../../src/words/refusal.ts';

/** Lengths in millimetres, so areas in mm² and volumes in mm³: 1000 of these are a millilitre. */
const hollow = (area: number, volume: number, box: number[] | null = null): Hollow => ({
  areaSquareMetres: area / 1e6,
  millilitres: volume / 1000,
  boxMillimetres: box,
});
const wall = (body: Hollow, thickness: number) => {
  const found = wallVolume(body, thickness, 'metric');
  if (isRefusal(found)) throw new Error(found.code);
  return found;
};

const size = fc.double({ min: 20, max: 500, noNaN: true });
const share = fc.double({ min: 0.005, max: 0.45, noNaN: true });

/** Bodies with walls of a known volume: what is inside is a body of the same kind with smaller sides. */
const bodies = {
  'a ball': fc.tuple(size, share).map(([r, part]) => {
    const w = r * part;
    const volume = (radius: number) => (4 / 3) * Math.PI * radius ** 3;
    return { body: hollow(4 * Math.PI * r ** 2, volume(r)), w, exact: volume(r) - volume(r - w) };
  }),
  'a box': fc.tuple(size, size, size, share).map(([a, b, c, part]) => {
    const w = Math.min(a, b, c) * part;
    const inside = (a - 2 * w) * (b - 2 * w) * (c - 2 * w);
    return { body: hollow(2 * (a * b + b * c + a * c), a * b * c, [a, b, c]), w, exact: a * b * c - inside };
  }),
  'a cylinder': fc.tuple(size, size, share).map(([r, h, part]) => {
    const w = Math.min(r, h / 2) * part;
    const volume = Math.PI * r ** 2 * h;
    const inside = Math.PI * (r - w) ** 2 * (h - 2 * w);
    return { body: hollow(2 * Math.PI * r * (r + h), volume, [2 * r, 2 * r, h]), w, exact: volume - inside };
  }),
  // Open at its foot: no wall there.
  'a box without a floor': fc.tuple(size, size, size, share).map(([a, b, c, part]) => {
    const w = Math.min(a, b, c) * part;
    const inside = (a - 2 * w) * (b - 2 * w) * (c - w);
    return { body: hollow(a * b + 2 * (a + b) * c, a * b * c, [a, b, c]), w, exact: a * b * c - inside };
  }),
  'half a ball, open at its foot': fc.tuple(size, share).map(([r, part]) => {
    const w = r * part;
    const volume = (radius: number) => (2 / 3) * Math.PI * radius ** 3;
    return { body: hollow(2 * Math.PI * r ** 2, volume(r), [2 * r, 2 * r, r]), w, exact: volume(r) - volume(r - w) };
  }),
};

describe.each(Object.entries(bodies))('the wall of %s', (_, body) => {
  test('takes no more than is said, and no less than the least', () => {
    fc.assert(
      fc.property(body, ({ body: of, w, exact }) => {
        const { millilitres, leastMillilitres } = wall(of, w);
        expect(millilitres * 1000).toBeGreaterThanOrEqual(exact * (1 - 1e-9));
        expect((leastMillilitres ?? 0) * 1000).toBeLessThanOrEqual(exact * (1 + 1e-9));
      }),
    );
  });

  test('is met within a twentieth where it is thin', () => {
    fc.assert(
      fc.property(body, fc.double({ min: 0.001, max: 0.02, noNaN: true }), ({ body: of }, part) => {
        const least = Math.min(...(of.boxMillimetres ?? [2 * Math.sqrt((of.areaSquareMetres * 1e6) / (4 * Math.PI))]));
        const { millilitres, leastMillilitres } = wall(of, (least / 2) * part);
        expect((leastMillilitres ?? 0) / millilitres).toBeGreaterThan(0.95);
      }),
    );
  });
});

/** These are told by their measures: with their boxes, what is said is just what they take. */
const known = {
  'a ball': fc.tuple(size, share).map(([r, part]) => {
    const volume = (radius: number) => (4 / 3) * Math.PI * radius ** 3;
    return {
      body: hollow(4 * Math.PI * r ** 2, volume(r), [2 * r, 2 * r, 2 * r]),
      w: r * part,
      exact: volume(r) - volume(r * (1 - part)),
    };
  }),
  'a box without a floor': bodies['a box without a floor'],
  'half a ball, open at its foot': bodies['half a ball, open at its foot'],
  'a cylinder without a floor': fc.tuple(size, size, share).map(([r, h, part]) => {
    const w = Math.min(r, h / 2) * part;
    const exact = Math.PI * (r ** 2 * h - (r - w) ** 2 * (h - w));
    return { body: hollow(Math.PI * r * (r + 2 * h), Math.PI * r ** 2 * h, [2 * r, 2 * r, h]), w, exact };
  }),
};
describe.each(Object.entries(known))('of the wall of %s', (_, body) => {
  test('it is said just what it takes', () => {
    fc.assert(
      fc.property(body, ({ body: of, w, exact }) => {
        const { millilitres, leastMillilitres } = wall(of, w);
        expect((millilitres * 1000) / exact).toBeCloseTo(1, 9);
        expect(leastMillilitres).toBe(millilitres);
      }),
    );
  });
});

test.each([
  ['a ball', hollow(4 * Math.PI * 50 ** 2, (4 / 3) * Math.PI * 50 ** 3), 5, ((4 / 3) * Math.PI * (50 ** 3 - 45 ** 3)) / 1000],
  ['a cube', hollow(6 * 100 ** 2, 100 ** 3, [100, 100, 100]), 10, (100 ** 3 - 80 ** 3) / 1000],
  [
    'half a ball',
    hollow(2 * Math.PI * 50 ** 2, (2 / 3) * Math.PI * 50 ** 3),
    5,
    ((2 / 3) * Math.PI * (50 ** 3 - 45 ** 3)) / 1000,
  ],
])('the least is just what %s takes', (_, body, w, millilitres) => {
  expect(wall(body, w).leastMillilitres).toBeCloseTo(millilitres, 6);
});

test('a thicker wall takes more', () => {
  fc.assert(
    fc.property(bodies['a box'], fc.double({ min: 1.01, max: 1.1, noNaN: true }), ({ body, w }, times) => {
      expect(wall(body, w * times).leastMillilitres).toBeGreaterThan(wall(body, w).leastMillilitres ?? 0);
    }),
  );
});

test.each([
  ['half of the smallest side', hollow(2 * (100 * 100 + 2 * 100 * 20), 100 * 100 * 20, [100, 100, 20]), 10],
  ['the radius of a ball', hollow(4 * Math.PI * 50 ** 2, (4 / 3) * Math.PI * 50 ** 3), 50],
])('a wall as thick as %s leaves nothing hollow', (_, body, w) => {
  const refused = wallVolume(body, w, 'metric');
  expect(isRefusal(refused) && refused.code).toBe('wall-too-thick');
  expect(isRefusal(wallVolume(body, w * 0.999, 'metric'))).toBe(false);
});

test('no body of that volume has less area than a ball', () => {
  fc.assert(
    fc.property(size, size, size, (a, b, c) => {
      const area = 2 * (a * b + b * c + a * c);
      expect(leastArea((a * b * c) / 1000) * 1e6).toBeLessThan(area);
      const r = a / 2;
      expect((leastArea(((4 / 3) * Math.PI * r ** 3) / 1000) * 1e6) / (4 * Math.PI * r ** 2)).toBeCloseTo(1, 10);
    }),
  );
});

// Common practice, no source: two to three pours.
test('thin walls go on in two pours, thicker ones in three', () => expect([2, 4, 5].map(usualLayers)).toEqual([2, 2, 3]));

test('a wall takes no more than the whole body, however thick', () => {
  // A ball of 50 mm with a wall of 25 mm: area × wall would be one and a half times what it holds.
  const volume = (4 / 3) * Math.PI * 50 ** 3;
  const { millilitres, leastMillilitres } = wall(hollow(4 * Math.PI * 50 ** 2, volume), 25);
  expect(millilitres).toBeCloseTo(volume / 1000, 9);
  expect(leastMillilitres).toBeCloseTo((volume * 7) / 8 / 1000, 9);
});
