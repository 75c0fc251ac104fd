import { isRefusal, Refusal } from '../../words/refusal.ts';
import { plain, say } from '../../words/text.ts';
import type { Body } from '../body/body.ts';

export interface CoverAsk {
  /** How much more a texture has than the smooth shape under it: 1 smooth, 2 deep fur. */
  readonly reliefFactor: number;
  /** The width of the flange; null for none. */
  readonly flangeMillimetres: number | null;
  /** The length of a parting line, with a flange on both halves; null where the flange runs along the resting face. */
  readonly partingMillimetres: number | null;
  /** Edges and undercuts run thin, and may get more: 10 to 20 %, common practice, no source. */
  readonly edgePercent: number;
}

export interface Cover {
  /** All that is to be covered. */
  readonly areaSquareMetres: number;
  readonly bareAreaSquareMetres: number;
  readonly reliefFactor: number;
  readonly edgePercent: number;
  readonly flangeSquareMetres: number;
}

/**
 * The area to cover: the surface, by its texture and its edges, and the flange. Along a closed outline of length L a flange of
 * width w has the area L·w + π·w² (Steiner's formula, exact for a convex outline); along a parting line it is 2·L·w, since
 * each half has its own. Several outlines add up, and in a hole the flange grows narrower: L·w − π·w². Refusals: `no-outline`,
 * `flange-too-wide`, whose example is the widest.
 */
export function coverOf(body: Body, ask: CoverAsk): Cover | Refusal {
  const { reliefFactor, flangeMillimetres, partingMillimetres, edgePercent } = ask;
  const flange = flangeMillimetres === null ? 0 : flangeArea(flangeMillimetres, partingMillimetres, body);
  if (flange === null)
    return new Refusal(
      'no-outline',
      body.outlineMillimetres === null
        ? say`A flange runs along an outline, and none is known here. I expected the length of the parting line.`
        : say`A flange runs along an outline, and this has none: it stands on no flat face. I expected the length of the parting line.`,
      { example: '1.2 m' },
    );
  if (isRefusal(flange)) return flange;
  return {
    areaSquareMetres: body.areaSquareMetres * reliefFactor * (1 + edgePercent / 100) + flange,
    bareAreaSquareMetres: body.areaSquareMetres,
    reliefFactor,
    edgePercent,
    flangeSquareMetres: flange,
  };
}

/** By how much a coat is larger than the smooth surface, of the excess that the relief has: 1 all of it, 0 none. */
export const coatArea = (
  { areaSquareMetres, bareAreaSquareMetres, reliefFactor, edgePercent }: Cover,
  reliefShare: number,
): number => areaSquareMetres - bareAreaSquareMetres * (reliefFactor - 1) * (1 - reliefShare) * (1 + edgePercent / 100);

/** In square metres; null where there is nothing that it could run along. */
function flangeArea(width: number, parting: number | null, body: Body): number | null | Refusal {
  if (parting !== null) return (2 * parting * width) / 1e6;
  const { outlineMillimetres: outline, outlineTurns: turns, holeRadiusMillimetres: hole } = body;
  if (outline === null || outline === 0) return null;
  // A hair's breadth over it is what rounding of the example gives.
  if (hole !== null && width > hole + 0.05) return tooWide(width, hole);
  return (outline * width + Math.PI * (turns ?? 1) * width ** 2) / 1e6;
}

/** The hole is closed by a flange that is as wide as it can be: on its own there is none wider. */
function tooWide(width: number, hole: number): Refusal {
  const shown = (millimetres: number) => plain(`${Number(millimetres.toFixed(1))} mm`);
  const most = Math.floor(hole * 10) / 10;
  const why = say`A flange of ${shown(width)} has no room in the hole of the ring: there it is ${shown(hole)} at most.`;
  return new Refusal('flange-too-wide', why, most > 0 ? { example: `${most} mm` } : {});
}
