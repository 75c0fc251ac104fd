import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import { FIBRE_GRAMS_PER_MILLILITRE, FIBRES, usualFraction } from '../../../src/trade/laminate/fibres.ts';
import { laminate } from '../../../src/trade/laminate/laminate.ts';

const near = (got: number, expected: number, relative = 1e-9) =>
  expect(Math.abs(got - expected), `${got} against ${expected}`).toBeLessThanOrEqual(
    relative * Math.max(1e-6, Math.abs(expected)),
  );

const mats = fc.array(
  fc.record({
    gramsPerSquareMetre: fc.integer({ min: 20, max: 1500 }),
    count: fc.integer({ min: 1, max: 8 }),
    make: fc.constantFrom(null, 'mat' as const, 'cloth' as const),
  }),
  { minLength: 1, maxLength: 4 },
);
const area = fc.double({ min: 0.001, max: 50, noNaN: true });
const percent = fc.double({ min: 10, max: 75, noNaN: true });

test('each layer of glass in a resin of 1.2 g/mL is as thick as ISO 12215-5 has it (its form from memory)', () => {
  fc.assert(
    fc.property(mats, percent, (layers, fibrePercent) => {
      const laid = laminate({ mats: layers, areaSquareMetres: 1, fibre: 'glass', fibrePercent, resinGramsPerMillilitre: 1.2 });
      for (const { gramsPerSquareMetre, thicknessMillimetres } of laid.layers)
        near(thicknessMillimetres, (gramsPerSquareMetre / 1000 / 3.072) * (2.56 / (fibrePercent / 100) - 1.36));
    }),
  );
});

test('weights and volumes add up: what lies on the area is fibre and resin, and nothing else', () => {
  fc.assert(
    fc.property(
      mats,
      area,
      fc.option(percent),
      fc.constantFrom(...FIBRES),
      fc.double({ min: 0.9, max: 1.6, noNaN: true }),
      (layers, areaSquareMetres, fibrePercent, fibre, resinGramsPerMillilitre) => {
        const laid = laminate({ mats: layers, areaSquareMetres, fibre, fibrePercent, resinGramsPerMillilitre });
        const fibreDensity = FIBRE_GRAMS_PER_MILLILITRE[fibre];
        // A square metre of a millimetre is a litre.
        const millilitres = laid.fibreGrams / fibreDensity + laid.resinGrams / resinGramsPerMillilitre;
        near(laid.thicknessMillimetres * areaSquareMetres * 1000, millilitres);
        near(laid.fibreGrams / (laid.fibreGrams + laid.resinGrams), laid.fibreWeightFraction);
        // The rule of mixtures, from the weight fraction alone.
        const w = laid.fibreWeightFraction;
        near(laid.fibreVolumeFraction, 1 / (1 + (fibreDensity * (1 - w)) / (resinGramsPerMillilitre * w)));
        expect(laid.layerCount).toBe(layers.flatMap(({ count }) => Array.from({ length: count })).length);
        if (fibrePercent !== null) near(w, fibrePercent / 100);
      },
    ),
  );
});

it('takes what is usual for each layer: common practice, no source', () => {
  const mixed = [
    { gramsPerSquareMetre: 300, count: 1, make: 'mat' as const },
    { gramsPerSquareMetre: 450, count: 2, make: 'cloth' as const },
    { gramsPerSquareMetre: 450, count: 1, make: null },
  ];
  const of = (fibre: 'glass' | 'carbon') =>
    laminate({ mats: mixed, areaSquareMetres: 2, fibre, fibrePercent: null, resinGramsPerMillilitre: 1.1 });
  expect(of('glass').layers.map(({ fibrePercent }) => fibrePercent)).toEqual([30, 45, 30]);
  expect(of('carbon').layers.map(({ make }) => make)).toEqual(['mat', 'cloth', 'cloth']);
  // 2 m² × (300 × 7/3 + 900 × 11/9 + 450 × 7/3), by hand.
  expect(of('glass').resinGrams).toBeCloseTo(5700, 6);
});

it('has the densities of its fibres', () =>
  // Glass as in the published check; the others are usual handbook values, from memory.
  expect(FIBRE_GRAMS_PER_MILLILITRE).toEqual({ glass: 2.56, carbon: 1.8, aramid: 1.44, flax: 1.5, jute: 1.46 }));

// Common practice, no source: plant fibres soak up more resin than glass does.
it.each([
  ['glass', 30, 45],
  ['carbon', 30, 45],
  ['aramid', 30, 45],
  ['flax', 25, 35],
  ['jute', 25, 35],
] as const)('of %s there are %d of a hundred in a mat, %d in a cloth, by weight', (fibre, mat, cloth) =>
  expect([usualFraction(fibre, 'mat'), usualFraction(fibre, 'cloth')]).toEqual([mat, cloth]),
);
