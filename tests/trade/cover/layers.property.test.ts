import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { coverageOf } from '../../../src/trade/cover/coverage.ts';
import { layerOf } from '../../../src/trade/cover/layers.ts';
import type { Material } from '../../../src/trade/material.ts';
import { parseArea, parseLength } from '../../../src/trade/measures/quantity.ts';
import { weigh } from '../../../src/trade/mixing/mix.ts';
import { good, SCALE } from '../asks.ts';
import { ab, material, part } from '../example.ts';
import { poursOver } from './pours.ts';

const DENSE = { gramsPerMillilitre: 1.1 };
const materials = fc
  .record({
    a: fc.integer({ min: 10, max: 100 }),
    b: fc.integer({ min: 10, max: 100 }),
    densities: fc.tuple(fc.integer({ min: 90, max: 280 }), fc.integer({ min: 90, max: 280 })),
    mostGrams: fc.option(fc.integer({ min: 400, max: 5000 })),
  })
  .map(({ a, b, densities: [first, second], mostGrams }) =>
    material(
      [part('A', a, { gramsPerMillilitre: first / 100 }), part('B', b, { gramsPerMillilitre: second / 100, pascalSeconds: 50 })],
      { mostGrams },
    ),
  );
const coats = fc
  .array(fc.integer({ min: 30, max: 1200 }), { minLength: 1, maxLength: 5 })
  .map((all) => all.map((one) => one / 100));
const areas = fc.double({ min: 0.01, max: 8, noNaN: true });

/** What weighs as much as a layer of it: the mass and the volume of a batch, mixed part by part. */
function heavyAs({ parts }: Material): number {
  const [grams, millilitres] = [1, 2].map((which) =>
    parts.reduce((sum, each) => sum + each.weightShare / (which === 1 ? 1 : (each.gramsPerMillilitre ?? 0)), 0),
  );
  return (grams ?? 0) / (millilitres ?? 1);
}

describe('a layer', () => {
  it('is mixed in the cups that weighing out gives, and its parts add up to it', () => {
    fc.assert(
      fc.property(materials, coats, areas, fc.integer({ min: 0, max: 30 }), (rubber, thicknesses, area, waste) => {
        const scale = { stepGrams: 1, mostGrams: 3000 };
        const layer = layerOf('skin', rubber, poursOver(area, thicknesses), waste, scale);
        expect(layer?.parts.reduce((sum, { grams }) => sum + grams, 0)).toBeCloseTo(layer?.grams ?? 0, 6);
        // Each coat by itself: what was asked for in a cup, as the mix weighs it out.
        let [grams, cups] = [0, 0];
        for (const millimetres of thicknesses) {
          const one = layerOf('skin', rubber, poursOver(area, [millimetres]), waste, scale)?.firstCup ?? {
            count: 0,
            askGrams: 0,
          };
          const amount = { quantity: { kind: 'mass', grams: one.askGrams }, of: null } as const;
          const mix = good(weigh(rubber, { amount, by: 'weight', additives: [] }, { ...SCALE, ...scale }));
          grams += mix.totalGrams * one.count;
          cups += one.count;
          expect(mix.totalGrams).toBeLessThanOrEqual(Math.min(rubber.mostGrams ?? 3000, 3000));
        }
        expect([layer?.grams, layer?.cups]).toEqual([expect.closeTo(grams, 6), cups]);
      }),
      { numRuns: 300 },
    );
  });

  it('weighs what its volume does, to a step of the scale for each part of each cup', () => {
    fc.assert(
      fc.property(materials, coats, areas, fc.integer({ min: 0, max: 30 }), (rubber, thicknesses, area, waste) => {
        const layer = layerOf('skin', rubber, poursOver(area, thicknesses), waste, { stepGrams: 0.1, mostGrams: null });
        const litres = (area * thicknesses.reduce((sum, each) => sum + each, 0)) / 1;
        expect(layer?.volumeLitres).toBeCloseTo(litres, 5);
        expect(layer?.curedGrams).toBeCloseTo(litres * heavyAs(rubber) * 1000, 1);
        const mixed = litres * heavyAs(rubber) * 1000 * (1 + waste / 100);
        if (!layer?.raised) expect(Math.abs((layer?.grams ?? 0) - mixed)).toBeLessThan(0.2 * (layer?.cups ?? 0) + 0.1);
        else expect(layer.grams).toBeGreaterThan(mixed - 0.2 * layer.cups - 0.1);
      }),
      { numRuns: 300 },
    );
  });

  it('over a half sphere weighs what adding up its small patches gives', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 1, max: 8 }), (radius, millimetres) => {
        const { body } = good(readShapes(`half sphere ${2 * radius} cm`));
        const rubber = ab(1, 1, { parts: [part('A', 1, DENSE), part('B', 1, DENSE)] });
        let grams = 0;
        const steps = 400;
        for (let i = 0; i < steps; i += 1) {
          // Rings of latitude, from the foot to the top; each is a strip around its middle. Centimetres.
          const up = ((i + 0.5) / steps) * (Math.PI / 2);
          const ring = 2 * Math.PI * radius * Math.cos(up) * ((radius * (Math.PI / 2)) / steps);
          grams += ring * (millimetres / 10) * 1.1;
        }
        const layer = layerOf('skin', rubber, poursOver(body.areaSquareMetres, [millimetres]), 0, SCALE);
        expect(Math.abs((layer?.curedGrams ?? 0) / grams - 1)).toBeLessThan(1e-4);
      }),
    );
  });

  it('is the same whatever the units it is given in', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 5000 }), fc.integer({ min: 1, max: 16 }), (squareInches, sixteenths) => {
        // An inch is 25.4 mm, by definition.
        const grams = (area: string, thickness: string) =>
          layerOf(
            'skin',
            ab(2, 3, { parts: [part('A', 2, DENSE), part('B', 3, DENSE)] }),
            poursOver(good(parseArea(area)), [good(parseLength(thickness))]),
            10,
            SCALE,
          )?.grams;
        const metric = [`${(squareInches * 6.4516).toFixed(4)} cm2`, `${((sixteenths * 25.4) / 16).toFixed(4)} mm`] as const;
        expect(grams(`${squareInches} sq in`, `${sixteenths}/16 in`)).toBe(grams(...metric));
      }),
    );
  });
});

describe('all layers together', () => {
  it('sum up what each of them takes, weighs and costs', () => {
    const { body } = good(readShapes('box 30 x 20 x 10 cm'));
    fc.assert(
      fc.property(materials, materials, areas, fc.integer({ min: 1, max: 90 }), (skin, shell, area, price) => {
        const priced = (one: Material, id: string) => ({ ...one, id, price: { perKilogram: price, currency: 'EUR' } });
        const laid = [
          { role: 'skin' as const, material: priced(skin, 'skin'), pours: poursOver(area, [1.2, 1.8]), how: 'brushed' as const },
          { role: 'shell' as const, material: priced(shell, 'shell'), pours: poursOver(area, [8]), how: 'laid' as const },
        ];
        const all = good(coverageOf(body, laid, 10, SCALE));
        const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
        expect(all.totalGrams).toBeCloseTo(sum(all.layers.flatMap(({ parts }) => parts.map(({ grams }) => grams))), 6);
        expect(all.mouldGrams).toBeCloseTo(area * (3 * heavyAs(skin) + 8 * heavyAs(shell)) * 1000, 0);
        expect(Math.abs((all.cost?.amount ?? 0) - (all.totalGrams / 1000) * price)).toBeLessThan(0.02);
      }),
      { numRuns: 200 },
    );
  });
});
