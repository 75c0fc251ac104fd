import {
  BoxGeometry,
  CircleGeometry,
  ConeGeometry,
  CylinderGeometry,
  LatheGeometry,
  PlaneGeometry,
  SphereGeometry,
  Vector2,
} from 'three';
import { describe, expect, test } from 'vitest';
import { measureMesh, type Triangles } from '../../../src/trade/body/mesh.ts';
import { moved, only, soup, together, turnedOver } from './mesh-made.ts';

/** 200 x 300 x 400 mm. */
const box = () => soup(new BoxGeometry(200, 300, 400));
const atBottom = (corners: number[][], height: number) => corners.every((corner) => corner[2] === -height / 2);
/** three's round bodies stand along y. */
const standing = (triangles: Triangles) => moved(triangles, (x, y, z) => [x, -z, y]);
const codes = (triangles: Triangles) => measureMesh(triangles, 1).warnings.map(({ code, count }) => [code, count]);

describe('a closed mesh', () => {
  test('a box stands on its bottom', () => {
    expect(measureMesh(box(), 1)).toEqual({
      body: {
        areaSquareMetres: expect.closeTo(0.52 - 0.06, 12),
        volumeLitres: expect.closeTo(24, 10),
        boxMillimetres: [200, 300, 400],
        outlineMillimetres: expect.closeTo(1000, 10),
        footSquareMetres: expect.closeTo(0.06, 12),
        steepPercent: expect.closeTo((100 * 0.4) / 0.46, 9),
        undercutPercent: 0,
      },
      triangles: 12,
      watertight: true,
      openEdges: 0,
      warnings: [],
    });
  });

  test('where y points up it stands on another side', () => {
    const { body } = measureMesh(box(), 1, 'y');
    expect(body.boxMillimetres).toEqual([200, 400, 300]);
    expect(body.footSquareMetres).toBeCloseTo(0.08, 12);
    expect(body.volumeLitres).toBeCloseTo(24, 10);
  });

  test('units are carried through', () => {
    const { body } = measureMesh(soup(new BoxGeometry(2, 3, 4)), 25.4);
    expect(body.boxMillimetres).toEqual([50.8, expect.closeTo(76.2, 10), 101.6]);
    expect(body.volumeLitres).toBeCloseTo(24 * 0.0254 ** 3 * 1000, 12);
    expect(body.outlineMillimetres).toBeCloseTo(10 * 25.4, 10);
  });

  test('a ball stands on nothing', () => {
    for (const around of [16, 200]) {
      const { body, watertight } = measureMesh(standing(soup(new SphereGeometry(100, around, around / 2))), 1);
      expect({ watertight, outline: body.outlineMillimetres, foot: body.footSquareMetres }).toEqual({
        watertight: true,
        outline: null,
        foot: null,
      });
    }
  });

  // Zones of a sphere are as their heights (Archimedes): below −2° half less sin 2°, and from there up to a slope of 60°.
  test('a ball is steep and undercut as its zones are high', () => {
    const { body } = measureMesh(standing(soup(new SphereGeometry(100, 200, 400))), 1);
    const two = Math.sin((2 * Math.PI) / 180);
    expect(Math.abs((body.undercutPercent ?? 0) - 50 * (1 - two))).toBeLessThan(0.4);
    expect(Math.abs((body.steepPercent ?? 0) - 50 * (0.5 + two))).toBeLessThan(0.8);
  });

  test('a cone upside down is all undercut but for its lid', () => {
    const cone = moved(standing(soup(new ConeGeometry(100, 100, 720))), (x, y, z) => [x, -y, -z]);
    const { body } = measureMesh(cone, 1);
    expect(body.undercutPercent).toBeCloseTo((100 * Math.SQRT2) / (1 + Math.SQRT2), 2);
    expect(body.steepPercent).toBe(0);
    expect(body.outlineMillimetres).toBeNull();
  });

  test('a wall of just 60° is not steep, one of 61° is', () => {
    const wall = (degrees: number) => standing(soup(new ConeGeometry(100, 100 * Math.tan((degrees * Math.PI) / 180), 4)));
    const slanting = (degrees: number) => measureMesh(wall(degrees), 1).body.steepPercent;
    // The sides of a pyramid of four corners lie farther in than its edges, so that they are steeper.
    const inwards = (degrees: number) => (Math.atan(Math.tan((degrees * Math.PI) / 180) * Math.cos(Math.PI / 4)) * 180) / Math.PI;
    expect(slanting(inwards(60))).toBe(0);
    expect(slanting(inwards(61))).toBeCloseTo(100, 9);
  });

  test('a foot of a few tenths off the board is one, a rounded bottom is none', () => {
    const rough = moved(box(), (x, y, z) => [x, y, z < 0 && x > 0 && y > 0 ? z + 0.2 : z]);
    expect(measureMesh(rough, 1).body.footSquareMetres).toBeCloseTo(0.06, 6);
    const tilted = moved(box(), (x, y, z) => [x, y, z < 0 && x > 0 ? z + 20 : z]);
    expect(measureMesh(tilted, 1).body.footSquareMetres).toBeNull();
  });

  test('a million millimetres off the origin', () => {
    const far = moved(soup(new SphereGeometry(100, 64, 32)), (x, y, z) => [x + 1e6, y - 1e6, z + 1e6]);
    const near = measureMesh(soup(new SphereGeometry(100, 64, 32)), 1);
    const { body, watertight } = measureMesh(far, 1);
    expect(watertight).toBe(true);
    expect(Math.abs((body.volumeLitres ?? 0) / (near.body.volumeLitres ?? 1) - 1)).toBeLessThan(1e-9);
  });
});

