import { coatsFor } from '../trade/cover/coats.ts';
import { layerGrams } from '../trade/cover/layers.ts';
import type { Material, Use } from '../trade/material.ts';
import { mixedDensity } from '../trade/mixing/parts.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import type { PlannedStep } from './events.ts';
import type { Recipe, RecipeStep } from './recipe.ts';

export type Roles = Readonly<Partial<Record<Use, Material>>>;

export interface Size {
  readonly areaSquareMetres: number | null;
  /** The skin's whole thickness where it is wished for; the coats keep their proportions. */
  readonly skinMillimetres: number | null;
  readonly wastePercent: number;
}

/** Layers of a shell whose recipe counts in times of the usual coat, of a material that has none. */
const USUAL_LAYER_MILLIMETRES = 1;

/** The roles whose material a recipe uses up, in the order of their first use. */
export const rolesOf = (recipe: Recipe): Use[] => [
  ...new Set(recipe.steps.flatMap((step) => (step.role === null ? [] : [step.role]))),
];

/** The recipe's steps with the times and amounts of these materials. A detail coat without its own material takes the skin's. */
export function plannedSteps(recipe: Recipe, roles: Roles, size: Size): PlannedStep[] | Refusal {
  const coats = recipe.steps.filter((step) => step.kind === 'coat' && step.role === 'skin');
  const usual = coats.reduce((sum, step) => sum + (millimetresOf(step, roles.skin) ?? 0), 0);
  const stretch = size.skinMillimetres === null || usual === 0 ? 1 : size.skinMillimetres / usual;
  const planned: PlannedStep[] = [];
  for (const step of recipe.steps) {
    const material = step.role === null ? undefined : (roles[step.role] ?? (step.role === 'detail' ? roles.skin : undefined));
    const usualMillimetres = millimetresOf(step, material);
    const layer = usualMillimetres === null ? null : Number((usualMillimetres * (coats.includes(step) ? stretch : 1)).toFixed(3));
    const most = material?.coat?.mostMillimetres ?? null;
    if (step.kind === 'coat' && layer !== null && most !== null && layer > most) {
      const thickest = thickestSkin(coats, roles.skin);
      const needed = coatsNeeded(size.skinMillimetres, coats.length, roles.skin);
      return new Refusal(
        'coat-too-thick',
        say`${step.title} would be ${plain(layer.toFixed(1))} mm, and ${material?.name ?? ''} holds ${most} mm in one coat at most.${needed}`,
        { example: `${lineFor(recipe, roles)}${thickest === null ? '' : ` thickness:${thickest.toFixed(1)} mm`}` },
      );
    }
    const wait = waitOf(step, material);
    if (wait instanceof Refusal) return wait;
    const density = material ? mixedDensity(material) : null;
    const grams =
      size.areaSquareMetres === null || layer === null || density === null
        ? null
        : layerGrams(size.areaSquareMetres, layer, density, size.wastePercent);
    planned.push({
      id: step.id,
      title: step.title,
      kind: step.kind,
      handsMinutes: step.handsMinutes,
      advice: step.advice,
      material: material ? { id: material.id, name: material.name } : null,
      layerMillimetres: layer,
      grams,
      mostGrams: material?.mostGrams ?? null,
      ratio: material
        ? { shares: material.parts.map((part) => part.weightShare), tolerancePercent: material.tolerancePercent }
        : null,
      usable: material?.usable ?? null,
      wait,
    });
  }
  return planned;
}

/** How thick a skin of these coats can be, down to a tenth of a millimetre: the thickest coat reaches its limit first. */
function thickestSkin(coats: readonly RecipeStep[], skin: Material | undefined): number | null {
  const most = skin?.coat?.mostMillimetres ?? null;
  const layers = coats.map((step) => millimetresOf(step, skin) ?? 0);
  const largest = Math.max(...layers);
  if (most === null || !(largest > 0)) return null;
  return Math.floor((10 * layers.reduce((sum, layer) => sum + layer, 0) * most) / largest + 1e-9) / 10;
}

/** " It takes 5 coats, and this recipe has 4."; nothing where the skin has no thickness of its own, or nobody brushes so much. */
function coatsNeeded(skinMillimetres: number | null, has: number, skin: Material | undefined): Text {
  if (skinMillimetres === null || !skin?.coat) return say``;
  const { thicknessMillimetres: usual, mostMillimetres: most } = skin.coat;
  const coats = coatsFor(skinMillimetres, usual, most, null);
  // A skin may fit into as many coats, only not in this recipe's proportions.
  if (coats === null) return say` That is more than anybody brushes.`;
  return coats.length > has ? say` It takes ${coats.length} coats, and this recipe has ${has}.` : say``;
}

const lineFor = (recipe: Recipe, roles: Roles): string =>
  ['/job start name:Lion head', `recipe:${recipe.id}`, ...Object.entries(roles).map(([role, { id }]) => `${role}:${id}`)].join(
    ' ',
  );

function millimetresOf(step: RecipeStep, material: Material | undefined): number | null {
  if (step.layer === null) return null;
  if ('millimetres' in step.layer) return step.layer.millimetres;
  return step.layer.timesUsualCoat * (material?.coat?.thicknessMillimetres ?? USUAL_LAYER_MILLIMETRES);
}

function waitOf(step: RecipeStep, material: Material | undefined): PlannedStep['wait'] | Refusal {
  const { wait } = step;
  // A material that is chosen later gives no time yet.
  const undecided = step.role !== null && material === undefined;
  if (wait.kind === 'none' || (undecided && wait.kind !== 'fixed')) return null;
  if (wait.kind === 'fixed')
    return { kind: 'fixed', fromMinutes: wait.fromMinutes, untilMinutes: wait.untilMinutes, speed: null };
  const speed = material?.cure ? { law: material.cure, referenceCelsius: material.reference.celsius } : null;
  const lacks = (what: string, entry: string) =>
    new Refusal(
      'time-missing',
      say`${step.title} waits for ${material?.name ?? ''}, whose entry gives no ${plain(what)}. Add it from the data sheet.`,
      { example: entry },
    );
  if (wait.kind === 'recoat')
    return material?.recoat
      ? { kind: 'recoat', fromMinutes: material.recoat.fromMinutes, untilMinutes: material.recoat.untilMinutes, speed }
      : lacks('recoat window', 'recoat: { from: 45 min, until: 3 h }');
  return material?.demouldMinutes == null
    ? lacks('demould time', 'demould: 16 h')
    : { kind: 'cure', fromMinutes: material.demouldMinutes, untilMinutes: null, speed };
}
