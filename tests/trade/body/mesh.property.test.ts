import fc from 'fast-check';
import { CapsuleGeometry, IcosahedronGeometry, LatheGeometry, TorusKnotGeometry, Vector2 } from 'three';
import { describe, expect, test } from 'vitest';
import { type MeshReport, measureMesh, type Triangles, warningText } from '../../../src/trade/body/mesh.ts';
import { moved, soup, turnedOver } from './mesh-made.ts';

/** A vase with a flat bottom and a flat top, given by its outline. */
const vase = (radii: readonly number[]): Triangles => {
  const outline = [
    new Vector2(0, 0),
    ...radii.map((radius, at) => new Vector2(radius, at * 20)),
    new Vector2(0, (radii.length - 1) * 20),
  ];
  return moved(soup(new LatheGeometry(outline, 24)), (x, y, z) => [x, -z, y]);
};
const shapes = fc.oneof(
  fc.constantFrom(
    soup(new TorusKnotGeometry(50, 12, 60, 8)),
    soup(new CapsuleGeometry(20, 60, 6, 12)),
    soup(new IcosahedronGeometry(40, 2)),
  ),
  fc.array(fc.integer({ min: 10, max: 90 }), { minLength: 2, maxLength: 6 }).map(vase),
);

/** Frusta one on the other: π h (R² + R r + r²) / 3, for a polygon of 24 corners in place of the circle. */
function vaseVolume(radii: readonly number[]): number {
  const polygon = 12 * Math.sin((2 * Math.PI) / 24);
  return radii.slice(1).reduce((sum, radius, at) => {
    const below = radii[at] as number;
    return sum + (polygon * 20 * (below ** 2 + below * radius + radius ** 2)) / 3;
  }, 0);
}

const near = (got: number | null, expected: number | null, factor = 1) => {
  if (got === null || expected === null) expect(got).toBe(expected);
  else expect(Math.abs(got - expected * factor)).toBeLessThanOrEqual(1e-7 * Math.abs(expected * factor) + 1e-9);
};

function same(got: MeshReport, expected: MeshReport, factor = 1): void {
  expect({ triangles: got.triangles, watertight: got.watertight }).toEqual({ triangles: expected.triangles, watertight: true });
  near(got.body.areaSquareMetres, expected.body.areaSquareMetres, factor ** 2);
  near(got.body.volumeLitres, expected.body.volumeLitres, factor ** 3);
  near(got.body.footSquareMetres, expected.body.footSquareMetres, factor ** 2);
  near(got.body.outlineMillimetres, expected.body.outlineMillimetres, factor);
  near(got.body.steepPercent, expected.body.steepPercent);
  near(got.body.undercutPercent, expected.body.undercutPercent);
}

