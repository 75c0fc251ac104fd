import { Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import { lengthText, type UnitSystem } from '../measures/format-sizes.ts';

/** What a hollow casting takes, in millilitres. */
export interface WallVolume {
  /**
   * Of a box, a cylinder, a ball or half of one just what the wall takes. Else area times thickness: right for a thin wall,
   * and never too little for a body without hollows.
   */
  readonly millilitres: number;
  /** No body without hollows takes less; null where its volume is not known. */
  readonly leastMillilitres: number | null;
}

/** The body that is cast hollow: its surface, without the face that stays open, and what it holds. */
export interface Hollow {
  readonly areaSquareMetres: number;
  readonly millilitres: number | null;
  readonly boxMillimetres: readonly number[] | null;
}

/**
 * The volume of a wall of that thickness, which grows inwards. The inside of a rounded wall has less area than its outside,
 * so area × thickness is the most that a convex body can take. The least follows from the inequality of Brunn and Minkowski,
 * by which the cube root of what is left inside falls at least as fast as it begins to: V·(1 − (1 − w·A/3V)³). A ball
 * and a cube take just that.
 *
 * Refusal: `wall-too-thick`, where nothing would be left hollow.
 */
export function wallVolume(hollow: Hollow, wallMillimetres: number, units: UnitSystem): WallVolume | Refusal {
  const { areaSquareMetres, millilitres, boxMillimetres } = hollow;
  const half = boxMillimetres === null ? Number.POSITIVE_INFINITY : Math.min(...boxMillimetres) / 2;
  // Nothing that is thicker has a ball inside: V ≥ A·r/3 for the largest ball, of radius r, in a convex body.
  const ball = millilitres === null ? Number.POSITIVE_INFINITY : (3 * millilitres) / areaSquareMetres / 1000;
  const most = Math.min(half, ball);
  if (wallMillimetres >= most * (1 - 1e-9))
    return new Refusal(
      'wall-too-thick',
      say`A wall of ${plain(lengthText(wallMillimetres, units))} leaves nothing hollow: I expected less than ${plain(lengthText(most, units))}, or no wall, for a solid casting.`,
      { example: `${Number((most / 3).toPrecision(1))} mm` },
    );
  const exact = shellOf(hollow, wallMillimetres);
  if (exact !== null) return { millilitres: exact, leastMillilitres: exact };
  const flat = areaSquareMetres * wallMillimetres * 1000;
  if (millilitres === null) return { millilitres: flat, leastMillilitres: null };
  const least = millilitres * (1 - (1 - flat / (3 * millilitres)) ** 3);
  return { millilitres: Math.min(flat, millilitres), leastMillilitres: least };
}

const near = (one: number, other: number) => Math.abs(one / other - 1) < 1e-6;

/**
 * The wall of a body that its measures tell: it has the box, the volume and the surface (its foot open) of a box, an upright
 * cylinder, a half ball or a ball. What is inside has the same form. Millilitres; null for every other body.
 */
function shellOf({ areaSquareMetres, millilitres, boxMillimetres }: Hollow, wall: number): number | null {
  if (millilitres === null || boxMillimetres === null) return null;
  const [a = 0, b = 0, c = 0] = boxMillimetres;
  const is = (area: number, volume: number) => near(areaSquareMetres * 1e6, area) && near(millilitres * 1000, volume);
  const shell = (inside: number) => millilitres - inside / 1000;
  if (is(a * b + 2 * (a + b) * c, a * b * c)) return shell((a - 2 * wall) * (b - 2 * wall) * (c - wall));
  if (!near(a, b)) return null;
  const [r, within] = [a / 2, a / 2 - wall];
  if (is(Math.PI * r * (r + 2 * c), Math.PI * r ** 2 * c)) return shell(Math.PI * within ** 2 * (c - wall));
  const ball = (4 / 3) * Math.PI * r ** 3;
  if (near(c, r) && is(2 * Math.PI * r ** 2, ball / 2)) return shell((2 / 3) * Math.PI * within ** 3);
  if (near(c, a) && is(4 * Math.PI * r ** 2, ball)) return shell((4 / 3) * Math.PI * within ** 3);
  return null;
}

/** The least surface, in square metres, that a volume can have: that of a ball, (36π)^⅓ · V^⅔. */
export const leastArea = (millilitres: number): number => Math.cbrt(36 * Math.PI) * Math.cbrt(millilitres / 1e6) ** 2;

/**
 * In how many pours a hollow wall is built up, where nobody says: two, and three from 4 mm on, since each runs off a wall
 * beyond about that. Common practice, no source.
 */
export const usualLayers = (wallMillimetres: number): number => (wallMillimetres > 4 ? 3 : 2);
