/** What lies between two time points: `to` comes at least `least` and at most `most` after `from`. */
export interface Between {
  readonly from: number;
  readonly to: number;
  readonly least: number;
  readonly most: number;
}

/**
 * The minimal network of a simple temporal problem: by pair of points, the least and the most that can lie between them in
 * any solution; null where there is none. The method is the textbook one of R. Dechter, I. Meiri and J. Pearl, "Temporal
 * constraint networks", Artificial Intelligence 49 (1991): all shortest paths of the distance graph, in which a cycle of
 * negative length says that nothing fits.
 */
export function minimalNetwork(points: number, constraints: readonly Between[]): [least: number, most: number][][] | null {
  const all = Array.from({ length: points }, (_, point) => point);
  const far = all.map((from) => all.map((to) => (from === to ? 0 : Number.POSITIVE_INFINITY)));
  const distance = (from: number, to: number) => far[from]?.[to] as number;
  const shorten = (from: number, to: number, long: number) => {
    (far[from] as number[])[to] = Math.min(distance(from, to), long);
  };
  for (const { from, to, least, most } of constraints) {
    shorten(from, to, most);
    shorten(to, from, -least);
  }
  for (const over of all)
    for (const from of all) for (const to of all) shorten(from, to, distance(from, over) + distance(over, to));
  if (all.some((point) => distance(point, point) < 0)) return null;
  return all.map((from) => all.map((to) => [0 - distance(to, from), distance(from, to)]));
}
