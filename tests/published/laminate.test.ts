import { expect, test } from 'vitest';
import { laminate } from '../../src/trade/laminate/laminate.ts';
import { parseMats } from '../../src/trade/laminate/mats.ts';
import { good } from '../trade/asks.ts';

const within = (got: number, expected: number, relative: number) =>
  expect(Math.abs(got / expected - 1), `${got} against ${expected}`).toBeLessThan(relative);

const mat = (text: string, resinGramsPerMillilitre = 1.2) =>
  laminate({ mats: good(parseMats(text)), areaSquareMetres: 1, fibre: 'glass', fibrePercent: 30, resinGramsPerMillilitre });

// The form of ISO 12215-5 for glass of 2.56 and polyester of 1.2 g/mL, t = w/3.072·(2.56/W − 1.36), from memory.
test('450 g/m² of mat at 30 % of glass is 1.051 mm thick', () => {
  within(mat('450 g/m2').thicknessMillimetres, 1.051, 1e-3);
  within(mat('450 g/m2').thicknessMillimetres, (0.45 / 3.072) * (2.56 / 0.3 - 1.36), 1e-9);
});

// Arithmetic: at 30 % there are 70 parts of resin to 30 of glass.
test('450 g/m² of mat at 30 % takes 1.05 kg/m² of resin, 2.333 times its weight', () => {
  within(mat('450 g/m2').resinGrams, 1050, 1e-9);
  within(mat('450 g/m2').resinGrams / mat('450 g/m2').fibreGrams, 2.333, 1e-3);
});

// mathjs 15.2 gives 457.728 g/m² for an ounce and a half per square foot.
test('1.5 oz mat is 457.728 g/m²', () => within(mat('1.5 oz mat').fibreGrams, 457.728, 1e-6));
