import { ellipse, ellipsoidBetween } from './shape-ellipsoid.ts';
import { curved, face, type Solid, solid, table, wall } from './shape-solid.ts';

/*
 * Shapes standing on a board, from what a tape measures: every argument is millimetres, and whatever is round is measured
 * across. The resting face is not part of the area. Textbook formulas; the ring's are Pappus's, the sphere's Archimedes's.
 */

/** Flat, one side only: nothing is known of its thickness, so it has no volume. */
export const plate = (length: number, width: number): Solid =>
  solid({
    lies: [table(length * width)],
    volume: null,
    box: [length, width, 0],
    outline: 2 * (length + width),
    foot: length * width,
    top: length * width,
  });

/** Also a thick plate: top and four sides. */
export const box = (length: number, width: number, height: number): Solid =>
  solid({
    lies: [table(length * width), wall(2 * (length + width) * height)],
    volume: length * width * height,
    box: [length, width, height],
    outline: 2 * (length + width),
    foot: length * width,
    top: length * width,
  });

/** A flat round, one side only. */
export const disc = (across: number): Solid =>
  solid({ ...round(across), lies: [table(circle(across))], volume: null, box: [across, across, 0], top: circle(across) });

export const cylinder = (across: number, height: number): Solid => frustum(across, across, height);

/** Standing on its bottom; where the top is the wider, the side is undercut. A top of nothing makes it a cone. */
export function frustum(bottom: number, top: number, height: number): Solid {
  const slant = Math.hypot((bottom - top) / 2, height);
  const side = (Math.PI * (bottom + top) * slant) / 2;
  const widest = Math.max(bottom, top);
  return solid({
    ...round(bottom),
    lies: [table(circle(top)), face(side, (bottom - top) / 2 / slant)],
    volume: (Math.PI * height * (bottom ** 2 + bottom * top + top ** 2)) / 12,
    box: [widest, widest, height],
    top: circle(top),
  });
}

export const cone = (across: number, height: number): Solid => frustum(across, 0, height);

/** Lying along its length, on a line of no area. */
export function lyingCylinder(across: number, length: number): Solid {
  const around = rolled((Math.PI * across * length) / 180);
  return solid({
    lies: [curved(around, -1), wall(2 * circle(across))],
    volume: circle(across) * length,
    box: [length, across, across],
    outline: 0,
    foot: 0,
  });
}

/** Lying on its cut face. */
export function halfCylinder(across: number, length: number): Solid {
  const around = rolled((Math.PI * across * length) / 180);
  return solid({
    lies: [curved(around, 0), wall(circle(across))],
    volume: (circle(across) * length) / 2,
    box: [length, across, across / 2],
    outline: 2 * (across + length),
    foot: across * length,
  });
}

/** Of a ball `across`, what stands `height` above the cut; more than half of it leans out over its foot. */
export function ballCap(across: number, height: number): Solid {
  const radius = across / 2;
  const foot = 2 * Math.sqrt(height * (across - height));
  const widest = height > radius ? across : foot;
  return solid({
    ...round(foot),
    lies: [curved(zoneOfBall(across), (radius - height) / radius)],
    volume: (Math.PI * height ** 2 * (3 * radius - height)) / 3,
    box: [widest, widest, height],
  });
}

/** The cap that measures `foot` across where it stands. */
export const cap = (foot: number, height: number): Solid => ballCap(ballOf(foot, height), height);

/** The ball that such a cap is cut from: two chords that cross each other at the foot. Millimetres across. */
const ballOf = (foot: number, height: number): number => (foot / 2) ** 2 / height + height;

export const halfSphere = (across: number): Solid => ballCap(across, across / 2);

/** Standing on a point. */
export const sphere = (across: number): Solid => ballCap(across, across);

/** Three whole axes, the last one upright; it stands on a point. */
export const ellipsoid = (length: number, width: number, height: number): Solid =>
  solid({
    lies: [curved(ellipsoidBetween(length / 2, width / 2, height / 2), -1)],
    volume: (Math.PI * length * width * height) / 6,
    box: [length, width, height],
    outline: 0,
    foot: 0,
  });

/** Cut through its middle and standing on that face, `height` high: half of an axis. */
export const halfEllipsoid = (length: number, width: number, height: number): Solid =>
  solid({
    lies: [curved(ellipsoidBetween(length / 2, width / 2, height), 0)],
    volume: (Math.PI * length * width * height) / 6,
    box: [length, width, height],
    outline: ellipse(length / 2, width / 2),
    foot: (Math.PI * length * width) / 4,
  });

/** Lying flat on a line. `ring`: across the middle line of the tube; `tube`: across the tube itself, at most as much. */
export const torus = (ring: number, tube: number): Solid =>
  solid({
    lies: [curved(rolled((Math.PI ** 2 * ring * tube) / 180), -1)],
    volume: (Math.PI ** 2 * ring * tube ** 2) / 4,
    box: [ring + tube, ring + tube, tube],
    outline: 0,
    foot: 0,
  });

/** Cut flat, as a frame is: it stands on the cut, which has an outer and an inner outline. */
export const halfTorus = (ring: number, tube: number): Solid =>
  solid({
    lies: [curved(rolled((Math.PI ** 2 * ring * tube) / 180), 0)],
    volume: (Math.PI ** 2 * ring * tube ** 2) / 8,
    box: [ring + tube, ring + tube, tube / 2],
    outline: 2 * Math.PI * ring,
    holeRadius: (ring - tube) / 2,
    foot: Math.PI * ring * tube,
  });

const circle = (across: number) => (Math.PI * across ** 2) / 4;
const round = (across: number) => ({ outline: Math.PI * across, foot: circle(across) });

/** Archimedes: the area of a zone goes by its height, and so by how far it looks up. */
const zoneOfBall = (across: number) => (low: number, high: number) => (Math.PI * across ** 2 * (high - low)) / 2;

/** Around a bent or straight tube each degree has as much area: where a ring is wider outside, it is as much narrower inside. */
const rolled = (areaPerDegree: number) => (low: number, high: number) =>
  (areaPerDegree * (Math.acos(low) - Math.acos(high)) * 180) / Math.PI;
