/** The sides of a box that stands on its foot, as numbers of corners, looking outwards; the foot is the last one. */
export const BOX_SIDES = [
  [0, 1, 5, 4],
  [1, 3, 7, 5],
  [3, 2, 6, 7],
  [2, 0, 4, 6],
  [4, 5, 7, 6],
  [0, 2, 3, 1],
] as const;

/** The place of a corner of a box: bit 0 of its number is along x, bit 1 along y, bit 2 upwards. */
export const boxCorner = (n: number, [x, y, z]: readonly [number, number, number]): [number, number, number] => [
  n & 1 ? x : 0,
  n & 2 ? y : 0,
  n & 4 ? z : 0,
];

/** A box of twelve triangles as an ASCII STL file; `open`: without its foot. */
export function boxStl(size: readonly [number, number, number], open = false): string {
  const facets = BOX_SIDES.slice(0, open ? 5 : 6).flatMap(([a, b, c, d]) => [
    [a, b, c],
    [a, c, d],
  ]);
  const vertex = (n: number) => `vertex ${boxCorner(n, size).join(' ')}`;
  const text = facets.map((of) => `facet normal 0 0 0\nouter loop\n${of.map(vertex).join('\n')}\nendloop\nendfacet`).join('\n');
  return `solid box\n${text}\nendsolid box\n`;
}
