import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STEEP_DEGREES, UNDERCUT_DEGREES } from '../../../src/trade/body/body.ts';
import * as shape from '../../../src/trade/body/shape-formulas.ts';
import type { Solid } from '../../../src/trade/body/shape-solid.ts';

type Point = readonly [number, number, number];
/** A piece of surface over the unit square, and for each of its points one on the inner side of it. */
interface Patch {
  readonly at: (u: number, v: number) => Point;
  readonly within: (u: number, v: number) => Point;
}
/** A closed line on the board, and whether the foot is inside it or outside. */
interface Rim {
  readonly at: (t: number) => Point;
  readonly sign: 1 | -1;
}
interface Model {
  readonly patches: readonly Patch[];
  readonly rims: readonly Rim[];
}

const minus = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point, b: Point): Point => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const TURN = 2 * Math.PI;

/** Adds up small flat patches: their size, how they lie, and the space under each, which the board's own face adds nothing to. */
function quadrature({ patches, rims }: Model, steps = 120) {
  let [area, steep, undercut, volume] = [0, 0, 0, 0];
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  const cells = Array.from({ length: steps }, (_, index) => (index + 0.5) / steps);
  const half = 0.5 / steps;
  for (const { at, within } of patches) {
    for (const u of cells) {
      for (const v of cells) {
        const middle = at(u, v);
        const raw = cross(minus(at(u + half, v), at(u - half, v)), minus(at(u, v + half), at(u, v - half)));
        const sign = dot(raw, minus(middle, within(u, v))) < 0 ? -1 : 1;
        const size = Math.sqrt(dot(raw, raw));
        if (size === 0) continue;
        const downwards = (Math.asin((-sign * raw[2]) / size) * 180) / Math.PI;
        area += size;
        volume += (sign * dot(raw, middle)) / 3;
        if (downwards > UNDERCUT_DEGREES) undercut += size;
        else if (90 + downwards > STEEP_DEGREES) steep += size;
        for (const axis of [0, 1, 2] as const) {
          low[axis] = Math.min(low[axis] ?? 0, middle[axis]);
          high[axis] = Math.max(high[axis] ?? 0, middle[axis]);
        }
      }
    }
  }
  let [outline, foot] = [0, 0];
  for (const { at, sign } of rims) {
    for (let index = 0; index < 4000; index += 1) {
      const [a, b] = [at(index / 4000), at((index + 1) / 4000)];
      outline += Math.hypot(...minus(b, a));
      foot += (sign * (a[0] * b[1] - a[1] * b[0])) / 2;
    }
  }
  return {
    area,
    volume,
    outline,
    foot,
    steepPercent: (100 * steep) / area,
    undercutPercent: (100 * undercut) / area,
    box: high.map((value, axis) => value - (low[axis] ?? 0)),
  };
}

const around = (radius: number, v: number, z: number): Point => [radius * Math.cos(TURN * v), radius * Math.sin(TURN * v), z];
const circle = (radius: number, sign: 1 | -1 = 1): Rim => ({ at: (t) => around(radius, t, 0), sign });
const sheet = (corner: Point, along: Point, across: Point, within: Point): Patch => ({
  at: (u, v) => [0, 1, 2].map((i) => (corner[i] ?? 0) + u * (along[i] ?? 0) + v * (across[i] ?? 0)) as unknown as Point,
  within: () => within,
});
const rectangle = (length: number, width: number): Rim => ({
  at: (t) => {
    const side = Math.min(3, Math.floor(t * 4));
    const way = t * 4 - side;
    const corners = [
      [0, 0],
      [length, 0],
      [length, width],
      [0, width],
      [0, 0],
    ] as const;
    const [from, to] = [corners[side] ?? [0, 0], corners[side + 1] ?? [0, 0]];
    return [from[0] + way * (to[0] - from[0]), from[1] + way * (to[1] - from[1]), 0];
  },
  sign: 1,
});

