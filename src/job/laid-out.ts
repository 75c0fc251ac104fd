import type { Body } from '../trade/body/body.ts';
import { MOST_COATS } from '../trade/cover/coats.ts';
import { shellByRecipe } from '../trade/cover/mould.ts';
import { type Coats, coatsByRecipe, type LayerRule, ruledMillimetres, thickestSkin } from '../trade/cover/skin.ts';
import type { Material, Use } from '../trade/material.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';
import { furtherCoats } from './further-coats.ts';
import { type Recipe, type RecipeStep, rolesOf } from './recipe.ts';

export type Roles = Readonly<Partial<Record<Use, Material>>>;

/** How thick things are to be, and on what; null where nobody said. */
export interface Wanted {
  /** The skin's whole thickness. */
  readonly skinMillimetres: number | null;
  /** The shell's. */
  readonly shellMillimetres: number | null;
  readonly body: Body | null;
}

/** A step with the material that it takes, and how thick it lays it. */
export interface LaidStep {
  readonly step: RecipeStep;
  readonly material: Material | null;
  readonly layerMillimetres: number | null;
}

/** Coats that are not as the recipe has them, and why. */
export interface Split {
  readonly role: Use;
  readonly ruled: number;
  readonly coats: number;
  readonly limit: NonNullable<Coats['limit']>;
}

export interface LaidOut {
  readonly steps: readonly LaidStep[];
  readonly splits: readonly Split[];
}

/**
 * A recipe with these materials, every layer as thick as it is to be: coats that would be more than their material bears are
 * followed by further ones. A detail coat without its own material takes the skin's. Refusal: `coat-too-thick`, whose example
 * is a thickness that would do.
 */
export function laidOut(recipe: Recipe, roles: Roles, wanted: Wanted): LaidOut | Refusal {
  const materialOf = (role: Use | null) =>
    role === null ? undefined : (roles[role] ?? (role === 'detail' ? roles.skin : undefined));
  const thick = new Map<RecipeStep, number>();
  const splits: Split[] = [];
  let { steps } = recipe;
  for (const role of rolesOf(recipe)) {
    const material = materialOf(role);
    if (!material) continue;
    const layers = steps.filter((step) => step.role === role && step.layer !== null);
    const coats = role === 'shell' ? [] : layers.filter(({ kind }) => kind === 'coat');
    if (coats.length === 0) {
      for (const [index, each] of backing(role, rulesOf(layers), material, wanted).entries())
        thick.set(layers[index] as RecipeStep, each);
      continue;
    }
    const skin = role === 'skin' ? wanted.skinMillimetres : null;
    const brushed = coatsByRecipe(rulesOf(coats), material, skin, wanted.body);
    if (brushed === null) return tooThick(rulesOf(coats), material, skin);
    const all = furtherCoats(coats, brushed.millimetres.length - coats.length, steps);
    for (const [index, each] of all.entries()) thick.set(each, brushed.millimetres[index] ?? 0);
    const last = coats.at(-1);
    steps = steps.flatMap((step) => (step === last ? all.slice(coats.length - 1) : [step]));
    if (brushed.limit !== null) splits.push({ role, ruled: coats.length, coats: all.length, limit: brushed.limit });
  }
  const laid = steps.map((step): LaidStep => {
    const material = materialOf(step.role) ?? null;
    return { step, material, layerMillimetres: thick.get(step) ?? (step.layer && ruledMillimetres(step.layer, material)) };
  });
  return { steps: laid, splits };
}

const rulesOf = (steps: readonly RecipeStep[]) => steps.flatMap(({ layer }) => (layer === null ? [] : [layer]));

/** What is not brushed in coats: a shell, which grows with the size, or a pour. */
const backing = (role: Use, rules: readonly LayerRule[], material: Material, wanted: Wanted): number[] =>
  role === 'shell'
    ? shellByRecipe(rules, material, wanted.shellMillimetres, wanted.body)
    : shellByRecipe(rules, material, role === 'skin' ? wanted.skinMillimetres : null, null);

function tooThick(rules: readonly LayerRule[], material: Material, wish: number | null): Refusal {
  const wanted = wish ?? rules.reduce((sum, rule) => sum + ruledMillimetres(rule, material), 0);
  const example = `${thickestSkin(rules, material, wanted)} mm`;
  return new Refusal(
    'coat-too-thick',
    say`${plain(String(Number(wanted.toFixed(2))))} mm of ${material.name} is more than anybody brushes: ${MOST_COATS} coats come to ${plain(example)}. I expected less, or a poured mould.`,
    { example },
  );
}
