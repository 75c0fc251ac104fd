import type { Body } from './body.ts';
import type { Solid } from './shape-solid.ts';

/** One thing in a sum, so many times. */
export interface Many {
  readonly solid: Solid;
  readonly count: number;
}

const plus = (values: readonly (number | null)[]): number | null =>
  values.reduce((sum, value) => (sum === null || value === null ? null : sum + value), 0);

/**
 * All of them next to each other on the board, none touching: areas, volumes, outlines and feet add up. Two that touch count
 * both faces. The box is that of one alone; of several it is null, for it depends on how they are laid out.
 */
export function sideBySide(many: readonly Many[]): Solid {
  const [first] = many;
  if (first && many.length === 1 && first.count === 1) return first.solid;
  const total = (of: (body: Body) => number | null) => plus(many.map(({ solid, count }) => scaled(of(solid.body), count)));
  const areaSquareMetres = total((body) => body.areaSquareMetres) ?? 0;
  const percent = (of: (body: Body) => number | null) =>
    total((body) => scaled(of(body), body.areaSquareMetres / areaSquareMetres));
  return {
    body: {
      areaSquareMetres,
      volumeLitres: total((body) => body.volumeLitres),
      boxMillimetres: null,
      longestMillimetres: Math.max(...many.map(({ solid }) => solid.body.longestMillimetres ?? 0)),
      outlineMillimetres: total((body) => body.outlineMillimetres),
      outlineTurns: total((body) => body.outlineTurns),
      holeRadiusMillimetres: narrowest(many.map(({ solid }) => solid.body.holeRadiusMillimetres)),
      footSquareMetres: total((body) => body.footSquareMetres),
      steepPercent: percent((body) => body.steepPercent),
      undercutPercent: percent((body) => body.undercutPercent),
    },
    topSquareMetres: many.reduce((sum, { solid, count }) => sum + solid.topSquareMetres * count, 0),
  };
}

const narrowest = (radii: readonly (number | null)[]): number | null => {
  const known = radii.filter((radius) => radius !== null);
  return known.length === 0 ? null : Math.min(...known);
};

const scaled = (value: number | null, by: number): number | null => (value === null ? null : value * by);

/**
 * One standing on the flat top of another: its foot covers as much of that top, so both faces drop out of the area. The lower
 * one's foot and outline are those of the whole. Null where the upper one's foot has no room there.
 */
export function standingOn(upper: Solid, lower: Solid): Solid | null {
  const covered = upper.body.footSquareMetres ?? 0;
  if (covered > lower.topSquareMetres * (1 + 1e-9)) return null;
  const areaSquareMetres = upper.body.areaSquareMetres + lower.body.areaSquareMetres - covered;
  const share = (of: (body: Body) => number | null) =>
    plus([upper, lower].map(({ body }) => scaled(of(body), body.areaSquareMetres / areaSquareMetres)));
  const [above, below] = [upper.body.boxMillimetres, lower.body.boxMillimetres];
  const boxMillimetres =
    above && below ? ([Math.max(above[0], below[0]), Math.max(above[1], below[1]), above[2] + below[2]] as const) : null;
  const longest = Math.max(upper.body.longestMillimetres ?? 0, lower.body.longestMillimetres ?? 0);
  return {
    body: {
      areaSquareMetres,
      volumeLitres: plus([upper.body.volumeLitres, lower.body.volumeLitres]),
      boxMillimetres,
      longestMillimetres: boxMillimetres === null ? longest : Math.max(...boxMillimetres),
      outlineMillimetres: lower.body.outlineMillimetres,
      outlineTurns: lower.body.outlineTurns,
      holeRadiusMillimetres: lower.body.holeRadiusMillimetres,
      footSquareMetres: lower.body.footSquareMetres,
      steepPercent: share((body) => body.steepPercent),
      undercutPercent: share((body) => body.undercutPercent),
    },
    topSquareMetres: upper.topSquareMetres,
  };
}
