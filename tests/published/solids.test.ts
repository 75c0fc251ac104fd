import { BoxGeometry, type BufferGeometry, ConeGeometry, CylinderGeometry, SphereGeometry, TorusGeometry, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import * as shape from '../../src/trade/body/shape-formulas.ts';
import { readShapes } from '../../src/trade/body/shapes.ts';
import { good } from '../trade/asks.ts';

/** In the unit that the lengths are in: lengths that are given as millimetres come out as square and cubic millimetres. */
const area = ({ body }: ReturnType<typeof shape.sphere>) => body.areaSquareMetres * 1e6;
const foot = ({ body }: ReturnType<typeof shape.sphere>) => (body.footSquareMetres ?? Number.NaN) * 1e6;
const volume = ({ body }: ReturnType<typeof shape.sphere>) => (body.volumeLitres ?? Number.NaN) * 1e6;
const within = (got: number, expected: number, tolerance: number) => expect(Math.abs(got / expected - 1)).toBeLessThan(tolerance);

describe('frustum', () => {
  // A worked example with radii 12 and 9 and height 4: web2.0calc.ru, answer of the user cphill.
  it('of radii 12 and 9, 4 high: 444π in volume, 330π with both ends', () => {
    const frustum = shape.frustum(24, 18, 4);
    within(volume(frustum), 444 * Math.PI, 1e-12);
    within(area(frustum) + foot(frustum), 330 * Math.PI, 1e-12);
    const typed = good(readShapes('frustum d 24 cm d 18 cm h 4 cm')).body;
    within(typed.areaSquareMetres * 1e4 + 144 * Math.PI, 330 * Math.PI, 1e-12);
    within((typed.volumeLitres ?? 0) * 1e3, 444 * Math.PI, 1e-12);
  });
});

describe('cap', () => {
  // Of a ball of radius 5, 2 high: the handbook formulas 2πRh and πh²(3R - h)/3 worked out by hand.
  it('of radius 5, 2 high: 20π of curved surface, 54.45427 in volume', () => {
    for (const cap of [shape.ballCap(10, 2), shape.cap(8, 2)]) {
      within(area(cap), 20 * Math.PI, 1e-12);
      within(volume(cap), 54.45427, 1e-6);
      within(foot(cap), 16 * Math.PI, 1e-12);
    }
    within(good(readShapes('cap ball r 5 cm h 2 cm')).body.areaSquareMetres * 1e4, 20 * Math.PI, 1e-12);
  });

  // Archimedes, On the Sphere and Cylinder I, 42 (from memory): as much as a circle whose radius reaches from top to rim.
  it.each([
    [20, 4],
    [20, 10],
    [20, 15],
  ])('%d across its foot and %d high is as much as a circle from its top to its rim', (across, high) =>
    within(area(shape.cap(across, high)), Math.PI * ((across / 2) ** 2 + high ** 2), 1e-12),
  );
});

describe('sphere and cylinder', () => {
  // Archimedes, On the Sphere and Cylinder I, 34 (from memory): the cylinder around a ball is half as much again, ends and all.
  it('the cylinder around a ball is half as much again, in surface and in volume', () => {
    const [ball, around] = [shape.sphere(20), shape.cylinder(20, 20)];
    within((area(around) + foot(around)) / area(ball), 1.5, 1e-12);
    within(volume(around) / volume(ball), 1.5, 1e-12);
  });

  // Euclid, Elements XII, 10 (from memory).
  it('a cone is a third of its cylinder', () => within(volume(shape.cylinder(7, 9)) / volume(shape.cone(7, 9)), 3, 1e-12));
});

describe('ring', () => {
  // Pappus: the way of the middle times the way round, and times the section. Radii 3 and 1, worked out by hand.
  it('of radii 3 and 1: 118.43525 of surface, 59.21763 in volume', () => {
    within(area(shape.torus(6, 2)), 118.43525, 1e-7);
    within(volume(shape.torus(6, 2)), 59.21763, 1e-7);
    within(area(shape.halfTorus(6, 2)), 118.43525 / 2, 1e-7);
  });

  // Pappus again: half a circle turned about its diameter, its middle 4r/3π (area) or 2r/π (line) away, makes a ball.
  it('the same rule makes a ball of half a circle', () => {
    within(volume(shape.sphere(2)), 2 * Math.PI * (4 / (3 * Math.PI)) * (Math.PI / 2), 1e-12);
    within(area(shape.sphere(2)), 2 * Math.PI * (2 / Math.PI) * Math.PI, 1e-12);
  });
});

describe('ellipsoid', () => {
  // The closed forms of handbooks for two equal half axes (from memory), worked out by hand.
  const prolate = (a: number, c: number, e = Math.sqrt(1 - (a / c) ** 2)) =>
    2 * Math.PI * a ** 2 * (1 + ((c / a) * Math.asin(e)) / e);
  const oblate = (a: number, c: number, e = Math.sqrt(1 - (c / a) ** 2)) =>
    2 * Math.PI * a ** 2 * (1 + ((1 - e ** 2) / e) * Math.atanh(e));

  it('half axes 1, 1 and 2: 21.478435', () => {
    expect(prolate(1, 2)).toBeCloseTo(21.478435, 6);
    within(area(shape.ellipsoid(2, 2, 4)), 21.478435, 1e-6);
    within(good(readShapes('ellipsoid 20 x 20 x 40 cm')).body.areaSquareMetres, 0.21478435, 1e-6);
  });

  it.each([
    [1, 1.0001],
    [1, 2],
    [1, 50],
    [30, 31],
  ])('half axes %d and %d, long and flat, lying and standing', (short, long) => {
    within(area(shape.ellipsoid(2 * short, 2 * short, 2 * long)), prolate(short, long), 1e-10);
    within(area(shape.ellipsoid(2 * long, 2 * short, 2 * short)), prolate(short, long), 1e-10);
    within(area(shape.ellipsoid(2 * long, 2 * long, 2 * short)), oblate(long, short), 1e-10);
    within(area(shape.ellipsoid(2 * short, 2 * long, 2 * long)), oblate(long, short), 1e-10);
  });

  // Three different axes: 4πabc R_G(a⁻², b⁻², c⁻²) (NIST Digital Library of Mathematical Functions, 19.33, from memory), with
  // R_G(2, 3, 4) = 1.7255030280692 as B. C. Carlson, Numerical Algorithms 10 (1995), prints it; read in test suites that cite it.
  it('half axes 1/√2, 1/√3 and 1/2, whichever stands upright', () => {
    const axes = [2 / Math.sqrt(2), 2 / Math.sqrt(3), 1] as const;
    const expected = (4 * Math.PI * 1.7255030280692) / Math.sqrt(24);
    for (const [a, b, c] of [[0, 1, 2] as const, [1, 2, 0] as const, [2, 0, 1] as const]) {
      within(area(shape.ellipsoid(axes[a], axes[b], axes[c])), expected, 1e-12);
    }
  });

  // The way round an ellipse is 8 R_G(0, a², b²), a circle's too: R_G(0, 16, 16) = π, R_G(0, 0.0796, 4) = 1.0284758090288 (same paper).
  it('half axes √0.0796 and 2: the way round its foot', () => {
    const half = shape.halfEllipsoid(2 * Math.sqrt(0.0796), 4, 1);
    within(half.body.outlineMillimetres ?? 0, 8 * 1.0284758090288, 1e-12);
  });
});

describe('against the meshes of three', () => {
  // A second implementation, not a published value. A mesh of flat triangles is off by the square of its fineness, so two of
  // them tell where an endless one would end (Richardson).
  function measured(geometry: BufferGeometry): readonly [number, number] {
    const flat = geometry.index ? geometry.toNonIndexed() : geometry;
    const corners = flat.getAttribute('position');
    const [a, b, c] = [new Vector3(), new Vector3(), new Vector3()];
    let [surface, space] = [0, 0];
    for (let at = 0; at < corners.count; at += 3) {
      a.fromBufferAttribute(corners, at);
      b.fromBufferAttribute(corners, at + 1);
      c.fromBufferAttribute(corners, at + 2);
      space += a.dot(b.clone().cross(c)) / 6;
      surface += b.sub(a).cross(c.sub(a)).length() / 2;
    }
    return [surface, space];
  }
  const endless = (of: (fineness: number) => BufferGeometry) => {
    const [coarse, fine] = [measured(of(64)), measured(of(128))];
    return fine.map((value, index) => value + (value - (coarse[index] ?? 0)) / 3) as [number, number];
  };

  it.each([
    ['sphere', shape.sphere(20), (n: number) => new SphereGeometry(10, 2 * n, n)],
    ['half sphere', shape.halfSphere(20), (n: number) => new SphereGeometry(10, 2 * n, n, 0, 2 * Math.PI, 0, Math.PI / 2)],
    ['torus', shape.torus(30, 8), (n: number) => new TorusGeometry(15, 4, n, 2 * n)],
    ['ellipsoid', shape.ellipsoid(20, 30, 44), (n: number) => new SphereGeometry(1, 2 * n, n).scale(10, 22, 15)],
    ['cylinder', shape.cylinder(20, 30), (n: number) => new CylinderGeometry(10, 10, 30, n)],
    ['cone', shape.cone(20, 30), (n: number) => new ConeGeometry(10, 30, n)],
    ['frustum', shape.frustum(12, 20, 30), (n: number) => new CylinderGeometry(10, 6, 30, n)],
    ['box', shape.box(20, 30, 40), () => new BoxGeometry(20, 30, 40)],
  ])('%s', (name, solid, of) => {
    const [surface, space] = endless(of);
    // A half sphere is open below in three; the others are closed, and so with their foot.
    within(area(solid) + (name === 'half sphere' ? 0 : foot(solid)), surface, 2e-6);
    within(volume(solid), space, 2e-6);
  });
});
