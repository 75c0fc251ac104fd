import type { Body } from '../body/body.ts';
import type { Material } from '../material.ts';
import { neat } from '../mixing/ratio.ts';
import { type LayerRule, ruledMillimetres } from './skin.ts';

/** The load constant of the revised NIOSH lifting equation, from memory: more is for two, even held well. */
export const LIFT_ALONE_GRAMS = 23_000;

/** Our rule for a rigid shell, common practice, no source: 6 mm up to 30 cm, 12 mm from 1 m on, evenly between. */
const THIN_SHELL = { millimetres: 6, upTo: 300 };
const THICK_SHELL = { millimetres: 12, from: 1000 };

/** A layer of a material: the usual one, and the most that goes on at once; null where its maker does not say. */
interface Coat {
  readonly thicknessMillimetres: number;
  readonly mostMillimetres: number | null;
}

/**
 * How thick a shell should be, in millimetres: a whole number of them by the longest side of what it backs (a bare area: by
 * the side of a square of that area), but no more than goes on at once, since a stiff material needs no more, and no less
 * than a usual layer.
 */
export function shellMillimetres(body: Body, coat: Coat | null): number {
  const longest = body.longestMillimetres ?? Math.sqrt(body.areaSquareMetres) * 1000;
  const grown = (longest - THIN_SHELL.upTo) / (THICK_SHELL.from - THIN_SHELL.upTo);
  const share = Math.min(1, Math.max(0, grown));
  const bySize = Math.round(THIN_SHELL.millimetres + share * (THICK_SHELL.millimetres - THIN_SHELL.millimetres));
  return Math.max(Math.min(bySize, coat?.mostMillimetres ?? bySize), coat?.thicknessMillimetres ?? 0);
}

/**
 * How thick each of a recipe's shell steps is. Those that count in usual layers keep their proportions and grow with the size
 * of the model, never below what the recipe comes to by itself; those that give a thickness stay as they are. A wished-for
 * whole is shared out among all of them. `body`: null where no size is known.
 */
export function shellByRecipe(
  rules: readonly LayerRule[],
  material: Material,
  shellMillimetresWanted: number | null,
  body: Body | null,
): number[] {
  const ruled = rules.map((rule) => ruledMillimetres(rule, material));
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  if (shellMillimetresWanted !== null) return ruled.map((each) => neat((each * shellMillimetresWanted) / sum(ruled)));
  const counted = sum(ruled.filter((_, index) => !('millimetres' in (rules[index] ?? {}))));
  const growth = body === null || counted === 0 ? 1 : Math.max(1, shellMillimetres(body, material.coat) / counted);
  return ruled.map((each, index) => neat('millimetres' in (rules[index] ?? {}) ? each : each * growth));
}

/** A shell in equal layers, none over what goes on at once (else the usual layer; neither known: in one). */
export function shellLayers(millimetres: number, usual: number | null, most: number | null): number[] {
  const limit = most ?? usual ?? millimetres;
  const count = Math.max(1, Math.ceil(millimetres / limit - 1e-9));
  return Array.from({ length: count }, () => millimetres / count);
}

/** A block is poured at least so thick around the model. Common practice, no source: 10 to 15 mm. */
export const LEAST_WALL_MILLIMETRES = 12;

export interface Block {
  readonly wallMillimetres: number;
  readonly volumeLitres: number;
}

/**
 * A mould as one solid block: the box around the model with a wall on each side and above, less the model itself;
 * below, the model stands on the board. Null where box or volume is not known, or they cannot both be right.
 */
export function blockOf(body: Body, wallMillimetres: number): Block | null {
  if (body.boxMillimetres === null || body.volumeLitres === null) return null;
  const [x, y, z] = body.boxMillimetres;
  const volumeLitres = ((x + 2 * wallMillimetres) * (y + 2 * wallMillimetres) * (z + wallMillimetres)) / 1e6 - body.volumeLitres;
  return volumeLitres > 0 ? { wallMillimetres, volumeLitres } : null;
}