const boxModel = (l: number, w: number, h: number): Model => {
  const middle: Point = [l / 2, w / 2, h / 2];
  const walls = [
    sheet([0, 0, 0], [l, 0, 0], [0, 0, h], middle),
    sheet([0, w, 0], [l, 0, 0], [0, 0, h], middle),
    sheet([0, 0, 0], [0, w, 0], [0, 0, h], middle),
    sheet([l, 0, 0], [0, w, 0], [0, 0, h], middle),
  ];
  return { patches: [sheet([0, 0, h], [l, 0, 0], [0, w, 0], middle), ...walls], rims: [rectangle(l, w)] };
};
const frustumModel = (bottom: number, top: number, h: number): Model => ({
  patches: [
    { at: (u, v) => around((bottom + u * (top - bottom)) / 2, v, u * h), within: (u) => [0, 0, u * h] },
    { at: (u, v) => around((u * top) / 2, v, h), within: (u, v) => around((u * top) / 2, v, h / 2) },
  ],
  rims: [circle(bottom / 2)],
});
/** From the top of an ellipsoid down to `fall` of its upright half axis below its middle, which is `middle` high. */
const ellipsoidModel = (axes: Point, fall: number, middle: number): Model => {
  const [a, b, c] = axes;
  const last = Math.acos(-fall);
  const foot = Math.sqrt(Math.max(0, 1 - fall ** 2));
  return {
    patches: [
      {
        at: (u, v) => {
          const down = u * last;
          return [a * Math.sin(down) * Math.cos(TURN * v), b * Math.sin(down) * Math.sin(TURN * v), middle + c * Math.cos(down)];
        },
        within: () => [0, 0, middle],
      },
    ],
    rims: [{ at: (t) => [a * foot * Math.cos(TURN * t), b * foot * Math.sin(TURN * t), 0], sign: 1 }],
  };
};
/** A tube around `ring`; from 0 to `turns` of its way round, as seen from its outer side. */
const ringModel = (ring: number, tube: number, turns: 0.5 | 1): Model => ({
  patches: [
    {
      at: (u, v) => {
        const angle = TURN * turns * u;
        return around((ring + tube * Math.cos(angle)) / 2, v, (tube * (Math.sin(angle) + (turns === 1 ? 1 : 0))) / 2);
      },
      within: (_, v) => around(ring / 2, v, turns === 1 ? tube / 2 : 0),
    },
  ],
  rims: turns === 1 ? [] : [circle((ring + tube) / 2), circle((ring - tube) / 2, -1)],
});
const rollerModel = (d: number, l: number, turns: 0.5 | 1): Model => {
  const middle = turns === 1 ? d / 2 : 0;
  const point = (x: number, radius: number, v: number): Point => [
    x,
    radius * Math.cos(TURN * turns * v),
    middle + radius * Math.sin(TURN * turns * v),
  ];
  return {
    patches: [
      { at: (u, v) => point(u * l, d / 2, v), within: (u) => [u * l, 0, middle] },
      { at: (u, v) => point(0, (u * d) / 2, v), within: () => [l / 2, 0, middle] },
      { at: (u, v) => point(l, (u * d) / 2, v), within: () => [l / 2, 0, middle] },
    ],
    rims: turns === 1 ? [] : [rectangle(l, d)],
  };
};

interface Case {
  readonly of: (a: number, b: number, c: number) => Solid;
  readonly model: (a: number, b: number, c: number) => Model;
}
/** Of three lengths, the shape and its surface. */
const CASES: Readonly<Record<string, Case>> = {
  box: { of: shape.box, model: boxModel },
  plate: {
    of: shape.plate,
    model: (l, w) => ({ patches: [sheet([0, 0, 0], [l, 0, 0], [0, w, 0], [l / 2, w / 2, -1])], rims: [rectangle(l, w)] }),
  },
  disc: {
    of: shape.disc,
    model: (d) => ({
      patches: frustumModel(d, d, 0)
        .patches.slice(1)
        .map((top) => ({ ...top, within: () => [0, 0, -1] })),
      rims: [circle(d / 2)],
    }),
  },
  cylinder: { of: shape.cylinder, model: (d, h) => frustumModel(d, d, h) },
  frustum: { of: shape.frustum, model: frustumModel },
  cone: { of: shape.cone, model: (d, h) => frustumModel(d, 0, h) },
  cap: {
    of: shape.cap,
    model: (foot, h) => {
      // The ball through the rim and the top: its middle is as far from both.
      const radius = (h ** 2 + (foot / 2) ** 2) / (2 * h);
      return ellipsoidModel([radius, radius, radius], (h - radius) / radius, h - radius);
    },
  },
  'half sphere': { of: shape.halfSphere, model: (d) => ellipsoidModel([d / 2, d / 2, d / 2], 0, 0) },
  sphere: { of: shape.sphere, model: (d) => ellipsoidModel([d / 2, d / 2, d / 2], 1, d / 2) },
  ellipsoid: { of: shape.ellipsoid, model: (a, b, c) => ellipsoidModel([a / 2, b / 2, c / 2], 1, c / 2) },
  'half ellipsoid': { of: shape.halfEllipsoid, model: (a, b, c) => ellipsoidModel([a / 2, b / 2, c], 0, 0) },
  torus: { of: (a, b) => shape.torus(a + b, b), model: (a, b) => ringModel(a + b, b, 1) },
  'half torus': { of: (a, b) => shape.halfTorus(a + b, b), model: (a, b) => ringModel(a + b, b, 0.5) },
  'half cylinder': { of: shape.halfCylinder, model: (d, l) => rollerModel(d, l, 0.5) },
  'lying cylinder': { of: shape.lyingCylinder, model: (d, l) => rollerModel(d, l, 1) },
};

