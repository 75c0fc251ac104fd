import { BoxGeometry, CircleGeometry, ExtrudeGeometry, Path, PlaneGeometry, Shape } from 'three';
import { describe, expect, test } from 'vitest';
import { measureMesh, type Triangles } from '../../../src/trade/body/mesh.ts';
import { moved, only, soup, together, turnedOver } from './mesh-made.ts';

/** 200 x 300 x 400 mm. */
const box = () => soup(new BoxGeometry(200, 300, 400));
/** three's round bodies stand along y. */
const codes = (triangles: Triangles) => measureMesh(triangles, 1).warnings.map(({ code, count }) => [code, count]);

describe('what may be wrong with a mesh', () => {
  test('some triangles look the wrong way: they are turned, and counted', () => {
    const { body, warnings } = measureMesh(
      turnedOver(box(), (triangle) => triangle === 2 || triangle === 9),
      1,
    );
    expect(body).toEqual(measureMesh(box(), 1).body);
    expect(warnings).toEqual([{ code: 'flipped', count: 2 }]);
  });

  test('inside out: it is turned', () => {
    const { body, warnings } = measureMesh(
      turnedOver(box(), () => true),
      1,
    );
    expect(body).toEqual(measureMesh(box(), 1).body);
    expect(warnings).toEqual([{ code: 'inside-out', count: 1 }]);
  });

  test('a hollow inside is taken off the volume, whichever way round the whole is', () => {
    const hollow = together(
      box(),
      turnedOver(soup(new BoxGeometry(100, 100, 100)), () => true),
    );
    for (const mesh of [hollow, turnedOver(hollow, () => true)]) {
      const { body, warnings } = measureMesh(mesh, 1);
      expect(body.volumeLitres).toBeCloseTo(23, 10);
      expect(warnings).toContainEqual({ code: 'cavity', count: 1 });
    }
  });

  test('two bodies, one of them inside out', () => {
    const apart = moved(
      turnedOver(soup(new BoxGeometry(100, 100, 100)), () => true),
      (x, y, z) => [x + 500, y, z],
    );
    expect(measureMesh(together(box(), apart), 1).body.volumeLitres).toBeCloseTo(25, 10);
    expect(codes(together(box(), apart))).toEqual([
      ['several', 2],
      ['inside-out', 1],
    ]);
  });

  test('two boxes that share an edge are closed, and cross there', () => {
    const next = moved(box(), (x, y, z) => [x + 200, y + 300, z]);
    const { body, watertight, warnings } = measureMesh(together(box(), next), 1);
    expect(watertight).toBe(true);
    expect(body.volumeLitres).toBeCloseTo(48, 10);
    expect(warnings).toEqual([{ code: 'crossing', count: 1 }]);
  });

  test('a wall inside leaves no volume to trust', () => {
    const wall = moved(soup(new PlaneGeometry(200, 400)), (x, y) => [x, 150, y]);
    const lid = only(box(), (_, corners) => !corners.every((corner) => corner[1] === 150));
    const doubled = together(
      box(),
      moved(lid, (x, y, z) => [x, 300 - y, z]),
    );
    expect(measureMesh(doubled, 1).body.volumeLitres).toBeNull();
    expect(codes(doubled).map(([code]) => code)).toEqual(expect.arrayContaining(['one-sided', 'crossing']));
    expect(measureMesh(together(lid, wall), 1).openEdges).toBe(0);
  });

  // A strip with half a twist, whose ends are joined: no way to turn its triangles makes all of them agree.
  test('a strip with one side', () => {
    const place = (at: number, side: number): [number, number, number] => {
      const angle = (2 * Math.PI * at) / 32;
      const out = 100 + side * 30 * Math.cos(angle / 2);
      return at === 32 ? place(0, -side) : [out * Math.cos(angle), out * Math.sin(angle), side * 30 * Math.sin(angle / 2)];
    };
    const positions = Float64Array.from(
      Array.from({ length: 32 }, (_, at) => {
        const [a, b, c, d] = [place(at, -1), place(at, 1), place(at + 1, -1), place(at + 1, 1)];
        return [a, c, b, b, c, d];
      }).flat(2),
    );
    const { body, warnings, openEdges } = measureMesh({ positions, indices: null }, 1);
    expect(openEdges).toBe(64);
    expect(warnings.map(({ code }) => code)).toContain('one-sided');
    expect(body.volumeLitres).toBeNull();
  });

  test('triangles without an area change nothing', () => {
    const more = Float64Array.from([0, 0, 200, 0, 0, 200, 50, 0, 200, 1, 1, 200, 2, 2, 200, 1, 1, 200]);
    const { body, watertight, warnings } = measureMesh(together(box(), { positions: more, indices: null }), 1);
    expect(body).toEqual(measureMesh(box(), 1).body);
    expect(watertight).toBe(true);
    expect(warnings).toEqual([{ code: 'degenerate', count: 2 }]);
  });

  test('corners that were rounded in two ways are one, farther ones are not', () => {
    const gap = (wide: number) => box().positions.map((value, at) => (at % 9 < 3 ? value + wide : value));
    const measured = (wide: number) => measureMesh({ positions: gap(wide) as Float64Array, indices: null }, 1);
    expect(measured(1e-4).watertight).toBe(true);
    expect(measured(1e-2).openEdges).toBeGreaterThan(0);
  });

  test('nothing at all', () => {
    const { body, triangles, warnings } = measureMesh({ positions: new Float32Array(), indices: null }, 1);
    expect({ triangles, area: body.areaSquareMetres, steep: body.steepPercent, warnings }).toEqual({
      triangles: 0,
      area: 0,
      steep: null,
      warnings: [],
    });
  });

  test('a plate of many parts', () => {
    const disc = soup(new CircleGeometry(1, 3));
    const parts = Array.from({ length: 3000 }, (_, part) => moved(disc, (x, y, z) => [x + 3 * part, y, z]));
    expect(codes(together(...parts))).toContainEqual(['several', 3000]);
  });
});

describe('outlines', () => {
  const ring = (outer: number, inner: number) => {
    const flat = new Shape().absarc(0, 0, outer, 0, 2 * Math.PI, false);
    flat.holes.push(new Path().absarc(0, 0, inner, 0, 2 * Math.PI, true));
    return new ExtrudeGeometry(flat, { depth: 30, bevelEnabled: false, curveSegments: 400 });
  };
  const openBelow = (whole: Triangles) => only(whole, (_, corners) => !corners.every((corner) => corner[2] === 0));

  test.each([
    ['closed', (whole: Triangles) => whole],
    ['open below', openBelow],
  ])('of a ring run around it and around its hole: %s', (_, made) => {
    const { body } = measureMesh(made(soup(ring(100, 60))), 1);
    // The circumferences of both circles.
    expect(Math.abs((body.outlineMillimetres ?? 0) / (2 * Math.PI * 160) - 1)).toBeLessThan(1e-3);
    expect(body.outlineTurns).toBe(0);
    expect(body.holeRadiusMillimetres).toBeCloseTo(60, 1);
    expect(Math.abs((body.footSquareMetres ?? 0) / ((Math.PI * (100 ** 2 - 60 ** 2)) / 1e6) - 1)).toBeLessThan(1e-3);
  });

  test('of two boxes are two', () => {
    const { body } = measureMesh(
      together(
        box(),
        moved(box(), (x, y, z) => [x + 500, y, z]),
      ),
      1,
    );
    expect([body.outlineMillimetres, body.outlineTurns, body.holeRadiusMillimetres]).toEqual([expect.closeTo(2000, 6), 2, null]);
  });
});
