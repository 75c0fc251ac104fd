import * as formulas from './shape-formulas.ts';
import type { Solid } from './shape-solid.ts';

/** What a measure may be called. */
export type Label = 'across' | 'radius' | 'high' | 'long' | 'wide' | 'thick' | 'side' | Place;
type Place = 'bottom' | 'top' | 'ring' | 'tube' | 'outer' | 'inner' | 'ball';

/** A measure that a shape needs: the labels that fit, each with the factor that makes it the slot's, and how it is said. */
export interface Slot {
  readonly fits: Readonly<Partial<Record<Label, number>>>;
  /** "… 30 cm across": words before and after. */
  readonly before: string;
  readonly after: string;
}

/** One set of measures that makes a shape. `of` takes millimetres, in the order of the slots. */
export interface Form {
  readonly said: string;
  readonly slots: readonly Slot[];
  /** Said as "30 x 20 cm" with this after it; null where each measure is said with its own words. */
  readonly sides: string | null;
  readonly of: (...millimetres: [number, number, number]) => Solid;
  /** Why these measures cannot be, in our words; undefined where they can. */
  readonly impossible?: (...millimetres: [number, number, number]) => string | undefined;
}

export interface Shape {
  readonly names: readonly string[];
  /** The first that the measures fit is taken. */
  readonly forms: readonly Form[];
  readonly expects: string;
  readonly example: string;
}

const slot = (after: string, fits: Slot['fits'], before = ''): Slot => ({ fits, before, after });
const LONG = slot('long', { long: 1, side: 1, across: 1 });
const WIDE = slot('wide', { wide: 1, side: 1, long: 1, across: 1 });
const HIGH = slot('high', { high: 1, long: 1, thick: 1 });
const THICK = slot('thick', { thick: 1, high: 1 });
const ROUND = { across: 1, radius: 2, wide: 1 } as const;
const ACROSS = slot('across', ROUND);
const ALONG = slot('long', { long: 1, high: 1 });
const TUBE = slot('across', { tube: 1, across: 1, radius: 2, thick: 1 }, 'tube');

const sides = (said: string, slots: readonly Slot[], of: Form['of'], after = ''): Form => ({ said, slots, sides: after, of });
const form = (said: string, slots: readonly Slot[], of: Form['of'], impossible?: Form['impossible']): Form => ({
  said,
  slots,
  sides: null,
  of,
  ...(impossible ? { impossible } : {}),
});

const CAP = form('cap', [slot('across its foot', { ...ROUND, bottom: 1 }), HIGH], formulas.cap);
const BALL_CAP = form('cap', [slot('across', { ...ROUND, ball: 1 }, 'of a ball'), HIGH], formulas.ballCap, (ball, high) =>
  high > ball ? 'a cap is no higher than its ball' : undefined,
);

/** A ring by the middle line of its tube, or by what a tape gets hold of: outside, inside, tube. */
function rings(said: string, of: (ring: number, tube: number) => Solid): Form[] {
  const outer = slot('across outside', { outer: 1, across: 1, radius: 2 });
  const inner = slot('across inside', { inner: 1, across: 1, radius: 2 });
  const by = (slots: Slot[], ring: (a: number, b: number) => number, tube: (a: number, b: number) => number) =>
    form(
      said,
      slots,
      (a, b) => of(ring(a, b), tube(a, b)),
      (a, b) => (tube(a, b) > 0 && tube(a, b) <= ring(a, b) ? undefined : 'the tube of a ring is no wider than the ring'),
    );
  const second = (_: number, tube: number) => tube;
  return [
    by([slot('across its middle line', { ring: 1, across: 1, radius: 2 }, 'ring'), TUBE], (ring) => ring, second),
    by([outer, TUBE], (outside, tube) => outside - tube, second),
    by([inner, TUBE], (inside, tube) => inside + tube, second),
    by(
      [outer, inner],
      (a, b) => (a + b) / 2,
      (a, b) => (a - b) / 2,
    ),
  ];
}

