import { type Body, STEEP_DEGREES, UNDERCUT_DEGREES } from './body.ts';
import { pairSides, rimOf } from './mesh-edges.ts';
import { forFaces } from './mesh-faces.ts';
import { type Foot, footOf } from './mesh-foot.ts';
import { turnOutwards } from './mesh-inside.ts';
import { weldNear } from './mesh-near.ts';
import type { MeshReport, MeshWarning } from './mesh-report.ts';
import { type Rim, rimOfMesh } from './mesh-rim.ts';
import { sidesOf } from './mesh-sides.ts';
import { inOneGo, type Sliced } from './mesh-slices.ts';
import type { Triangles } from './mesh-triangles.ts';
import { type Welded, weld } from './mesh-weld.ts';

export { type MeshReport, warningText } from './mesh-report.ts';
export type { Triangles } from './mesh-triangles.ts';
export { guessUnit } from './mesh-unit.ts';

/**
 * Measures a mesh of which every position is a finite number. `up` is the axis that points up in the file. Area and volume are
 * sums over the triangles (divergence theorem), about the middle of the box. The flat face at the bottom, on which the model
 * stands, is left out of the area. The volume is null for a mesh that is not watertight, unless all that is open lies in one
 * plane: then it is closed there.
 */
export const measureMesh = (triangles: Triangles, millimetresPerUnit: number, up: 'y' | 'z' = 'z'): MeshReport =>
  inOneGo(measuring(triangles, millimetresPerUnit, up));

/** The same in slices: a large mesh takes seconds, in which nobody else would be answered. */
export function* measuring(triangles: Triangles, millimetresPerUnit: number, up: 'y' | 'z'): Sliced<MeshReport> {
  const welded = yield* weld(triangles, millimetresPerUnit, up);
  let edges = yield* pairSides(welded.corners);
  if (edges.openEdges > 0 && weldNear(welded, rimOf(welded.corners, edges))) edges = yield* pairSides(welded.corners);
  const sides = yield* sidesOf(welded, edges);
  const { insideOut, cavities } = yield* turnOutwards(welded, edges, sides);
  const rim = rimOfMesh(welded, edges, sides.turned);
  const foot = yield* footOf(welded, edges, sides.turned);
  const sums = yield* sumsOf(welded, sides.turned, foot, rim);
  const closed = edges.openEdges === 0 && sides.oneSided === 0;
  const byPlane = rim?.flat === true && sides.oneSided === 0 && sums.volume > NO_VOLUME * diagonalOf(welded) ** 3;
  const counts: readonly [MeshWarning['code'], number][] = [
    [byPlane ? 'closed-by-plane' : 'open', edges.openEdges],
    ['one-sided', sides.oneSided],
    ['crossing', edges.crossings.length],
    ['several', sides.bodies - cavities > 1 ? sides.bodies - cavities : 0],
    ['cavity', cavities],
    ['inside-out', insideOut],
    ['flipped', sides.turnedCount],
    ['degenerate', sums.degenerate],
  ];
  return {
    body: bodyFrom(welded, sums, foot, rim, closed || byPlane),
    triangles: welded.corners.length / 3,
    watertight: closed,
    openEdges: edges.openEdges,
    warnings: counts.filter(([, count]) => count > 0).map(([code, count]) => ({ code, count })),
  };
}

function bodyFrom(welded: Welded, sums: Sums, foot: Foot | null, rim: Rim | null, filled: boolean): Body {
  const share = (part: number) => (sums.area > 0 ? (100 * part) / sums.area : null);
  const stand = foot ?? (rim && { outlines: rim.outlines, squareMillimetres: rim.footSquareMillimetres });
  return {
    areaSquareMetres: sums.area / 1e6,
    volumeLitres: filled ? sums.volume / 1e6 : null,
    boxMillimetres: welded.boxMillimetres,
    longestMillimetres: Math.max(...welded.boxMillimetres),
    outlineMillimetres: stand?.outlines.millimetres ?? null,
    outlineTurns: stand?.outlines.turns ?? null,
    holeRadiusMillimetres: stand?.outlines.holeRadiusMillimetres ?? null,
    footSquareMetres: stand ? stand.squareMillimetres / 1e6 : null,
    steepPercent: share(sums.steep),
    undercutPercent: share(sums.undercut),
  };
}

interface Sums {
  area: number;
  volume: number;
  steep: number;
  undercut: number;
  degenerate: number;
}

/** Less than that, of the square of the diagonal, is no area but rounding; and, of its cube, no volume. */
const NO_AREA = 1e-15;
const NO_VOLUME = 1e-9;

const diagonalOf = ({ boxMillimetres }: Welded): number => Math.hypot(...boxMillimetres);

/** In millimetres; the volume about the middle of what is open, so that the missing face would add nothing. */
function* sumsOf(welded: Welded, turned: Uint8Array, foot: Foot | null, rim: Rim | null): Sliced<Sums> {
  const sums: Sums = { area: 0, volume: 0, steep: 0, undercut: 0, degenerate: 0 };
  const steep = Math.cos((STEEP_DEGREES * Math.PI) / 180) - 1e-9;
  const undercut = -Math.sin((UNDERCUT_DEGREES * Math.PI) / 180);
  const noArea = NO_AREA * diagonalOf(welded) ** 2;
  const [x, y, z] = rim?.middle ?? [0, 0, 0];
  yield* forFaces(welded, turned, (triangle, face) => {
    const area = face.areaSquareMillimetres;
    sums.volume += (face.wedge - x * face.x - y * face.y - z * face.z) / 6;
    if (area <= noArea) sums.degenerate += 1;
    if (area === 0 || foot?.belongs[triangle] === 1) return;
    const upwards = face.z / (2 * area);
    sums.area += area;
    if (upwards < undercut) sums.undercut += area;
    else if (upwards < steep) sums.steep += area;
  });
  return sums;
}
