import fc from 'fast-check';
import { lusolve } from 'mathjs';
import { describe, expect, it, test } from 'vitest';
import { potLifeOf } from '../../../src/trade/cups/pot-life.ts';
import { ab } from '../example.ts';

interface Point {
  readonly massGrams: number;
  readonly potLifeMinutes: number;
}

const sheet = (reference: Point, ...others: Point[]) =>
  ab(1, 1, {
    reference: { celsius: 23, massGrams: reference.massGrams },
    potLifeMinutes: reference.potLifeMinutes,
    potLifeByMass: others,
  });

/** Masses that differ, the smallest first, and pot lives that go down with them. */
const points = (least: number) =>
  fc
    .tuple(
      fc.uniqueArray(fc.integer({ min: 10, max: 5000 }), { minLength: least, maxLength: 6 }),
      fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 6, maxLength: 6 }),
    )
    .map(([masses, minutes]): Point[] => {
      const falling = [...minutes].sort((one, other) => other - one);
      const rising = [...masses].sort((one, other) => one - other);
      return rising.map((massGrams, index) => ({ massGrams, potLifeMinutes: falling[index] ?? 1 }));
    });

/** Any of the points may be the one at the sheet's reference mass. */
const sheets = (least: number) =>
  points(least).chain((all) =>
    fc.nat({ max: all.length - 1 }).map((of) => ({
      all,
      material: sheet(all[of] as Point, ...all.filter((_, index) => index !== of)),
    })),
  );

/** The straight line through two points, from its two equations. */
function onLine(one: Point, other: Point, grams: number): number {
  const [[slope = 0] = [], [start = 0] = []] = lusolve(
    [
      [one.massGrams, 1],
      [other.massGrams, 1],
    ],
    [one.potLifeMinutes, other.potLifeMinutes],
  ) as number[][];
  return slope * grams + start;
}

test('between two masses of the sheet it lies on their line (second implementation: mathjs)', () => {
  fc.assert(
    fc.property(sheets(2), fc.double({ min: 0.01, max: 0.99, noNaN: true }), fc.nat(), ({ all, material }, along, pick) => {
      const index = pick % (all.length - 1);
      const [one, other] = [all[index] as Point, all[index + 1] as Point];
      const grams = one.massGrams + along * (other.massGrams - one.massGrams);
      const found = potLifeOf(material, grams);
      expect(found).toMatchObject({ how: 'between', massGrams: grams });
      expect(found.minutes).toBeCloseTo(onLine(one, other, grams), 6);
    }),
  );
});

test('it never leaves the values of the sheet, and a larger mass never lasts longer', () => {
  fc.assert(
    fc.property(
      sheets(1),
      fc.array(fc.double({ min: 0.1, max: 20_000, noNaN: true }), { maxLength: 20 }),
      ({ all, material }, masses) => {
        const values = all.map(({ potLifeMinutes }) => potLifeMinutes);
        let last = Math.max(...values);
        for (const grams of [...masses].sort((one, other) => one - other)) {
          const { minutes } = potLifeOf(material, grams);
          expect(minutes).toBeGreaterThanOrEqual(Math.min(...values));
          expect(minutes).toBeLessThanOrEqual(last + 1e-9);
          last = minutes;
        }
      },
    ),
  );
});

test('at a mass of the sheet it is what the sheet says', () => {
  fc.assert(
    fc.property(sheets(1), ({ all, material }) => {
      for (const { massGrams, potLifeMinutes } of all)
        expect(potLifeOf(material, massGrams)).toEqual({ minutes: potLifeMinutes, massGrams, how: 'sheet' });
    }),
  );
});

describe('beyond what the sheet gives', () => {
  const material = sheet({ massGrams: 100, potLifeMinutes: 18 }, { massGrams: 500, potLifeMinutes: 13 });
  it.each([
    [40, { minutes: 18, massGrams: 100, how: 'smallest' }],
    [900, { minutes: 13, massGrams: 500, how: 'largest' }],
    [300, { minutes: 15.5, massGrams: 300, how: 'between' }],
    [null, { minutes: 18, massGrams: 100, how: 'sheet' }],
  ])('%s g is %o', (grams, expected) => expect(potLifeOf(material, grams)).toEqual(expected));

  it('of one mass, its value is held', () =>
    expect(potLifeOf(sheet({ massGrams: 100, potLifeMinutes: 9 }), 600)).toEqual({ minutes: 9, massGrams: 100, how: 'held' }));

  it('of no mass, its value stands for every cup', () =>
    expect(potLifeOf(ab(1, 1, { potLifeMinutes: 8 }), 600)).toEqual({ minutes: 8, massGrams: null, how: 'sheet' }));
});
