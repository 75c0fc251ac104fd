import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bareArea } from '../../../src/trade/body/body.ts';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { coverageOf, type LayerRole } from '../../../src/trade/cover/coverage.ts';
import { runsFromDegrees } from '../../../src/trade/cover/hold.ts';
import { blockOf, LIFT_ALONE_GRAMS, shellLayers, shellMillimetres } from '../../../src/trade/cover/mould.ts';
import type { Material } from '../../../src/trade/material.ts';
import { good, refused, SCALE } from '../asks.ts';
import { material, part } from '../example.ts';
import { poursOver } from './pours.ts';

const sized = (longest: number) => ({ ...bareArea(1), boxMillimetres: [longest, 10, 10] as const, longestMillimetres: longest });
const RUBBER = material([part('A', 1, { gramsPerMillilitre: 1.2 })], {
  coat: { thicknessMillimetres: 1, mostMillimetres: 2 },
  price: { perKilogram: 20, currency: 'EUR' },
});
const laid = (role: LayerRole, of: Material, ...millimetres: number[]) => [
  { role, material: of, pours: poursOver(0.16, millimetres), how: role === 'shell' ? ('laid' as const) : ('brushed' as const) },
];

describe('a shell', () => {
  // Our own rule; common practice, no source.
  it.each([
    [100, 6],
    [300, 6],
    // It rounds to one more for the first time a twelfth of these 700 mm on, at 358⅓ mm, for the last time at 941⅔ mm.
    [358, 6],
    [359, 7],
    [650, 9],
    [941, 11],
    [942, 12],
    [1000, 12],
    [3000, 12],
  ])('of something %d mm long is %d mm thick', (longest, thick) => {
    expect(shellMillimetres(sized(longest), null)).toBe(thick);
  });

  it('goes by the side of a square where only the area is known', () => {
    expect(shellMillimetres(bareArea(1), null)).toBe(12);
    expect(shellMillimetres(bareArea(0.09), null)).toBe(6);
  });

  // A paste, a laminate and plaster: common practice, no source.
  it.each([
    [10, 15, 12],
    [2, 4, 4],
    [20, 40, 20],
  ])('of layers of %d to %d mm is no thinner than one and no thicker than the most: %d mm', (usual, most, thick) => {
    expect(shellMillimetres(bareArea(1), { thicknessMillimetres: usual, mostMillimetres: most })).toBe(thick);
  });

  it('goes on in equal layers, none over what holds, and no more of them than it takes', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 60, noNaN: true }), fc.double({ min: 0.5, max: 20, noNaN: true }), (thick, most) => {
        const layers = shellLayers(thick, 1, most);
        expect(layers.reduce((sum, each) => sum + each, 0)).toBeCloseTo(thick, 9);
        expect(Math.max(...layers)).toBeLessThanOrEqual(most + 1e-6);
        expect((layers.length - 1) * most).toBeLessThan(thick);
      }),
    );
  });
});

describe('a solid block', () => {
  it('of a box is its four walls and its top', () => {
    fc.assert(
      fc.property(
        fc.tuple(...[1, 2, 3].map(() => fc.integer({ min: 20, max: 900 }))),
        fc.integer({ min: 12, max: 40 }),
        (sides, wall) => {
          const [x = 0, y = 0, z = 0] = sides;
          const { body } = good(readShapes(`box ${x} x ${y} x ${z} mm`));
          // Two long walls over the whole length, two short ones between them, and the top over the model alone.
          const walls = 2 * (x + 2 * wall) * wall * (z + wall) + 2 * y * wall * (z + wall);
          expect(blockOf(body, wall)?.volumeLitres).toBeCloseTo((walls + x * y * wall) / 1e6, 6);
        },
      ),
    );
  });

  it('has at least 12 mm around the model, and is not known of a bare area', () => {
    // Common practice, no source: 10 to 15 mm.
    const { body } = good(readShapes('box 300 x 200 x 100 mm'));
    expect(good(coverageOf(body, laid('skin', RUBBER, 3), 10, SCALE)).block?.wallMillimetres).toBe(12);
    expect(blockOf(bareArea(0.4), 3)).toBeNull();
  });

  it('is set against the skin, in weight and in money', () => {
    const { body } = good(readShapes('box 300 x 200 x 100 mm'));
    const { block, cost } = good(coverageOf(body, laid('skin', RUBBER, 0.7, 0.9, 1.1, 1.3), 10, SCALE));
    // 324 × 224 × 112 mm less 6 L is 2.128512 L; × 1.2 kg/L × 1.1 is 2809.6 g, at 20 EUR/kg; by hand.
    expect(block).toMatchObject({ grams: 2810, cost: 56.2, currency: 'EUR' });
    // 4 mm in all: 0.16 m² × 4 mm × 1.2 kg/L × 1.1 is 844.8 g.
    expect(cost?.amount).toBeCloseTo(0.845 * 20, 1);
  });
});

describe('a steep wall', () => {
  const { body } = good(readShapes('box 300 x 200 x 100 mm'));

  it('is warned of where a shell is thicker than holds there, and only then', () => {
    const paste = { ...RUBBER, coat: { thicknessMillimetres: 10, mostMillimetres: 15 } };
    const layer = (yieldPascals: number | null, of = body) =>
      good(coverageOf(of, laid('shell', { ...paste, yieldPascals }, 10), 10, SCALE)).layers[0];
    expect(layer(250)?.runs).toBeNull();
    expect(layer(null)?.runs).toBeNull();
    expect(layer(60, bareArea(0.16))?.runs).toBeNull();
    // 60 Pa hold 5.1 mm of it upright, and 10 mm up to 30.65°: sin θ = 60 / (1200 × 9.80665 × 0.010).
    expect(layer(60)?.runs).toEqual({ holdsMillimetres: expect.closeTo(5.0986, 3), fromDegrees: expect.closeTo(30.65, 1) });
  });

  it('runs where its weight along the slope is more than its yield stress', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: 0.9, max: 2.8, noNaN: true }),
        (millimetres, pascals, density) => {
          const from = runsFromDegrees(millimetres, pascals, density);
          const stress = (degrees: number) => density * 9.80665 * millimetres * Math.sin((degrees * Math.PI) / 180);
          if (from === null) expect(stress(90)).toBeLessThanOrEqual(pascals + 1e-9);
          else {
            expect(stress(from * 0.99)).toBeLessThan(pascals);
            if (from < 89) expect(stress(from * 1.01)).toBeGreaterThan(pascals);
          }
        },
      ),
    );
  });
});

describe('what cannot be told', () => {
  it('is refused: a part without a density', () => {
    const unknown = material([part('A', 1)]);
    expect(refused(coverageOf(bareArea(1), laid('skin', unknown, 1), 10, SCALE)).code).toBe('density-missing');
  });
});

// The load constant of the revised NIOSH lifting equation, 23 kg, from memory.
it('what one lifts alone is up to 23 kg', () => expect(LIFT_ALONE_GRAMS).toBe(23_000));
