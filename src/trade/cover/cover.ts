import { Refusal } from '../../words/refusal.ts';
import { say } from '../../words/text.ts';
import type { Body } from '../body/body.ts';

export interface CoverAsk {
  /** How much more a texture has than the smooth shape under it: 1 smooth, 2 deep fur. */
  readonly reliefFactor: number;
  /** The width of the flange; null for none. */
  readonly flangeMillimetres: number | null;
  /** The length of a parting line, with a flange on both halves; null where the flange runs along the resting face. */
  readonly partingMillimetres: number | null;
  /** Edges and undercuts run thin and get more; null for the usual. */
  readonly edgePercent: number | null;
}

export interface Cover {
  /** All that is to be covered. */
  readonly areaSquareMetres: number;
  readonly bareAreaSquareMetres: number;
  readonly reliefFactor: number;
  readonly edgePercent: number;
  readonly flangeSquareMetres: number;
}

/** 10–20 % for edges and undercuts is common practice, no source. Who gives a bare area has it in there, or wants none. */
const USUAL_EDGE_PERCENT = 10;

/**
 * The area to cover: the surface, by its texture and its edges, and the flange. Along a closed outline of length L a flange of
 * width w has the area L·w + π·w² (Steiner's formula, exact for a convex outline); along a parting line it is 2·L·w, since
 * each half has its own. Refusal: `no-outline`.
 */
export function coverOf(body: Body, ask: CoverAsk): Cover | Refusal {
  const { reliefFactor, flangeMillimetres, partingMillimetres } = ask;
  const edgePercent = ask.edgePercent ?? (body.boxMillimetres === null ? 0 : USUAL_EDGE_PERCENT);
  const flange = flangeMillimetres === null ? 0 : flangeArea(flangeMillimetres, partingMillimetres, body.outlineMillimetres);
  if (flange === null)
    return new Refusal(
      'no-outline',
      body.outlineMillimetres === null
        ? say`A flange runs along an outline, and none is known here. I expected the length of the parting line.`
        : say`A flange runs along an outline, and this has none: it stands on no flat face. I expected the length of the parting line.`,
      { example: '1.2 m' },
    );
  return {
    areaSquareMetres: body.areaSquareMetres * reliefFactor * (1 + edgePercent / 100) + flange,
    bareAreaSquareMetres: body.areaSquareMetres,
    reliefFactor,
    edgePercent,
    flangeSquareMetres: flange,
  };
}

/** In square metres; null where there is nothing that it could run along. */
function flangeArea(width: number, parting: number | null, outline: number | null): number | null {
  if (parting !== null) return (2 * parting * width) / 1e6;
  return outline === null || outline === 0 ? null : (outline * width + Math.PI * width ** 2) / 1e6;
}