/** Every shape that a tape can measure. Of names within one another the longer comes first; names that are labels too, last. */
export const SHAPES: readonly Shape[] = [
  {
    names: ['half sphere', 'half ball', 'half globe', 'halfsphere', 'hemisphere', 'semi sphere', 'semisphere', 'dome'],
    forms: [form('half sphere', [slot('across', { ...ROUND, high: 2 })], formulas.halfSphere), CAP],
    expects: 'how wide it is across',
    example: 'half sphere 20 cm',
  },
  {
    names: ['spherical cap', 'sphere cap', 'ball cap', 'cap'],
    forms: [CAP, BALL_CAP],
    expects: 'how wide it is across its foot and how high it is, or the ball that it is cut from and how high it is',
    example: 'cap d 20 cm h 4 cm',
  },
  {
    names: ['half ellipsoid', 'half spheroid'],
    forms: [
      sides('half ellipsoid', [LONG, WIDE, HIGH], formulas.halfEllipsoid, 'high'),
      form('half ellipsoid', [ACROSS, HIGH], (across, high) => formulas.halfEllipsoid(across, across, high)),
    ],
    expects: 'its length, its width and its height as it stands',
    example: 'half ellipsoid 20 x 20 x 15 cm',
  },
  {
    names: ['ellipsoid', 'spheroid'],
    forms: [
      sides('ellipsoid', [LONG, WIDE, HIGH], formulas.ellipsoid),
      form('ellipsoid', [ACROSS, HIGH], (across, high) => formulas.ellipsoid(across, across, high)),
    ],
    expects: 'three whole axes, the upright one last',
    example: 'ellipsoid 20 x 20 x 40 cm',
  },
  {
    names: ['half torus', 'half ring', 'half donut', 'half doughnut'],
    forms: rings('half torus', formulas.halfTorus),
    expects: 'how wide the ring is across the middle line of its tube, and the tube; or outside and inside',
    example: 'half torus ring 30 cm tube 5 cm',
  },
  {
    names: ['half cylinder', 'half column', 'half round'],
    forms: [form('half cylinder', [ACROSS, ALONG], formulas.halfCylinder)],
    expects: 'how wide it is across and how long it lies',
    example: 'half cylinder d 10 cm l 30 cm',
  },
  {
    names: ['lying cylinder', 'cylinder lying', 'horizontal cylinder'],
    forms: [form('lying cylinder', [ACROSS, ALONG], formulas.lyingCylinder)],
    expects: 'how wide it is across and how long it lies',
    example: 'lying cylinder d 10 cm l 30 cm',
  },
  {
    names: ['cylinder', 'column', 'drum'],
    forms: [form('cylinder', [ACROSS, HIGH], formulas.cylinder)],
    expects: 'how wide it is across and how high it is',
    example: 'cylinder d 12 cm h 30 cm',
  },
  {
    names: ['truncated cone', 'cone frustum', 'frustum of a cone', 'frustum', 'frustrum'],
    forms: [
      form(
        'frustum',
        [slot('across the bottom', { ...ROUND, bottom: 1 }), slot('across the top', { ...ROUND, top: 1 }), HIGH],
        formulas.frustum,
      ),
    ],
    expects: 'how wide it is at the bottom, how wide at the top, and how high',
    example: 'frustum 24 x 18 x 4 cm',
  },
  {
    names: ['cone'],
    forms: [form('cone', [slot('across', { ...ROUND, bottom: 1 }), HIGH], formulas.cone)],
    expects: 'how wide it is across its foot and how high it is',
    example: 'cone d 10 cm h 15 cm',
  },
  {
    names: ['round plate', 'disc', 'disk', 'circle'],
    forms: [form('disc', [ACROSS], formulas.disc), form('disc', [ACROSS, THICK], formulas.cylinder)],
    expects: 'how wide it is across, and how thick where its edge counts',
    example: 'disc 30 cm',
  },
  {
    names: ['cube'],
    forms: [form('cube', [slot('each side', { side: 1, long: 1, wide: 1, high: 1 })], (side) => formulas.box(side, side, side))],
    expects: 'the length of a side',
    example: 'cube 10 cm',
  },
  {
    names: ['plate', 'panel', 'slab', 'tile', 'rectangle'],
    forms: [sides('plate', [LONG, WIDE], formulas.plate), sides('plate', [LONG, WIDE, THICK], formulas.box)],
    expects: 'its length and its width, and how thick it is where its edges count',
    example: 'plate 30 x 20 cm',
  },
  {
    names: ['box', 'block', 'brick', 'cuboid'],
    forms: [sides('box', [LONG, WIDE, HIGH], formulas.box)],
    expects: 'its length, its width and its height',
    example: 'box 30 x 20 x 10 cm',
  },
  {
    names: ['torus', 'donut', 'doughnut', 'ring'],
    forms: rings('torus', formulas.torus),
    expects: 'how wide the ring is across the middle line of its tube, and the tube; or outside and inside',
    example: 'torus ring 30 cm tube 5 cm',
  },
  {
    names: ['sphere', 'ball', 'globe'],
    forms: [form('sphere', [slot('across', { ...ROUND, high: 1 })], formulas.sphere)],
    expects: 'how wide it is across',
    example: 'sphere 20 cm',
  },
];
