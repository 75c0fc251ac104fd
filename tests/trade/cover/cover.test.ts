import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, bareArea } from '../../../src/trade/body/body.ts';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { type CoverAsk, coatArea, coverOf } from '../../../src/trade/cover/cover.ts';
import { parseRelief, reliefShares } from '../../../src/trade/cover/relief.ts';
import { good, refused } from '../asks.ts';

const NONE: CoverAsk = { reliefFactor: 1, flangeMillimetres: null, partingMillimetres: null, edgePercent: 0 };
const flanged = (body: Body, more: Partial<CoverAsk>) => good(coverOf(body, { ...NONE, ...more })).flangeSquareMetres;

describe('the area to cover', () => {
  it('is a bare area as it is', () => {
    expect(good(coverOf(bareArea(0.4), NONE)).areaSquareMetres).toBe(0.4);
  });

  it('counts more for edges where a share is given', () => {
    const { body } = good(readShapes('box 30 x 20 x 10 cm'));
    // Four walls and the top, by hand: 2 × 0.03 + 2 × 0.02 + 0.06 m².
    expect(good(coverOf(body, NONE)).areaSquareMetres).toBeCloseTo(0.16, 9);
    expect(good(coverOf(body, { ...NONE, edgePercent: 10 })).areaSquareMetres).toBeCloseTo(0.16 * 1.1, 9);
    expect(good(coverOf(body, { ...NONE, reliefFactor: 1.3, edgePercent: 20 })).areaSquareMetres).toBeCloseTo(0.2496, 9);
  });

  it('has a flange around a round foot that is the ring around it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 2000, noNaN: true }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        (radius, width) => {
          const body = { ...bareArea(1), outlineMillimetres: 2 * Math.PI * radius };
          const ring = Math.PI * ((radius + width) ** 2 - radius ** 2);
          expect(flanged(body, { flangeMillimetres: width }) * 1e6).toBeCloseTo(ring, 3);
        },
      ),
    );
  });

  it('has a flange around a square foot of four strips and a rounded corner on each', () => {
    const body = { ...bareArea(1), outlineMillimetres: 4 * 100 };
    // Counted out on a grid of half millimetres: what lies within 40 mm of the square, and not in it.
    let inside = 0;
    for (let x = -49.75; x < 150; x += 0.5)
      for (let y = -49.75; y < 150; y += 0.5) {
        const [dx, dy] = [Math.max(0, -x, x - 100), Math.max(0, -y, y - 100)];
        if (Math.hypot(dx, dy) > 0 && Math.hypot(dx, dy) <= 40) inside += 0.25;
      }
    expect(Math.abs((flanged(body, { flangeMillimetres: 40 }) * 1e6) / inside - 1)).toBeLessThan(1e-3);
  });

  it('has a flange on both sides of a parting line', () => {
    // 1.2 m × 40 mm on each half, by hand.
    expect(flanged(bareArea(0.4), { flangeMillimetres: 40, partingMillimetres: 1200 })).toBeCloseTo(0.096, 12);
    expect(refused(coverOf(bareArea(0.4), { ...NONE, flangeMillimetres: 40 })).code).toBe('no-outline');
  });
});

describe('several pieces and rings', () => {
  const bodyOf = (text: string) => good(readShapes(text)).body;

  it.each(['half sphere 20 cm', 'plate 30 x 20 cm', 'cylinder d 8 cm h 20 cm', 'half torus ring 30 cm tube 5 cm'])(
    'two of %s take exactly twice one, flanges and edges counted',
    (shape) => {
      const area = (text: string) => good(coverOf(bodyOf(text), { ...NONE, flangeMillimetres: 40 })).areaSquareMetres;
      expect(area(`2 x ${shape}`)).toBeCloseTo(2 * area(shape), 12);
      expect(area(`${shape} + ${shape}`)).toBeCloseTo(2 * area(shape), 12);
    },
  );

  it('a ring has a flange outside and one inside', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 900 }),
        fc.integer({ min: 5, max: 50 }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        (ring, tube, share) => {
          const [outer, inner] = [(ring + tube) / 2, (ring - tube) / 2];
          const width = inner * share;
          // Two rings of the plane: the one around it, and the one along the inside of the hole.
          const around = Math.PI * ((outer + width) ** 2 - outer ** 2) + Math.PI * (inner ** 2 - (inner - width) ** 2);
          const body = bodyOf(`half torus ring ${ring} mm tube ${tube} mm`);
          expect(flanged(body, { flangeMillimetres: width }) * 1e6).toBeCloseTo(around, 3);
          const wider = refused(coverOf(body, { ...NONE, flangeMillimetres: inner + 1 }));
          expect(wider.code).toBe('flange-too-wide');
          expect(flanged(body, { flangeMillimetres: Number.parseFloat(wider.example ?? '') })).toBeGreaterThan(0);
        },
      ),
    );
  });
});

describe('coats over a relief', () => {
  // Our rule; common practice, no source.
  it('take all of it, half of its excess, and none', () => {
    const cover = good(
      coverOf(good(readShapes('box 30 x 20 x 10 cm')).body, {
        ...NONE,
        reliefFactor: 1.6,
        flangeMillimetres: 40,
        edgePercent: 10,
      }),
    );
    const flange = cover.flangeSquareMetres;
    // By hand: 0.16 m² × 1.6, × 1.3 and × 1, each with a tenth for edges.
    const areas = reliefShares(4).map((share) => coatArea(cover, share) - flange);
    expect(areas).toEqual([0.2816, 0.2288, 0.176, 0.176].map((each) => expect.closeTo(each, 9)));
  });
});

describe('a relief', () => {
  // Common practice, no source.
  it.each([
    ['smooth', 1],
    ['Skin', 1.1],
    ['wood grain', 1.1],
    ['folds', 1.3],
    ['fodls', 1.3],
    ['deep texture', 1.6],
    ['1,25', 1.25],
    ['1.4x', 1.4],
    ['2', 2],
    ['fur', 2],
    ['1', 1],
    ['3', 3],
  ])('%s is %d', (typed, factor) => {
    expect(parseRelief(typed)).toBe(factor);
  });

  it.each([
    ['0.5', 'relief-out-of-range'],
    ['0.99', 'relief-out-of-range'],
    ['3.01', 'relief-out-of-range'],
    ['12', 'relief-out-of-range'],
    ['hairy', 'relief-unreadable'],
    ['', 'relief-unreadable'],
    ['1.2.3', 'number-unreadable'],
    ['toString', 'relief-unreadable'],
    ['constructor', 'relief-unreadable'],
    ['__proto__', 'relief-unreadable'],
  ])('%s is none', (typed, code) => {
    const refusal = refused(parseRelief(typed));
    expect(refusal.code).toBe(code);
    expect(typeof parseRelief(refusal.example ?? '')).toBe('number');
  });
});
