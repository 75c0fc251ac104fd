import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Body } from '../body/body.ts';
import type { Material } from '../material.ts';
import { mixedDensity } from '../mixing/parts.ts';
import { neat, onStep } from '../mixing/ratio.ts';
import { coatsFor, MOST_COATS } from './coats.ts';
import { holdMillimetres, runsFromDegrees } from './hold.ts';
import { type Layer, type LayerScale, layerOf } from './layers.ts';
import { type Block, blockOf, shellLayers, shellMillimetres } from './mould.ts';

export type LayerRole = 'detail' | 'skin' | 'shell';

export interface CoverageAsk {
  readonly materials: Readonly<Partial<Record<LayerRole, Material>>>;
  /** Null for the usual: four usual coats of skin, and a shell by the size of the model. */
  readonly skinMillimetres: number | null;
  readonly shellMillimetres: number | null;
  readonly wastePercent: number;
}

export interface CoverageLayer extends Layer {
  readonly role: LayerRole;
  readonly material: Material;
  /** What the material costs; null where its price is not known. */
  readonly cost: number | null;
  /** Where its thickest coat is more than holds on a wall, and the model has steep faces; else null. */
  readonly runs: { readonly holdsMillimetres: number; readonly fromDegrees: number } | null;
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

/** A skin that nobody gave a thickness for is so many usual coats: as many as our recipes brush. */
const USUAL_COATS = 4;
/** Of a material that does not say how thick its usual coat is. */
const USUAL_MILLIMETRES = 1;
/** Two detail coats, in times of the usual one, as our recipes have them. */
const DETAIL_COATS = [0.8, 1];

/**
 * All layers of a mould over so much area, in the order in which they go on. Refusals: `density-missing`, `skin-too-thick`
 * (its example is a thickness that would do).
 */
export function coverageOf(body: Body, areaSquareMetres: number, ask: CoverageAsk, scale: LayerScale): Coverage | Refusal {
  const layers: CoverageLayer[] = [];
  for (const role of ['detail', 'skin', 'shell'] as const) {
    const material = ask.materials[role];
    if (!material) continue;
    const coats = coatsOf(role, material, body, ask);
    if (isRefusal(coats)) return coats;
    const layer = layerOf(material, coats, areaSquareMetres, ask.wastePercent, scale);
    if (layer === null) return densityMissing(material);
    const cost = costOf(material, layer.grams);
    layers.push({ ...layer, role, material, cost, runs: runsOn(body, material, Math.max(...coats)) });
  }
  const sum = (of: (layer: CoverageLayer) => number) => neat(layers.reduce((total, layer) => total + of(layer), 0));
  const currency = layers[0]?.material.price?.currency;
  const priced = currency !== undefined && layers.every(({ material }) => material.price?.currency === currency);
  const skin = layers.find(({ role }) => role === 'skin');
  return {
    layers,
    totalGrams: sum(({ grams }) => grams),
    mouldGrams: sum(({ curedGrams }) => curedGrams),
    cost: priced ? { amount: sum(({ cost }) => cost ?? 0), currency } : null,
    block: skin ? asBlock(body, skin, ask.wastePercent, scale) : null,
  };
}

function coatsOf(role: LayerRole, material: Material, body: Body, ask: CoverageAsk): number[] | Refusal {
  const { coat } = material;
  const usual = coat?.thicknessMillimetres ?? USUAL_MILLIMETRES;
  const most = coat?.mostMillimetres ?? null;
  if (role === 'detail') return DETAIL_COATS.map((times) => neat(times * usual));
  if (role === 'shell')
    return shellLayers(ask.shellMillimetres ?? shellMillimetres(body, coat), coat?.thicknessMillimetres ?? null, most);
  const wanted = ask.skinMillimetres ?? neat(USUAL_COATS * usual);
  // Where hardly anything holds on a wall, brushing it in hairs is no way out: it is said instead that it runs.
  const coats = coatsFor(wanted, usual, most, wallHold(body, material)) ?? coatsFor(wanted, usual, most, null);
  return coats ?? skinTooThick(material, wanted, usual, most);
}

/** What holds on the steep share of the body; null where there is none, or where it is not known. */
function wallHold(body: Body, material: Material): number | null {
  const density = mixedDensity(material);
  if (!body.steepPercent || material.yieldPascals === null || density === null) return null;
  return holdMillimetres(material.yieldPascals, density);
}

function runsOn(body: Body, material: Material, millimetres: number): CoverageLayer['runs'] {
  const holds = wallHold(body, material);
  if (holds === null || material.yieldPascals === null) return null;
  const fromDegrees = runsFromDegrees(millimetres, material.yieldPascals, mixedDensity(material) ?? 1);
  return fromDegrees === null ? null : { holdsMillimetres: holds, fromDegrees };
}

function asBlock(body: Body, skin: CoverageLayer, wastePercent: number, scale: LayerScale): Coverage['block'] {
  const block = blockOf(body, skin.thicknessMillimetres);
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

function skinTooThick(material: Material, wanted: number, usual: number, most: number | null): Refusal {
  // What is offered must do.
  let tenths = Math.floor(10 * Math.min(wanted, MOST_COATS * (most ?? wanted)));
  while (tenths > 1 && coatsFor(tenths / 10, usual, most, null) === null) tenths -= 1;
  const example = `${tenths / 10} mm`;
  return new Refusal(
    'skin-too-thick',
    say`${plain(String(Number(wanted.toFixed(2))))} mm of ${material.name} is more than anybody brushes: ${MOST_COATS} coats come to ${plain(example)}. I expected less, or a poured mould.`,
    { example },
  );
}
