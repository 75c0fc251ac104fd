import type { Studio } from '../bench/studio.ts';
import { type Card, card } from '../chat/card.ts';
import { plainText } from '../chat/plain.ts';
import type { Split } from '../job/laid-out.ts';
import type { Body } from '../trade/body/body.ts';
import type { Cover } from '../trade/cover/cover.ts';
import type { Coverage, CoverageLayer } from '../trade/cover/coverage.ts';
import { LIFT_ALONE_GRAMS } from '../trade/cover/mould.ts';
import { percentText } from '../trade/measures/format.ts';
import { areaText, boxText, costText, lengthsText, lengthText, volumeText } from '../trade/measures/format-sizes.ts';
import { neat } from '../trade/mixing/ratio.ts';
import type { Way } from '../words/refusal.ts';
import { joined, plain, say, strong, type Text } from '../words/text.ts';
import { coarseLine, runsLine, splitLines, TITLES } from './layer-warnings.ts';
import { aboutMass } from './weigh-out.ts';
import { mass, roundTo } from './words.ts';

/** Where a size is from, and what was measured. */
interface Measured {
  readonly from: 'area' | 'shape' | 'model';
  readonly spoken: Text;
}

export interface AreaView extends Measured {
  readonly body: Body;
  readonly cover: Cover;
  readonly warnings: readonly Text[];
  readonly mesh: { readonly triangles: number; readonly watertight: boolean; readonly warnings: readonly Text[] } | null;
  readonly coverage: Coverage;
  /** Coats that are not the recipe's. */
  readonly splits: readonly Split[];
  /** Without materials, what the layers together take up is all that can be said; null where no thickness is given. */
  readonly millimetres: number | null;
  readonly wastePercent: number;
  readonly studio: Studio;
  readonly buttons: readonly Way[];
}

/** What is to be covered, and what each layer takes: the amounts first, then what bears on them, then how they came about. */
export function areaCard(view: AreaView): Card {
  const { cover, coverage, studio } = view;
  const { layers } = coverage;
  const amounts = joined(
    layers.map((layer) => say`${strong(mass(layer.grams, studio))} of ${layer.material.name}`),
    ', ',
  );
  const area = plain(areaText(cover.areaSquareMetres, studio.units));
  return card(
    layers.length === 0 ? say`${area} to cover` : say`${area} to cover: ${amounts}`,
    [
      ...(layers.length === 0 ? [bareLine(view)] : layers.map((layer) => layerLine(layer, studio))),
      ...layers.flatMap((layer) => coatUnknown(layer, studio)),
      ...mouldLines(coverage, studio),
      ...layers.flatMap((layer) => coarseLine(layer, studio)),
      ...splitLines(view.splits, view),
      ...layers.flatMap((layer) => runsLine(layer, view)),
      ...view.warnings,
      ...blockLine(view),
      ...bodyLine(view),
      reason(view),
    ],
    { data: { coverage: coverageData(view) }, buttons: view.buttons },
  );
}

function bareLine({ cover, millimetres, studio }: AreaView): Text {
  const volume = (thick: number) => plain(volumeText(cover.areaSquareMetres * thick * 1000, studio.units));
  return millimetres === null
    ? say`Each ${plain(lengthText(1, studio.units))} of thickness takes ${strong(volume(1))}, waste not counted. Name a skin and a shell for grams.`
    : say`${plain(lengthText(millimetres, studio.units))} take ${strong(volume(millimetres))}, waste not counted. Name a skin for grams.`;
}

/** "Skin, 3.2 mm in 3 coats (0.75, 1.07, 1.38): A 700 g, B 875 g." */
function layerLine(
  { role, brushed, coatsMillimetres: coats, thicknessMillimetres, parts, raised, cups }: CoverageLayer,
  studio: Studio,
): Text {
  const each = brushed ? ['coat', 'coats'] : ['layer', 'layers'];
  const same = coats.every((coat) => Math.abs(coat - (coats[0] ?? 0)) < 1e-9);
  const thick =
    coats.length === 1
      ? plain(`in one ${each[0]}`)
      : same
        ? plain(`in ${coats.length} ${each[1]} of ${lengthText(coats[0] ?? 0, studio.units)}`)
        : plain(`in ${coats.length} ${each[1]} (${lengthsText(coats, studio.units)})`);
  const amounts = joined(
    parts.map(({ part, grams }) => say`${part} ${strong(mass(grams, studio))}`),
    ', ',
  );
  const inCups = cups > coats.length ? say`, in ${cups} cups` : say``;
  const more = raised ? say` (more than it takes: less cannot be weighed true)` : say``;
  return say`${plain(TITLES[role])}, ${plain(lengthText(thicknessMillimetres, studio.units))} ${thick}: ${amounts}${inCups}${more}.`;
}

/** A weight that nobody weighs out: two or three digits of it. */
const about = (grams: number, studio: Studio) => aboutMass(roundTo(grams, grams < 100 ? 1 : grams < 1000 ? 10 : 100), studio);

/** What is lifted in the end, and what all of it costs. */
function mouldLines({ layers, mouldGrams, cost }: Coverage, studio: Studio): Text[] {
  if (layers.length === 0) return [];
  const weight = about(mouldGrams, studio);
  const lift = mouldGrams >= LIFT_ALONE_GRAMS ? say`: ${strong(say`two people or a hoist`)} to lift it` : say``;
  return [
    say`${plain(layers.some(({ role }) => role === 'shell') ? 'The mould' : 'The skin')} will weigh about ${weight}${lift}.`,
    ...(cost === null ? [] : [say`Material: ${plain(costText(cost.amount, cost.currency))}.`]),
  ];
}

