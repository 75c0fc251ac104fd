import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import type { Body } from '../body/body.ts';
import type { Material } from '../material.ts';
import { mixedDensity } from '../mixing/parts.ts';
import { neat, onStep } from '../mixing/ratio.ts';
import { type Runs, runsOn } from './hold.ts';
import { type Layer, type LayerScale, layerOf, type Pour } from './layers.ts';
import { type Block, blockOf, LEAST_WALL_MILLIMETRES, shellLayers } from './mould.ts';

export type LayerRole = 'detail' | 'skin' | 'shell';

/** All that goes on of one material in one role. */
export interface LaidLayer {
  readonly role: LayerRole;
  readonly material: Material;
  /** What each step adds: a coat of skin, or a shell, which may go on in several layers. */
  readonly pours: readonly Pour[];
  /** `brushed`: in coats. `laid`: as a shell, or poured over. `block`: poured around the model, as thick as its wall. */
  readonly how: 'brushed' | 'laid' | 'block';
}

export interface CoverageLayer extends Layer {
  readonly role: LayerRole;
  readonly material: Material;
  readonly how: LaidLayer['how'];
  /** What the material costs; null where its price is not known. */
  readonly cost: number | null;
  /** Where its thickest coat is more than holds on a wall, and the model has steep faces; else null. */
  readonly runs: Runs | null;
}

export interface Coverage {
  readonly layers: readonly CoverageLayer[];
  readonly totalGrams: number;
  /** Of the finished mould, cured, without waste. */
  readonly mouldGrams: number;
  /** Of all layers; null where a price is not known, or their currencies differ. */
  readonly cost: { readonly amount: number; readonly currency: string } | null;
  /** The same mould poured as a block of the skin's material; null where that cannot be known. */
  readonly block: (Block & { readonly grams: number; readonly cost: number | null; readonly currency: string | null }) | null;
}

/** All layers of a mould, in the order in which they go on; each step is mixed in its own cups. Refusal: `density-missing`. */
export function coverageOf(body: Body, laid: readonly LaidLayer[], wastePercent: number, scale: LayerScale): Coverage | Refusal {
  const layers: CoverageLayer[] = [];
  for (const { role, material, pours, how } of laid) {
    const layer = layerOf(role, material, pours, wastePercent, scale);
    if (layer === null) return densityMissing(material);
    const { coatsMillimetres: steps } = layer;
    const coatsMillimetres = role === 'shell' && how !== 'block' ? steps.flatMap((step) => shellCoats(material, step)) : steps;
    const cost = costOf(material, layer.grams);
    layers.push({
      ...layer,
      coatsMillimetres,
      role,
      material,
      how,
      cost,
      runs: how === 'block' ? null : runsOn(body, material, Math.max(...coatsMillimetres)),
    });
  }
  const sum = (of: (layer: CoverageLayer) => number) => neat(layers.reduce((total, layer) => total + of(layer), 0));
  const currency = layers[0]?.material.price?.currency;
  const priced = currency !== undefined && layers.every(({ material }) => material.price?.currency === currency);
  const skin = layers.find(({ role, how }) => role === 'skin' && how !== 'block');
  return {
    layers,
    totalGrams: sum(({ grams }) => grams),
    mouldGrams: sum(({ curedGrams }) => curedGrams),
    cost: priced ? { amount: sum(({ cost }) => cost ?? 0), currency } : null,
    block: skin ? asBlock(body, skin, wastePercent, scale) : null,
  };
}

const shellCoats = ({ coat }: Material, millimetres: number): number[] =>
  shellLayers(millimetres, coat?.thicknessMillimetres ?? null, coat?.mostMillimetres ?? null);

function asBlock(body: Body, skin: CoverageLayer, wastePercent: number, scale: LayerScale): Coverage['block'] {
  const block = blockOf(body, Math.max(skin.thicknessMillimetres, LEAST_WALL_MILLIMETRES));
  const density = mixedDensity(skin.material);
  if (block === null || density === null) return null;
  const needed = block.volumeLitres * density * 1000 * (1 + wastePercent / 100);
  const grams = onStep(Math.ceil(needed / scale.stepGrams - 1e-9), scale.stepGrams);
  return { ...block, grams, cost: costOf(skin.material, grams), currency: skin.material.price?.currency ?? null };
}

const costOf = ({ price }: Material, grams: number): number | null =>
  price === null ? null : Math.round((grams / 1000) * price.perKilogram * 100) / 100;

const densityMissing = (material: Material): Refusal =>
  new Refusal(
    'density-missing',
    say`How much ${material.name} an area takes needs the densities of its parts, and one is missing. Add it from the data sheet.`,
  );
