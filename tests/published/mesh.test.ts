import { BoxGeometry, IcosahedronGeometry } from 'three';
import { describe, expect, test } from 'vitest';
import { measureMesh } from '../../src/trade/body/mesh.ts';
import { soup } from '../trade/body/mesh-made.ts';

/** The whole surface, with the face that it stands on; in units of the mesh. */
function wholeOf(geometry: Parameters<typeof soup>[0]) {
  const { body, triangles, watertight } = measureMesh(soup(geometry), 1000);
  return {
    area: body.areaSquareMetres + (body.footSquareMetres ?? 0),
    volume: (body.volumeLitres ?? Number.NaN) / 1000,
    triangles,
    watertight,
  };
}

const off = (got: number, expected: number) => Math.abs(got / expected - 1);

// The geometries are those of three 0.187, a second implementation; three's circumscribed sphere of radius 1.
describe('meshes', () => {
  test('a box of 2 x 3 x 4 has 52 and 24', () => {
    const { area, volume, triangles, watertight } = wholeOf(new BoxGeometry(2, 3, 4));
    expect(off(area, 52)).toBeLessThan(1e-6);
    expect(off(volume, 24)).toBeLessThan(1e-6);
    expect({ triangles, watertight }).toEqual({ triangles: 12, watertight: true });
  });

  // Closed form, from edge a = r / sin(2π/5): area 5√3 a², volume 5(3 + √5)a³/12 (handbook formulae, from memory).
  test('an icosahedron in a sphere of radius 1 has 9.574541 and 2.536151', () => {
    const { area, volume, triangles, watertight } = wholeOf(new IcosahedronGeometry(1));
    const edge = 1 / Math.sin((2 * Math.PI) / 5);
    expect(off(area, 9.574541)).toBeLessThan(1e-6);
    expect(off(area, 5 * Math.sqrt(3) * edge ** 2)).toBeLessThan(1e-6);
    expect(off(volume, 2.536151)).toBeLessThan(1e-6);
    expect(off(volume, (5 / 12) * (3 + Math.sqrt(5)) * edge ** 3)).toBeLessThan(1e-6);
    expect({ triangles, watertight }).toEqual({ triangles: 20, watertight: true });
  });

  // A second implementation gives 12.32906 and 4.04701, 1.9 % and 3.4 % short of the sphere.
  test('320 triangles in a sphere of radius 1 have 12.32906 and 4.04701', () => {
    const { area, volume, triangles, watertight } = wholeOf(new IcosahedronGeometry(1, 3));
    expect(off(area, 12.32906)).toBeLessThan(1e-5);
    expect(off(volume, 4.04701)).toBeLessThan(1e-5);
    expect(1 - area / (4 * Math.PI)).toBeCloseTo(0.019, 3);
    expect(1 - volume / ((4 / 3) * Math.PI)).toBeCloseTo(0.034, 3);
    expect({ triangles, watertight }).toEqual({ triangles: 320, watertight: true });
  });
});