describe('an open mesh', () => {
  const withoutBottom = () => only(box(), (_, corners) => !atBottom(corners, 400));

  test('a box without a bottom is closed by its plane', () => {
    const { body, watertight, openEdges, warnings } = measureMesh(withoutBottom(), 1);
    expect(body.areaSquareMetres).toBeCloseTo(0.46, 12);
    expect(body.volumeLitres).toBeCloseTo(24, 10);
    expect(body.outlineMillimetres).toBeCloseTo(1000, 10);
    expect(body.footSquareMetres).toBeCloseTo(0.06, 12);
    expect({ watertight, openEdges, warnings }).toEqual({
      watertight: false,
      openEdges: 4,
      warnings: [{ code: 'closed-by-plane', count: 4 }],
    });
  });

  test('and so it is where it leans, to whatever side', () => {
    const [sine, cosine] = [Math.sin(Math.PI / 5), Math.cos(Math.PI / 5)];
    const back = moved(withoutBottom(), (x, y, z) => [x, y * cosine - z * sine, y * sine + z * cosine]);
    const aside = moved(back, (x, y, z) => [x * cosine - z * sine, y, x * sine + z * cosine]);
    for (const leaning of [back, aside]) expect(measureMesh(leaning, 1).body.volumeLitres).toBeCloseTo(24, 9);
  });

  // The cap of a sphere with its centre in the plane: 2πr² and 2πr³/3, and a rim of 2πr.
  test('half a ball', () => {
    const dome = standing(soup(new SphereGeometry(100, 360, 120, 0, 2 * Math.PI, 0, Math.PI / 2)));
    const { body, warnings } = measureMesh(dome, 1);
    expect(warnings[0]).toEqual({ code: 'closed-by-plane', count: 360 });
    expect(Math.abs(body.areaSquareMetres / (2 * Math.PI * 0.01) - 1)).toBeLessThan(2e-4);
    expect(Math.abs((body.volumeLitres ?? 0) / ((2 * Math.PI) / 3) - 1)).toBeLessThan(2e-4);
    expect(Math.abs((body.outlineMillimetres ?? 0) / (200 * Math.PI) - 1)).toBeLessThan(2e-4);
    expect(Math.abs((body.footSquareMetres ?? 0) / (Math.PI * 0.01) - 1)).toBeLessThan(2e-4);
    expect(body.undercutPercent).toBe(0);
  });

  test('a cup that is open at its top, drawn inside out', () => {
    const cup = standing(soup(new SphereGeometry(100, 90, 45, 0, 2 * Math.PI, Math.PI / 2, Math.PI / 2)));
    const { body, warnings } = measureMesh(
      turnedOver(cup, () => true),
      1,
    );
    expect(body.volumeLitres).toBeCloseTo(measureMesh(cup, 1).body.volumeLitres ?? 0, 9);
    expect(warnings.map(({ code }) => code)).toEqual(['closed-by-plane', 'inside-out']);
    expect(body.undercutPercent).toBeGreaterThan(90);
  });

  // Most of what the middle of its box sees of it is missing, so that a sum about that middle would have the wrong sign.
  test('a spike on a wide foot without a bottom is not taken for inside out', () => {
    const outline = [new Vector2(100, 0), new Vector2(4, 4), new Vector2(2, 200), new Vector2(0, 200)];
    const spike = standing(soup(new LatheGeometry(outline, 24)));
    const { body, warnings } = measureMesh(spike, 1);
    // The lathe puts a triangle without an area beside each one at its axis.
    expect(warnings).toEqual([
      { code: 'closed-by-plane', count: 24 },
      { code: 'degenerate', count: 24 },
    ]);
    expect(body.undercutPercent).toBe(0);
    const frusta = (4 * (100 ** 2 + 400 + 16) + 196 * (16 + 8 + 4)) / 3;
    expect(body.volumeLitres).toBeCloseTo((12 * Math.sin(Math.PI / 12) * frusta) / 1e6, 7);
  });

  test('a tube that is open at both ends has no volume, and stands on its lower rim', () => {
    const tube = standing(soup(new CylinderGeometry(50, 100, 200, 360, 1, true)));
    const { body, warnings } = measureMesh(tube, 1);
    expect(body.volumeLitres).toBeNull();
    expect(warnings).toEqual([{ code: 'open', count: 720 }]);
    expect(Math.abs((body.outlineMillimetres ?? 0) / (200 * Math.PI) - 1)).toBeLessThan(1e-4);
  });

  test('a hole that is bent has no volume', () => {
    const bent = moved(withoutBottom(), (x, y, z) => [x, y, z < 0 && x > 0 && y > 0 ? z + 5 : z]);
    expect(measureMesh(bent, 1).body.volumeLitres).toBeNull();
  });

  test('a flat sheet has an area, and nothing else', () => {
    const { body } = measureMesh(soup(new PlaneGeometry(200, 300)), 1);
    expect(body.areaSquareMetres).toBeCloseTo(0.06, 12);
    expect(body.boxMillimetres).toEqual([200, 300, 0]);
    expect(body.volumeLitres).toBeNull();
    expect(body.steepPercent).toBe(0);
  });
});

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