const length = fc.double({ min: 40, max: 200, noNaN: true });
const lengths = fc.tuple(length, length, length);
const near = (got: number | null, expected: number, share: number) =>
  expect(Math.abs((got ?? Number.NaN) - expected)).toBeLessThanOrEqual(share * Math.abs(expected) + 1e-9);

describe('shapes against sums over their surface', () => {
  it.each(Object.entries(CASES))('%s', (name, { of, model }) => {
    fc.assert(
      fc.property(lengths, (given) => {
        const { body } = of(...given);
        const sum = quadrature(model(...given));
        near(body.areaSquareMetres * 1e6, sum.area, 1e-3);
        near(body.outlineMillimetres, sum.outline, 1e-3);
        near((body.footSquareMetres ?? Number.NaN) * 1e6, sum.foot, 1e-3);
        if (name === 'plate' || name === 'disc') expect(body.volumeLitres).toBeNull();
        else near((body.volumeLitres ?? Number.NaN) * 1e6, sum.volume, 1e-3);
        // The edge of the steep part runs through cells of a 120th.
        expect(Math.abs((body.steepPercent ?? Number.NaN) - sum.steepPercent)).toBeLessThan(1.5);
        expect(Math.abs((body.undercutPercent ?? Number.NaN) - sum.undercutPercent)).toBeLessThan(1.5);
        // The outermost cells' middles are half a cell inside.
        body.boxMillimetres?.forEach((side, axis) => {
          near(side, sum.box[axis] ?? Number.NaN, 0.02);
        });
        expect(body.boxMillimetres).not.toBeNull();
      }),
      { numRuns: 8 },
    );
  });
});

describe('laws', () => {
  it.each(Object.entries(CASES))('%s: areas grow with the square, volumes with the cube, shares not at all', (_, { of }) => {
    fc.assert(
      fc.property(lengths, fc.double({ min: 0.01, max: 100, noNaN: true }), ([a, b, c], by) => {
        const [small, large] = [of(a, b, c).body, of(a * by, b * by, c * by).body];
        near(large.areaSquareMetres, small.areaSquareMetres * by ** 2, 1e-9);
        near(large.footSquareMetres, (small.footSquareMetres ?? 0) * by ** 2, 1e-9);
        near(large.outlineMillimetres, (small.outlineMillimetres ?? 0) * by, 1e-9);
        if (small.volumeLitres !== null) near(large.volumeLitres, small.volumeLitres * by ** 3, 1e-9);
        expect(large.steepPercent).toBeCloseTo(small.steepPercent ?? Number.NaN, 6);
        expect(large.undercutPercent).toBeCloseTo(small.undercutPercent ?? Number.NaN, 6);
      }),
    );
  });

  it('a sphere is an ellipsoid, a half sphere half of one and a cap', () => {
    fc.assert(
      fc.property(length, (d) => {
        for (const [one, other] of [
          [shape.sphere(d), shape.ellipsoid(d, d, d)],
          [shape.halfSphere(d), shape.halfEllipsoid(d, d, d / 2)],
          [shape.halfSphere(d), shape.cap(d, d / 2)],
        ] as const) {
          near(one.body.areaSquareMetres, other.body.areaSquareMetres, 1e-9);
          near(one.body.outlineMillimetres, other.body.outlineMillimetres ?? Number.NaN, 1e-9);
          near(one.body.steepPercent, other.body.steepPercent ?? Number.NaN, 1e-9);
          near(one.body.undercutPercent, other.body.undercutPercent ?? Number.NaN, 1e-9);
        }
      }),
    );
  });

  it('a side at just 60° is not yet steep, and one that leans out by 2° is not yet undercut', () => {
    const side = (degrees: number) => {
      const run = 100 / Math.tan((degrees * Math.PI) / 180);
      return shape.frustum(400, 400 - 2 * run, 100).body;
    };
    expect(side(59.9).steepPercent).toBe(0);
    expect(side(60.1).steepPercent).toBeGreaterThan(0);
    expect(side(91.9).undercutPercent).toBe(0);
    expect(side(91.9).steepPercent).toBeGreaterThan(0);
    expect(side(92.1).undercutPercent).toBeGreaterThan(0);
    expect(side(92.1).steepPercent).toBe(0);
  });
});