describe('a mesh', () => {
  test('of frusta holds what frusta hold', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 10, max: 90 }), { minLength: 2, maxLength: 8 }), (radii) => {
        const { body, watertight } = measureMesh(vase(radii), 1);
        expect(watertight).toBe(true);
        expect(Math.abs((body.volumeLitres ?? 0) / (vaseVolume(radii) / 1e6) - 1)).toBeLessThan(1e-6);
        const side = 2 * (radii[0] as number) * Math.sin(Math.PI / 24);
        expect(Math.abs((body.outlineMillimetres ?? 0) / (24 * side) - 1)).toBeLessThan(1e-6);
      }),
      { numRuns: 50 },
    );
  });

  test('measures the same wherever it stands, whichever way it faces, and however large', () => {
    const place = fc.record({
      shape: shapes,
      degrees: fc.integer({ min: 0, max: 359 }),
      off: fc.tuple(
        fc.integer({ min: -2000, max: 2000 }),
        fc.integer({ min: -2000, max: 2000 }),
        fc.integer({ min: -2000, max: 2000 }),
      ),
      scale: fc.constantFrom(1, 0.25, 4, 1024),
    });
    fc.assert(
      fc.property(place, ({ shape, degrees, off, scale }) => {
        const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
        const placed = moved(shape, (x, y, z) => [
          (x * cosine - y * sine) * scale + off[0],
          (x * sine + y * cosine) * scale + off[1],
          z * scale + off[2],
        ]);
        same(measureMesh(placed, 1), measureMesh(shape, 1), scale);
        same(measureMesh(placed, 1 / scale), measureMesh(shape, 1));
      }),
      { numRuns: 60 },
    );
  });

  test('measures the same whichever triangles look the wrong way', () => {
    fc.assert(
      fc.property(shapes, fc.infiniteStream(fc.boolean()), (shape, coins) => {
        const turned = turnedOver(shape, () => coins.next().value as boolean);
        const report = measureMesh(turned, 1);
        same(report, measureMesh(shape, 1));
        for (const warning of report.warnings) expect(JSON.stringify(warningText(warning))).not.toContain('undefined');
      }),
      { numRuns: 40 },
    );
  });

  test('never throws, and never gives what is no number', () => {
    const place = fc.oneof(fc.integer({ min: -2, max: 2 }), fc.double({ min: -100, max: 100, noNaN: true }));
    fc.assert(
      fc.property(fc.array(fc.array(place, { minLength: 9, maxLength: 9 }), { maxLength: 30 }), (triangles) => {
        const { body } = measureMesh({ positions: Float64Array.from(triangles.flat()), indices: null }, 1);
        for (const value of Object.values(body).flat()) if (typeof value === 'number') expect(value).toSatisfy(Number.isFinite);
        expect(body.areaSquareMetres).toBeGreaterThanOrEqual(0);
        expect((body.steepPercent ?? 0) + (body.undercutPercent ?? 0)).toBeLessThanOrEqual(100 + 1e-9);
      }),
      { numRuns: 500 },
    );
  });
});

// A block 1000 mm square whose top is a wave: over whole waves it holds as much as a flat block, and its bottom is flat.
test('a million triangles', () => {
  const cells = 700;
  const height = (x: number, y: number) =>
    100 + 10 * Math.sin((2 * Math.PI * 3 * x) / cells) * Math.sin((2 * Math.PI * 2 * y) / cells);
  const row = cells + 1;
  const positions = new Float32Array(3 * row * row);
  for (let y = 0; y < row; y += 1)
    for (let x = 0; x < row; x += 1) positions.set([(1000 * x) / cells, (1000 * y) / cells, height(x, y)], 3 * (y * row + x));
  const indices: number[] = [];
  for (let y = 0; y < cells; y += 1)
    for (let x = 0; x < cells; x += 1) {
      const at = y * row + x;
      indices.push(at, at + 1, at + row + 1, at, at + row + 1, at + row);
    }
  const edge = (from: number, step: number) => Array.from({ length: cells + 1 }, (_, at) => from + at * step);
  const rims = [edge(0, 1), edge(cells, row), edge(row * row - 1, -1), edge(cells * row, -row)];
  const below = new Map<number, number>();
  const low: number[] = [];
  for (const corner of rims.flat()) {
    if (below.has(corner)) continue;
    below.set(corner, row * row + below.size);
    low.push(positions[3 * corner] as number, positions[3 * corner + 1] as number, 0);
  }
  const middle = row * row + below.size;
  const under = (corner: number) => below.get(corner) as number;
  for (const rim of rims)
    for (let at = 0; at < cells; at += 1) {
      const [a = 0, b = 0] = [rim[at], rim[at + 1]];
      indices.push(a, under(a), b, b, under(a), under(b), under(a), middle, under(b));
    }
  const all = new Float32Array([...positions, ...low, 500, 500, 0]);
  const { body, triangles, watertight } = measureMesh({ positions: all, indices: Uint32Array.from(indices) }, 1);
  expect(triangles).toBe(2 * cells * cells + 4 * cells * 3);
  expect(watertight).toBe(true);
  expect(Math.abs((body.volumeLitres ?? 0) / 100 - 1)).toBeLessThan(1e-6);
  expect(Math.abs((body.footSquareMetres ?? 0) - 1)).toBeLessThan(1e-6);
  expect(Math.abs((body.outlineMillimetres ?? 0) / 4000 - 1)).toBeLessThan(1e-6);
  expect(body.undercutPercent).toBe(0);
});
