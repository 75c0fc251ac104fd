import type { Material } from '../material.ts';
import { cupsOf } from '../mixing/batches.ts';
import { pourOrder } from '../mixing/parts.ts';
import { above, neat } from '../mixing/ratio.ts';
import { roundParts } from '../mixing/rounding.ts';
import { fillingOf } from './laminated.ts';

/**
 * Grams of a layer: one litre spread over one square metre is one millimetre thick, so area (m²) times thickness (mm) is
 * litres; density in g/mL is kg/L. `wastePercent` is what stays in cup and brush.
 */
export function layerGrams(
  areaSquareMetres: number,
  millimetres: number,
  gramsPerMillilitre: number,
  wastePercent: number,
): number {
  return areaSquareMetres * millimetres * gramsPerMillilitre * 1000 * (1 + wastePercent / 100);
}

export interface Layer {
  /** As they go on, the first coat first. */
  readonly coatsMillimetres: readonly number[];
  readonly thicknessMillimetres: number;
  /** On the model, without waste. */
  readonly volumeLitres: number;
  /** What stays on the model, with the glass that is in it. */
  readonly curedGrams: number;
  /** Mat in a laminate, without offcuts; null where none goes in. */
  readonly glassGrams: number | null;
  /** What is mixed, waste counted, each cup as the scale shows it; never less than can be weighed true. */
  readonly grams: number;
  /** What it takes, waste included, before anything is rounded to the scale or raised to what can be weighed true. */
  readonly neededGrams: number;
  readonly cups: number;
  /** The first coat's cups: how many, and how many grams are asked for in each. */
  readonly firstCup: { readonly count: number; readonly askGrams: number };
  /** Less would do, but could not be weighed true. */
  readonly raised: boolean;
  /** Not even the largest cup that may be mixed can be weighed true on this scale. */
  readonly scaleTooCoarse: boolean;
  /** In pour order; they add up to `grams`. */
  readonly parts: readonly { readonly part: string; readonly grams: number }[];
}

export interface LayerScale {
  readonly stepGrams: number;
  readonly mostGrams: number | null;
}

/** What one step lays or pours. */
export interface Pour {
  readonly millimetres: number;
  /** On the model, without waste. */
  readonly litres: number;
}

/**
 * One material in coats: each coat is mixed in its own cups, as large as may be mixed and weighed at once, and each cup is
 * what weighing it out gives. `role`: a shell may be laminated. Null where the material's density is not known.
 */
export function layerOf(
  role: string,
  material: Material,
  pours: readonly Pour[],
  wastePercent: number,
  scale: LayerScale,
): Layer | null {
  const volumeLitres = sum(pours.map(({ litres }) => litres));
  const filling = fillingOf(role, material, volumeLitres);
  if (filling === null) return null;
  const shares = material.parts.map((part) => part.weightShare);
  const limits = [material.mostGrams, scale.mostGrams].filter((most) => most !== null);
  const most = limits.length > 0 ? Math.min(...limits) : Number.POSITIVE_INFINITY;
  const poured = pours.map(({ litres }) => {
    const needed = (fillingOf(role, material, litres)?.grams ?? 0) * (1 + wastePercent / 100);
    const ratio = { shares, tolerancePercent: material.tolerancePercent };
    const cups = cupsOf(needed, material.mostGrams, ratio, scale);
    const cup = roundParts(cups.askGrams, shares, scale.stepGrams, null, (amounts) => !above(sum(amounts), most));
    return { cups, parts: cup.map((grams) => grams * cups.count) };
  });
  const parts = pourOrder(material).map((part) => {
    const index = material.parts.indexOf(part);
    return { part: part.name, grams: neat(sum(poured.map((each) => each.parts[index] ?? 0))) };
  });
  const coatsMillimetres = pours.map(({ millimetres }) => millimetres);
  const [first] = poured;
  return {
    coatsMillimetres,
    thicknessMillimetres: neat(sum(coatsMillimetres)),
    volumeLitres,
    curedGrams: filling.grams + (filling.glassGrams ?? 0),
    glassGrams: filling.glassGrams,
    neededGrams: filling.grams * (1 + wastePercent / 100),
    grams: neat(sum(parts.map(({ grams }) => grams))),
    cups: sum(poured.map(({ cups }) => cups.count)),
    firstCup: { count: first?.cups.count ?? 0, askGrams: first?.cups.askGrams ?? 0 },
    raised: poured.some(({ cups }) => cups.raised),
    scaleTooCoarse: poured.some(({ cups }) => cups.scaleTooCoarse),
    parts,
  };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
