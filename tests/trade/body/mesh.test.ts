import { BoxGeometry, ConeGeometry, CylinderGeometry, LatheGeometry, PlaneGeometry, SphereGeometry, Vector2 } from 'three';
import { describe, expect, test } from 'vitest';
import { measureMesh, type Triangles } from '../../../src/trade/body/mesh.ts';
import { moved, only, soup, turnedOver } from './mesh-made.ts';

/** 200 x 300 x 400 mm. */
const box = () => soup(new BoxGeometry(200, 300, 400));
const atBottom = (corners: number[][], height: number) => corners.every((corner) => corner[2] === -height / 2);
/** three's round bodies stand along y. */
const standing = (triangles: Triangles) => moved(triangles, (x, y, z) => [x, -z, y]);

describe('a closed mesh', () => {
  test('a box stands on its bottom', () => {
    expect(measureMesh(box(), 1)).toEqual({
      body: {
        longestMillimetres: 400,
        outlineTurns: 1,
        holeRadiusMillimetres: null,
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

  test('a foot may be up to 5° off straight down', () => {
    // A tall post of 10 × 10 mm whose bottom is cut obliquely: so narrow that all of it stays on the board.
    const cut = (degrees: number) =>
      moved(soup(new BoxGeometry(10, 10, 1000)), (x, y, z) => [
        x,
        y,
        z < 0 ? z + (x + 5) * Math.tan((degrees * Math.PI) / 180) : z,
      ]);
    for (const degrees of [0, 3, 4.9]) {
      const { body } = measureMesh(cut(degrees), 1);
      expect((body.footSquareMetres ?? 0) * 1e6).toBeCloseTo(100 / Math.cos((degrees * Math.PI) / 180), 6);
    }
    expect(measureMesh(cut(5.1), 1).body.footSquareMetres).toBeNull();
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
