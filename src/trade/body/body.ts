/**
 * What is to be covered or filled, as far as its size is known: from an area that somebody typed, from shapes, or from a
 * mesh. Its resting face, on which it stands on the board, is not part of the area.
 */
export interface Body {
  /** What is brushed: the surface without the resting face, before relief, flange and edges. */
  readonly areaSquareMetres: number;
  /** What it takes up, or, as a cavity, what it holds; null where only an area is known. */
  readonly volumeLitres: number | null;
  /** Along x, y and z (upwards); null where only an area is known. */
  readonly boxMillimetres: readonly [number, number, number] | null;
  /** Its longest side, of several pieces that of the longest one; null where only an area is known. */
  readonly longestMillimetres: number | null;
  /** The outlines of the resting face, where a flange would run, holes counted; null where none is known. */
  readonly outlineMillimetres: number | null;
  /** How many outlines go around the outside, less those that go around a hole; null where none is known. */
  readonly outlineTurns: number | null;
  /** How wide a flange has room in the narrowest hole of the resting face; null where it has none. */
  readonly holeRadiusMillimetres: number | null;
  /** The resting face itself. */
  readonly footSquareMetres: number | null;
  /** Share of the area that stands steeper than `STEEP_DEGREES`, undercuts not counted: there a coat runs. */
  readonly steepPercent: number | null;
  /** Share of the area that looks downwards by more than `UNDERCUT_DEGREES`: there a rigid shell would lock. */
  readonly undercutPercent: number | null;
}

/** From the horizontal. */
export const STEEP_DEGREES = 60;
/** Below the horizontal line of sight; less is within the noise of a mesh. */
export const UNDERCUT_DEGREES = 2;

/** A body of which only the area is known. */
export const bareArea = (areaSquareMetres: number): Body => ({
  areaSquareMetres,
  volumeLitres: null,
  boxMillimetres: null,
  longestMillimetres: null,
  outlineMillimetres: null,
  outlineTurns: null,
  holeRadiusMillimetres: null,
  footSquareMetres: null,
  steepPercent: null,
  undercutPercent: null,
});
