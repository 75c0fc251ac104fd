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
import { code, joined, plain, say, strong, type Text } from '../words/text.ts';
import { about, amount, amountOf, coarseLine, runsLine, splitLines, TITLES, unknownBlockLine } from './layer-warnings.ts';

/** Where a size is from, and what was measured. */
interface Measured {
  readonly from: 'area' | 'shape' | 'model';
  readonly spoken: Text;
}

export interface AreaView extends Measured {
  readonly body: Body;
  readonly cover: Cover;
  /** So large that the unit is asked about, first of all. */
  readonly doubts: readonly Text[];
  readonly warnings: readonly Text[];
  readonly mesh: { readonly triangles: number; readonly watertight: boolean; readonly warnings: readonly Text[] } | null;
  readonly coverage: Coverage;
  /** Coats that are not the recipe's. */
  readonly splits: readonly Split[];
  /** The material of a poured block of which nobody can tell how much it takes. */
  readonly unknownBlock: string | undefined;
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
    layers.map((layer) => amountOf(layer, studio)),
    ', ',
  );
  const block = blockIn(coverage);
  const what = block
    ? say`${litres(block.volumeLitres, studio)} to pour`
    : say`${plain(areaText(cover.areaSquareMetres, studio.units))} to cover`;
  return card(
    layers.length === 0 ? what : say`${what}: ${amounts}`,
    [
      ...view.doubts,
      ...(layers.length === 0 && view.unknownBlock === undefined ? [bareLine(view)] : []),
      ...layers.map((layer) => layerLine(layer, studio)),
      ...unknownBlockLine(view.unknownBlock),
      ...layers.flatMap((layer) => coatUnknown(layer, studio)),
      ...mouldLines(coverage, studio),
      ...layers.flatMap((layer) => coarseLine(layer, studio)),
      ...edgeLine(view),
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

/** How much more for edges is the maker's to say: a ball has none, a relief full of undercuts a fifth. */
const edgeLine = ({ coverage, cover, from }: AreaView): Text[] =>
  cover.edgePercent > 0 || from === 'area' || coverage.layers.length === 0 || blockIn(coverage)
    ? []
    : [say`Edges and undercuts run thin: ${code('edges:15 %')} adds for them.`];

/** The poured block, where one is all that there is. */
const blockIn = ({ layers }: Coverage): CoverageLayer | undefined => {
  const [first] = layers;
  return layers.length === 1 && first?.how === 'block' ? first : undefined;
};

/** A volume that nobody measures out: four digits of it. */
const litres = (volume: number, studio: Studio) => plain(volumeText(Number((volume * 1000).toPrecision(4)), studio.units));

function bareLine({ cover, millimetres, studio }: AreaView): Text {
  const volume = (thick: number) => plain(volumeText(cover.areaSquareMetres * thick * 1000, studio.units));
  return millimetres === null
    ? say`Each ${plain(lengthText(1, studio.units))} of thickness takes ${strong(volume(1))}, waste not counted. Name a skin and a shell for grams.`
    : say`${plain(lengthText(millimetres, studio.units))} take ${strong(volume(millimetres))}, waste not counted. Name a skin for grams.`;
}

/** "Skin, 3.2 mm in 3 coats (0.75, 1.07, 1.38): A 700 g, B 875 g." */
function layerLine(
  { role, how, coatsMillimetres: coats, thicknessMillimetres, parts, raised, cups, glassGrams }: CoverageLayer,
  studio: Studio,
): Text {
  const each = how === 'brushed' ? ['coat', 'coats'] : ['layer', 'layers'];
  const same = coats.every((coat) => Math.abs(coat - (coats[0] ?? 0)) < 1e-9);
  const thick =
    coats.length === 1
      ? plain(`in one ${each[0]}`)
      : same
        ? plain(`in ${coats.length} ${each[1]} of ${lengthText(coats[0] ?? 0, studio.units)}`)
        : plain(`in ${coats.length} ${each[1]} (${lengthsText(coats, studio.units)})`);
  const amounts = joined(
    parts.map(({ part, grams }) => say`${part} ${strong(amount(grams, studio))}`),
    ', ',
  );
  const inCups = cups > MOST_CUPS ? say`, in more than ${MOST_CUPS} cups` : cups > coats.length ? say`, in ${cups} cups` : say``;
  const glass = glassGrams === null ? say`` : say`; ${strong(about(glassGrams, studio))} of glass mat, to plan with /laminate`;
  const more = raised ? say` (more than it takes: less cannot be weighed true)` : say``;
  const whole = plain(lengthText(thicknessMillimetres, studio.units));
  const layer = how === 'block' ? say`Block, ${whole} around and above` : say`${plain(TITLES[role])}, ${whole} ${thick}`;
  return say`${layer}: ${amounts}${inCups}${more}${glass}.`;
}

/** So many cups say nothing any more. */
const MOST_CUPS = 100;

/** What is lifted in the end, and what all of it costs. */
function mouldLines({ layers, mouldGrams, cost }: Coverage, studio: Studio): Text[] {
  if (layers.length === 0) return [];
  const weight = about(mouldGrams, studio);
  const lift = mouldGrams >= LIFT_ALONE_GRAMS ? say`: ${strong(say`two people or a hoist`)} to lift it` : say``;
  return [
    say`${plain(layers.some(({ role, how }) => role === 'shell' || how === 'block') ? 'The mould' : 'The skin')} will weigh about ${weight}${lift}.`,
    ...(cost === null ? [] : [say`Material: ${plain(costText(cost.amount, cost.currency))}.`]),
  ];
}

function coatUnknown({ how, material, coatsMillimetres }: CoverageLayer, studio: Studio): Text[] {
  if (material.coat !== null || how !== 'brushed') return [];
  const last = plain(lengthText(coatsMillimetres.at(-1) ?? 0, studio.units));
  return [say`⚠ ${material.name} gives no thickness of a coat: is it made to be brushed? The last coat would be ${last}.`];
}

function blockLine({ coverage, studio }: AreaView): Text[] {
  const { block, layers } = coverage;
  if (block === null) return [];
  const skin = layers.find(({ role }) => role === 'skin');
  const priced = block.cost === null || block.currency === null ? say`` : say`, ${plain(costText(block.cost, block.currency))}`;
  const against = skin ? say`, against ${amount(skin.grams, studio)} for the skin` : say``;
  const walls = plain(lengthText(block.wallMillimetres, studio.units));
  return [
    say`As a solid block with ${walls} around: ${litres(block.volumeLitres, studio)}, ${about(block.grams, studio)}${priced}${against}.`,
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
  const takes = volume === null ? say` has no volume that can be told` : say` takes up ${litres(volume, studio)}`;
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
  const { coverage, wastePercent } = view;
  const waste = coverage.layers.length === 0 ? say`` : say`; ${plain(percentText(wastePercent))} waste in cup and brush`;
  return say`${amountReason(view)}${waste}.`;
}

type Reasoned = Pick<AreaView, 'body' | 'cover' | 'from' | 'spoken' | 'studio'> & { readonly coverage: Coverage | null };

/** Why so much of each: what is covered, or, of a poured block, what its box holds less the model. */
export function amountReason({ body, cover, coverage, studio, ...measured }: Reasoned): Text {
  const block = coverage && blockIn(coverage);
  if (!block || body.boxMillimetres === null || body.volumeLitres === null) return coverText(cover, measured, studio);
  const wall = block.thicknessMillimetres;
  const [x, y, z] = body.boxMillimetres;
  const box = plain(boxText([x + 2 * wall, y + 2 * wall, z + wall], studio.units));
  return say`To pour: ${litres(block.volumeLitres, studio)} = a box of ${box} less ${litres(body.volumeLitres, studio)} (${measured.spoken})`;
}

/** "To cover: 0.44 m² = 0.363 m² (half sphere) × 1.1 for relief + 10 % for edges + 0.04 m² of flange". */
function coverText(cover: Cover, { from, spoken }: Measured, studio: Studio): Text {
  const area = (squareMetres: number) => plain(areaText(squareMetres, studio.units));
  const { reliefFactor, edgePercent, flangeSquareMetres, bareAreaSquareMetres } = cover;
  const added = [
    ...(reliefFactor === 1 ? [] : [say` × ${reliefFactor} for relief`]),
    ...(edgePercent === 0 ? [] : [say` + ${plain(percentText(edgePercent))} for edges`]),
    ...(flangeSquareMetres === 0 ? [] : [say` + ${area(flangeSquareMetres)} of flange`]),
  ];
  const bare = area(bareAreaSquareMetres);
  // Of a bare area nothing more can be said than its size.
  const of = from === 'area' ? say`` : say` (${spoken})`;
  if (added.length === 0) return say`To cover: ${bare}${of}, with nothing added for relief, edges or flange`;
  const filled = reliefFactor === 1 ? say`` : say`; the second coat counts half of the relief, later ones and the shell none`;
  return say`To cover: ${area(cover.areaSquareMetres)} = ${bare}${of}${added.flat()}${filled}`;
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
      grams: neat(layer.neededGrams),
      mixedGrams: layer.grams,
      parts: layer.parts,
      glassGrams: layer.glassGrams === null ? null : neat(layer.glassGrams),
      scaleTooCoarse: layer.scaleTooCoarse,
      holdsMillimetres: layer.runs === null ? null : neat(layer.runs.holdsMillimetres),
      cost: layer.cost,
    })),
    totalGrams: neat(layers.reduce((sum, layer) => sum + layer.neededGrams, 0)),
    totalMixedGrams: totalGrams,
    mouldGrams,
    block:
      block === null
        ? null
        : { volumeLitres: neat(block.volumeLitres), grams: block.grams, cost: block.cost, currency: block.currency },
    cost: cost?.amount ?? null,
    currency: cost?.currency ?? null,
  };
}