function coatUnknown({ brushed, material, coatsMillimetres }: CoverageLayer, studio: Studio): Text[] {
  if (material.coat !== null || !brushed) return [];
  const last = plain(lengthText(coatsMillimetres.at(-1) ?? 0, studio.units));
  return [say`⚠ ${material.name} gives no thickness of a coat: is it made to be brushed? The last coat would be ${last}.`];
}

function blockLine({ coverage, studio }: AreaView): Text[] {
  const { block, layers } = coverage;
  if (block === null) return [];
  const skin = layers.find(({ role }) => role === 'skin');
  const priced = block.cost === null || block.currency === null ? say`` : say`, ${plain(costText(block.cost, block.currency))}`;
  const against = skin ? say`, against ${mass(skin.grams, studio)} for the skin` : say``;
  const walls = plain(lengthText(block.wallMillimetres, studio.units));
  return [
    say`As a solid block with ${walls} around: ${plain(volumeText(block.volumeLitres * 1000, studio.units))}, ${about(block.grams, studio)}${priced}${against}.`,
  ];
}

/** With more undercut than this a shell in one piece does not come off. Common practice, no source. */
const LOCKING_PERCENT = 5;

/** "It measures 300 x 200 x 145 mm and takes up 4.12 L; 35 % is steep, 2 % undercut." */
function bodyLine({ body, studio, coverage }: AreaView): Text[] {
  const { boxMillimetres: box, volumeLitres: volume } = body;
  if (box === null && volume === null) return [];
  const undercut = Math.round(body.undercutPercent ?? 0);
  const size = box === null ? say`It` : say`It measures ${plain(boxText(box, studio.units))} and`;
  const takes =
    volume === null ? say` has no volume that can be told` : say` takes up ${plain(volumeText(volume * 1000, studio.units))}`;
  const shares = [
    ...(body.steepPercent === null ? [] : [say`${plain(percentText(Math.round(body.steepPercent)))} is steep`]),
    ...(undercut < 1 ? [] : [say`${plain(percentText(undercut))} undercut`]),
  ];
  const locks = undercut >= LOCKING_PERCENT && coverage.layers.some(({ role }) => role === 'shell');
  return [
    say`${size}${takes}${shares.length === 0 ? say`` : say`; ${joined(shares, ', ')}`}.${plain(locks ? ' The shell must come apart, or it locks there.' : '')}`,
  ];
}

/** How the area came about, and what is mixed beyond it. */
function reason(view: AreaView): Text {
  const { cover, studio, coverage, wastePercent } = view;
  const waste = coverage.layers.length === 0 ? say`` : say`; ${plain(percentText(wastePercent))} waste in cup and brush`;
  return say`${coverText(cover, view, studio)}${waste}.`;
}

/** "To cover: 0.44 m² = 0.363 m² (half sphere) × 1.1 for relief + 10 % for edges + 0.04 m² of flange". */
export function coverText(cover: Cover, { from, spoken }: Measured, studio: Studio): Text {
  const area = (squareMetres: number) => plain(areaText(squareMetres, studio.units));
  const { reliefFactor, edgePercent, flangeSquareMetres, bareAreaSquareMetres } = cover;
  const added = [
    ...(reliefFactor === 1 ? [] : [say` × ${reliefFactor} for relief`]),
    ...(edgePercent === 0 ? [] : [say` + ${plain(percentText(edgePercent))} for edges`]),
    ...(flangeSquareMetres === 0 ? [] : [say` + ${area(flangeSquareMetres)} of flange`]),
  ];
  if (added.length === 0) return say`To cover: ${spoken}, with nothing added for relief, edges or flange`;
  const bare = area(bareAreaSquareMetres);
  // Of a bare area nothing more can be said than its size.
  const of = from === 'area' ? say`` : say` (${spoken})`;
  return say`To cover: ${area(cover.areaSquareMetres)} = ${bare}${of}${added.flat()}`;
}

/** As scripts read it. */
export function coverageData({
  body,
  cover,
  coverage,
  mesh,
  studio,
}: Pick<AreaView, 'body' | 'cover' | 'coverage' | 'mesh' | 'studio'>) {
  const { block, cost, layers, totalGrams, mouldGrams } = coverage;
  return {
    areaSquareMetres: neat(cover.areaSquareMetres),
    bareAreaSquareMetres: neat(cover.bareAreaSquareMetres),
    flangeSquareMetres: neat(cover.flangeSquareMetres),
    reliefFactor: cover.reliefFactor,
    edgePercent: cover.edgePercent,
    volumeLitres: body.volumeLitres === null ? null : neat(body.volumeLitres),
    boxMillimetres: body.boxMillimetres?.map(neat) ?? null,
    steepPercent: body.steepPercent === null ? null : neat(body.steepPercent),
    undercutPercent: body.undercutPercent === null ? null : neat(body.undercutPercent),
    watertight: mesh?.watertight ?? null,
    triangles: mesh?.triangles ?? null,
    warnings: (mesh?.warnings ?? []).map((warning) => plainText(warning, { zone: studio.zone, now: 0 })),
    layers: layers.map((layer) => ({
      material: layer.material.id,
      title: TITLES[layer.role],
      thicknessMillimetres: layer.thicknessMillimetres,
      coatsMillimetres: layer.coatsMillimetres,
      volumeLitres: neat(layer.volumeLitres),
      grams: layer.grams,
      parts: layer.parts,
      scaleTooCoarse: layer.scaleTooCoarse,
      holdsMillimetres: layer.runs === null ? null : neat(layer.runs.holdsMillimetres),
      cost: layer.cost,
    })),
    totalGrams,
    mouldGrams,
    block:
      block === null
        ? null
        : { volumeLitres: neat(block.volumeLitres), grams: block.grams, cost: block.cost, currency: block.currency },
    cost: cost?.amount ?? null,
    currency: cost?.currency ?? null,
  };
}
