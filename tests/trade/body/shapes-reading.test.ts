import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as shape from '../../../src/trade/body/shape-formulas.ts';
import { readShapes } from '../../../src/trade/body/shapes.ts';
import { good } from '../asks.ts';
import { bodyOf, same } from './read-bodies.ts';

describe('one shape', () => {
  it.each([
    ['plate 30 x 20 cm', shape.plate(300, 200), 'plate, 30 x 20 cm'],
    ['plate 0,4 x 0,3 m', shape.plate(400, 300), 'plate, 0.4 x 0.3 m'],
    ['slab 30x20x2cm', shape.box(300, 200, 20), 'plate, 30 x 20 x 2 cm'],
    ['box 300x200x150 mm', shape.box(300, 200, 150), 'box, 300 x 200 x 150 mm'],
    ['BOX 30×20×15CM', shape.box(300, 200, 150), 'box, 30 x 20 x 15 cm'],
    ['30 by 20 by 15 cm block', shape.box(300, 200, 150), 'box, 30 x 20 x 15 cm'],
    ['box h 15 l 30 w 20 cm', shape.box(300, 200, 150), 'box, 30 x 20 x 15 cm'],
    ['box 30 cm long, 20 cm wide, 15 cm high', shape.box(300, 200, 150), 'box, 30 x 20 x 15 cm'],
    ['box 1 ft 6 in x 12" x 5"', shape.box(457.2, 304.8, 127), 'box, 18 x 12 x 5 in'],
    ['box 1 ft x 20 cm x 100 mm', shape.box(304.8, 200, 100), 'box, 1 ft x 20 cm x 100 mm'],
    ['cube 10 cm', shape.box(100, 100, 100), 'cube, 10 cm each side'],
    ['disc 30 cm', shape.disc(300), 'disc, 30 cm across'],
    ['disk ø 30 cm, 2 cm thick', shape.cylinder(300, 20), 'disc, 30 cm across, 2 cm thick'],
    ['cylinder d 12 cm h 30 cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder 12 cm x 30 cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['12cmx30cm cylinder', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder h30cm r6cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder 30 cm high 12 cm across', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder 30 cm high, 12 cm across,', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder high 30 cm across 12 cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder with a diameter of 12 cm and a height of 30 cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cilinder 12 x 30 cm', shape.cylinder(120, 300), 'cylinder, 12 cm across, 30 cm high'],
    ['cylinder 4 3/4 x 12 in', shape.cylinder(120.65, 304.8), 'cylinder, 4.75 in across, 12 in high'],
    ['lying cylinder d 10 cm l 30 cm', shape.lyingCylinder(100, 300), 'lying cylinder, 10 cm across, 30 cm long'],
    ['half cylinder 10 x 30 cm', shape.halfCylinder(100, 300), 'half cylinder, 10 cm across, 30 cm long'],
    ['cone d 10 cm h 15 cm', shape.cone(100, 150), 'cone, 10 cm across, 15 cm high'],
    ['frustum 24 x 18 x 4 cm', shape.frustum(240, 180, 40), 'frustum, 24 cm across the bottom, 18 cm across the top, 4 cm high'],
    [
      'frustrum d 24 d 18 h 4 cm',
      shape.frustum(240, 180, 40),
      'frustum, 24 cm across the bottom, 18 cm across the top, 4 cm high',
    ],
    [
      'frustum top 18 bottom 24 h 4 cm',
      shape.frustum(240, 180, 40),
      'frustum, 24 cm across the bottom, 18 cm across the top, 4 cm high',
    ],
    ['cap d 20 cm h 4 cm', shape.cap(200, 40), 'cap, 20 cm across its foot, 4 cm high'],
    ['cap r 5 in h 2 in', shape.cap(254, 50.8), 'cap, 10 in across its foot, 2 in high'],
    ['cap ball r 5 in h 2 in', shape.ballCap(254, 50.8), 'cap, of a ball 10 in across, 2 in high'],
    ['dome 20 x 4 cm', shape.cap(200, 40), 'cap, 20 cm across its foot, 4 cm high'],
    ['dome 20 cm', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['half sphere 20 cm', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['half sphere r 10 cm', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['half a sphere, 10 cm high', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['half shpere 20cm', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['Hemisphere ⌀20 cm', shape.halfSphere(200), 'half sphere, 20 cm across'],
    ['sphere d 20 cm', shape.sphere(200), 'sphere, 20 cm across'],
    ['ellipsoid 20 x 25 x 40 cm', shape.ellipsoid(200, 250, 400), 'ellipsoid, 20 x 25 x 40 cm'],
    ['spheroid d 20 cm h 40 cm', shape.ellipsoid(200, 200, 400), 'ellipsoid, 20 cm across, 40 cm high'],
    ['half ellipsoid 20x25x15 cm', shape.halfEllipsoid(200, 250, 150), 'half ellipsoid, 20 x 25 x 15 cm high'],
    ['torus 30 x 5 cm', shape.torus(300, 50), 'torus, ring 30 cm across its middle line, tube 5 cm across'],
    ['ring tube r 2,5 cm, ring r 15 cm', shape.torus(300, 50), 'torus, ring 30 cm across its middle line, tube 5 cm across'],
    [
      'half torus ring 30 cm tube 5 cm',
      shape.halfTorus(300, 50),
      'half torus, ring 30 cm across its middle line, tube 5 cm across',
    ],
    ['half torus d 5 cm ring 30 cm', shape.halfTorus(300, 50), 'half torus, ring 30 cm across its middle line, tube 5 cm across'],
    ['half torus outer 35 cm tube 5 cm', shape.halfTorus(300, 50), 'half torus, 35 cm across outside, tube 5 cm across'],
    ['half torus inside 25 cm outside 35 cm', shape.halfTorus(300, 50), 'half torus, 35 cm across outside, 25 cm across inside'],
    ['half torus inner 25 cm tube 5 cm', shape.halfTorus(300, 50), 'half torus, 25 cm across inside, tube 5 cm across'],
  ])('%s', (text, expected, spoken) => {
    const read = good(readShapes(text));
    same(read.body, expected.body);
    expect(read.spoken).toBe(spoken);
    // What a card says can be typed again.
    const again = good(readShapes(spoken));
    same(again.body, expected.body);
    expect(again.spoken).toBe(spoken);
  });

  it('any order of labelled measures is the same shape, in any unit', () => {
    const number = fc.integer({ min: 1, max: 300 });
    const units = [
      ['mm', 1],
      ['cm', 10],
      ['in', 25.4],
      ['"', 25.4],
      ['ft', 304.8],
    ] as const;
    const labels = [
      ['box', ['l', 'w', 'h'], shape.box],
      ['frustum', ['bottom', 'top', 'h'], shape.frustum],
      ['cylinder', ['d', 'height'], shape.cylinder],
      ['cone', ['ø', 'h'], shape.cone],
      ['half ellipsoid', ['long', 'wide', 'high'], shape.halfEllipsoid],
    ] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...labels),
        fc.tuple(number, number, number),
        fc.constantFrom(...units),
        fc.shuffledSubarray([0, 1, 2], { minLength: 3 }),
        fc.constantFrom(' ', ', ', ' x '),
        ([name, called, of], sizes, [unit, millimetres], order, between) => {
          const parts = order.flatMap((at) => (called[at] === undefined ? [] : [`${called[at]} ${sizes[at]} ${unit}`]));
          const [a, b, c] = sizes.map((size) => size * millimetres) as [number, number, number];
          same(bodyOf(`${name} ${parts.join(between)}`), of(a, b, c).body);
        },
      ),
    );
  });
});

describe('several shapes', () => {
  it('so many of one are so many times as much, and have no box of their own', () => {
    const [one, two] = [bodyOf('cylinder d 5 cm h 20 cm'), good(readShapes('2 x cylinder d 5 cm h 20 cm'))];
    expect(two.spoken).toBe('2 x cylinder, 5 cm across, 20 cm high');
    expect(two.body.areaSquareMetres).toBeCloseTo(2 * one.areaSquareMetres, 12);
    expect(two.body.volumeLitres).toBeCloseTo(2 * (one.volumeLitres ?? 0), 12);
    expect(two.body.outlineMillimetres).toBeCloseTo(2 * (one.outlineMillimetres ?? 0), 9);
    expect(two.body.steepPercent).toBeCloseTo(one.steepPercent ?? 0, 9);
    expect(two.body.boxMillimetres).toBeNull();
    for (const text of ['2 cylinders d 5 cm h 20 cm', 'two cylinders 5 x 20 cm', '2× cylinder 5 x 20 cm']) {
      same(bodyOf(text), two.body);
    }
  });

  it.each([
    'box 30x20x10 cm + half sphere 12 cm',
    'box 30x20x10 + half sphere 12 cm',
    'box 30x20x10 cm + half sphere 12',
    'box 30x20x10 cm and a half sphere 12 cm',
    'box 30x20x10 cm, half sphere 12 cm',
  ])('%s stand side by side', (text) => {
    const { body, spoken } = good(readShapes(text));
    // In square metres, by hand: 2 (0.3 + 0.2) 0.1 + 0.3 · 0.2 and 2π 0.06².
    expect(body.areaSquareMetres).toBeCloseTo(0.16 + 2 * Math.PI * 0.06 ** 2, 12);
    expect(body.volumeLitres).toBeCloseTo(6 + (2 / 3) * Math.PI * 0.6 ** 3, 12);
    expect(body.outlineMillimetres).toBeCloseTo(1000 + Math.PI * 120, 9);
    // All the walls, and of the half sphere what lies lower than half its height.
    expect((body.steepPercent ?? 0) * body.areaSquareMetres).toBeCloseTo(100 * (0.1 + Math.PI * 0.06 ** 2), 9);
    expect(spoken).toBe('box, 30 x 20 x 10 cm + half sphere, 12 cm across, side by side');
    same(bodyOf(spoken), body);
  });

  it.each(['half sphere 12 cm on box 30x20x10 cm', 'half sphere 12 cm on top of a box 30x20x10 cm'])(
    '%s: the faces that touch drop out',
    (text) => {
      const { body, spoken } = good(readShapes(text));
      expect(body.areaSquareMetres).toBeCloseTo(0.16 + (2 - 1) * Math.PI * 0.06 ** 2, 12);
      expect(body.volumeLitres).toBeCloseTo(6 + (2 / 3) * Math.PI * 0.6 ** 3, 12);
      expect(body.outlineMillimetres).toBeCloseTo(1000, 9);
      expect(body.footSquareMetres).toBeCloseTo(0.06, 12);
      expect(body.boxMillimetres).toEqual([300, 200, 160]);
      expect(spoken).toBe('half sphere, 12 cm across, on a box, 30 x 20 x 10 cm');
      same(bodyOf(spoken), body);
    },
  );

  it('two boxes, one on the other, are the taller box', () => {
    const side = fc.integer({ min: 1, max: 500 });
    fc.assert(
      fc.property(side, side, side, side, (l, w, h, k) =>
        same(bodyOf(`box ${l} x ${w} x ${h} mm on box ${l} x ${w} x ${k} mm`), bodyOf(`box ${l} x ${w} x ${h + k} mm`)),
      ),
    );
  });

  it('a length without a unit has the next one’s, and else the last one’s', () => {
    const expected = bodyOf('cylinder d 12 mm h 300 mm + cone 5 cm x 5 cm');
    same(bodyOf('cylinder d 12 h 300 mm + cone 5 x 5 cm'), expected);
    same(bodyOf('cylinder d 12 h 300 mm + cone 5 cm x 5'), expected);
    same(bodyOf('cone 5 x 5 + cone 5 x 5 mm + cone 5 x 5 cm'), bodyOf('cone 5 mm x 5 mm + cone 5 mm x 5 mm + cone 5 cm x 5 cm'));
    expect(bodyOf('cone 5 cm x 5 + cone 5 x 5 in').volumeLitres).toBeCloseTo(
      (bodyOf('cone 5 cm x 5 cm').volumeLitres ?? 0) + (bodyOf('cone 5 in x 5 in').volumeLitres ?? 0),
      9,
    );
  });

  it('a plate of no known thickness leaves the volume open', () => {
    expect(bodyOf('half sphere 12 cm on plate 30 x 20 cm').volumeLitres).toBeNull();
    expect(bodyOf('plate 30 x 20 cm + cone 5 x 5 cm').volumeLitres).toBeNull();
  });
});

describe('a length in two units', () => {
  // A foot is twelve inches.
  it.each([
    [`cylinder 1'6" high, 4" across`, 'cylinder 18 in high, 4 in across'],
    [`box 1'6"x1'x4"`, 'box 18 x 12 x 4 in'],
    ['cylinder 1ft6in high, 4in across', 'cylinder 18 in high, 4 in across'],
    ['cylinder 1 m 20 cm high, 30 cm across', 'cylinder 120 cm high, 30 cm across'],
    ['half sphere 1 m 20 cm', 'half sphere 120 cm'],
    ['plate 1 m 20 cm x 60 cm', 'plate 120 x 60 cm'],
    // Two measures where one would make no such shape, and where nobody says one so.
    ['plate 1 m 20 cm', 'plate 100 x 20 cm'],
    ['disc 30 cm 5 mm', 'disc 300 mm across, 5 mm thick'],
  ])('%s is %s', (typed, plain) => same(bodyOf(typed), bodyOf(plain)));
});
