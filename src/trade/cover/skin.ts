import type { Body } from '../body/body.ts';
import type { Material } from '../material.ts';
import { neat } from '../mixing/ratio.ts';
import { coatsFor, MOST_COATS, MOST_OF_USUAL } from './coats.ts';
import { wallHold } from './hold.ts';

/** A layer as a recipe gives it: so thick, or so many times the material's usual one. */
export type LayerRule = { readonly millimetres: number } | { readonly timesUsualCoat: number };

/** A block poured around the model, with so much at its sides and above it. */
export interface BlockRule {
  readonly blockWallMillimetres: number;
}

/** Of a material that does not say how thick its usual coat is. */
const USUAL_MILLIMETRES = 1;

/** A recipe's layer by itself, in millimetres. */
export const ruledMillimetres = (rule: LayerRule, material: Material | null): number =>
  'millimetres' in rule ? rule.millimetres : rule.timesUsualCoat * (material?.coat?.thicknessMillimetres ?? USUAL_MILLIMETRES);

export interface Coats {
  /** From the first to the last. */
  readonly millimetres: readonly number[];
  /** Why they are not those of the recipe; null where they are, but for a wish that all of them grow or shrink with. */
  readonly limit: { readonly by: 'most' | 'wall'; readonly millimetres: number } | null;
}

/**
 * A recipe's coats of one material. They keep their proportions, whatever skin is wished for (null: what they come to by
 * themselves), as long as none is more than the material bears at once, or than holds on the steep share of what is coated;
 * else there are as many as in the recipe or more, as `coatsFor` has them. Null where `MOST_COATS` would not do.
 */
export function coatsByRecipe(
  rules: readonly LayerRule[],
  material: Material,
  skinMillimetres: number | null,
  body: Pick<Body, 'steepPercent'> | null,
): Coats | null {
  const ruled = rules.map((rule) => ruledMillimetres(rule, material));
  const whole = ruled.reduce((sum, each) => sum + each, 0);
  const wanted = skinMillimetres ?? whole;
  const scaled = whole > 0 ? ruled.map((each) => neat((each * wanted) / whole)) : ruled;
  const { usual, most } = bearing(material, ruled, skinMillimetres);
  const hold = wallHold(body, material);
  const thickest = Math.max(...scaled);
  const over = (limit: number | null) => limit !== null && thickest > limit + 1e-6;
  if (!over(most) && !over(hold)) return { millimetres: scaled, limit: null };
  const split = (holds: number | null) => coatsFor(wanted, usual, most, holds, rules.length)?.map(neat);
  const onWall = over(hold) && (most === null || (hold ?? 0) < most) ? split(hold) : undefined;
  if (onWall) return { millimetres: onWall, limit: { by: 'wall', millimetres: hold ?? 0 } };
  // Where hardly anything holds on a wall, brushing it in hairs is no way out: it is said instead that it runs.
  if (most === null || !over(most)) return { millimetres: scaled, limit: null };
  const millimetres = split(null);
  return millimetres ? { millimetres, limit: { by: 'most', millimetres: most } } : null;
}

/** The usual coat and the most at once; a recipe's own layers are believed where the material does not say. */
function bearing({ coat }: Material, ruled: readonly number[], skinMillimetres: number | null) {
  const usual = coat?.thicknessMillimetres ?? USUAL_MILLIMETRES;
  if (coat?.mostMillimetres != null) return { usual, most: coat.mostMillimetres };
  return { usual, most: skinMillimetres === null ? null : Math.max(usual * MOST_OF_USUAL, ...ruled) };
}

/** The thickest skin up to `wanted`, down to a tenth of a millimetre, that can be brushed so. */
export function thickestSkin(rules: readonly LayerRule[], material: Material, wanted: number): number {
  const most = bearing(material, [], wanted).most ?? wanted;
  let tenths = Math.floor(10 * Math.min(wanted, MOST_COATS * most));
  while (tenths > 1 && coatsByRecipe(rules, material, tenths / 10, null) === null) tenths -= 1;
  return tenths / 10;
}
