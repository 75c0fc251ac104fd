import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fillingOf } from '../../../src/trade/cover/laminated.ts';
import { layerOf } from '../../../src/trade/cover/layers.ts';
import { SCALE } from '../asks.ts';
import { material, part } from '../example.ts';
import { poursOver } from './pours.ts';

const resin = (density: number, more = {}) =>
  material([part('A', 1, { gramsPerMillilitre: density, pascalSeconds: 0.5 })], {
    family: 'polyester',
    use: ['shell'],
    yieldPascals: null,
    ...more,
  });

it('a laminated shell is three tenths glass by weight, and as thick as it is wished', () => {
  fc.assert(
    fc.property(fc.integer({ min: 90, max: 140 }), fc.double({ min: 0.01, max: 50, noNaN: true }), (hundredths, litres) => {
      // Rule of mixtures, from a handbook of composites (from memory): 1/ρ = Wf/ρf + Wm/ρm, with E-glass of 2.56 g/mL.
      const density = 1 / (0.3 / 2.56 + 0.7 / (hundredths / 100));
      const filling = fillingOf('shell', resin(hundredths / 100), litres);
      expect((filling?.glassGrams ?? 0) / (litres * density * 300)).toBeCloseTo(1, 9);
      expect((filling?.grams ?? 0) / (litres * density * 700)).toBeCloseTo(1, 9);
    }),
  );
});

it('a paste and a skin go on without glass', () => {
  expect(fillingOf('shell', resin(1.35, { yieldPascals: 400 }), 1)).toEqual({ grams: 1350, glassGrams: null });
  expect(fillingOf('skin', resin(1.1), 1)).toEqual({ grams: expect.closeTo(1100, 9), glassGrams: null });
  const thick = material([part('A', 1, { gramsPerMillilitre: 1.3, pascalSeconds: 200 })], { family: 'epoxy', use: ['shell'] });
  expect(fillingOf('shell', thick, 1)?.glassGrams).toBeNull();
  // Nobody says how thick it is.
  const unknown = material([part('A', 1, { gramsPerMillilitre: 1.3 })], { family: 'epoxy', use: ['shell'] });
  expect(fillingOf('shell', unknown, 1)).toEqual({ grams: 1300, glassGrams: null });
});

it('what the mould weighs counts both, what is mixed only the resin', () => {
  const layer = layerOf('shell', resin(1.1), poursOver(0.5, [4]), 10, SCALE);
  // Two litres; 1/ρ = 0.3/2.56 + 0.7/1.1, by hand: 1.327 g/mL, so 2654 g, 796 g of which is glass.
  expect([layer?.curedGrams, layer?.glassGrams, layer?.grams].map((grams) => Math.round(grams ?? 0))).toEqual([2654, 796, 2044]);
});
