import type { Body } from '../trade/body/body.ts';
import { MOST_COATS } from '../trade/cover/coats.ts';
import { type Cover, coatArea } from '../trade/cover/cover.ts';
import { type Block, blockOf, shellByRecipe } from '../trade/cover/mould.ts';
import { reliefShares } from '../trade/cover/relief.ts';
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
  /** Of a poured block the wall around the model. */
  readonly layerMillimetres: number | null;
  /** How much of the relief's excess is still there where it goes on: 1 all of it, 0 none. */
  readonly reliefShare: number;
  /** `null` where it is no block; `unknown` where the model's box or volume is not known. */
  readonly block: Block | 'unknown' | null;
}

/** What a step lays or pours, in litres; null where nobody can tell. `cover`: null where no size is known. */
export function litresOf({ layerMillimetres, reliefShare, block }: LaidStep, cover: Cover | null): number | null {
  if (layerMillimetres === null || cover === null || block === 'unknown') return null;
  return block === null ? coatArea(cover, reliefShare) * layerMillimetres : block.volumeLitres;
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
    const layers = steps.filter((step) => step.role === role && step.layer !== null && !isBlock(step));
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
  const shares = new Map(
    rolesOf(recipe).flatMap((role) => {
      const of = steps.filter((step) => step.role === role && step.layer !== null);
      return reliefShares(of.length).map((share, index) => [of[index] as RecipeStep, shareOf(role, share)] as const);
    }),
  );
  const laid = steps.map((step): LaidStep => {
    const material = materialOf(step.role) ?? null;
    const reliefShare = shares.get(step) ?? 1;
    const { layer } = step;
    if (layer !== null && 'blockWallMillimetres' in layer) {
      const wall = (step.role === 'skin' ? wanted.skinMillimetres : null) ?? layer.blockWallMillimetres;
      const block = (wanted.body && blockOf(wanted.body, wall)) ?? 'unknown';
      return { step, material, layerMillimetres: wall, reliefShare, block };
    }
    const layerMillimetres = thick.get(step) ?? (layer && ruledMillimetres(layer, material));
    return { step, material, layerMillimetres, reliefShare, block: null };
  });
  return { steps: laid, splits };
}

/** Detail coats are thin, and follow the whole of it; a shell lies on a skin. */
const shareOf = (role: Use, share: number): number => (role === 'detail' ? 1 : role === 'shell' ? 0 : share);

const isBlock = ({ layer }: RecipeStep): boolean => layer !== null && 'blockWallMillimetres' in layer;

const rulesOf = (steps: readonly RecipeStep[]): LayerRule[] =>
  steps.flatMap(({ layer }) => (layer === null || 'blockWallMillimetres' in layer ? [] : [layer]));

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
