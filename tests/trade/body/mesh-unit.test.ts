import { expect, test } from 'vitest';
import { guessUnit, type Triangles } from '../../../src/trade/body/mesh.ts';

const long = (side: number, from = 0): Triangles => ({
  positions: Float64Array.from([from, from, from, from + side, from, from, from, from + side / 2, from]),
  indices: null,
});

// Models are 20 mm to 2 m long, in mm, in or m: common practice, no source.
test.each([
  [2000, 'mm', true],
  [150, 'mm', true],
  [80, 'mm', true],
  [78, 'mm', false],
  [30, 'mm', false],
  [12, 'in', false],
  [3, 'in', false],
  [1.2, 'm', false],
  [0.78, 'm', true],
  [0.149, 'm', true],
  [0.02, 'm', true],
  [0.019, 'm', false],
  [2001, 'mm', false],
  [1e6, 'mm', false],
  [0, 'm', false],
])('a longest side of %d is in %s, sure: %s', (side, unit, sure) => {
  expect(guessUnit(long(side))).toMatchObject({ unit, sure });
});

test('corners that no triangle uses do not count', () => {
  const positions = Float64Array.from([0, 0, 0, 300, 0, 0, 0, 300, 0, 1e6, 0, 0]);
  expect(guessUnit({ positions, indices: Uint32Array.from([0, 1, 2]) })).toEqual({
    millimetresPerUnit: 1,
    unit: 'mm',
    sure: true,
  });
});

test('wherever it stands', () => {
  expect(guessUnit(long(300, -5000))).toMatchObject({ unit: 'mm', sure: true });
});

test('nothing at all', () => {
  expect(guessUnit({ positions: new Float32Array(), indices: null }).sure).toBe(false);
});
