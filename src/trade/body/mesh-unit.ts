import type { Triangles } from './mesh-triangles.ts';

/** A unit of length that a file may be in. */
interface MeshUnit {
  readonly millimetresPerUnit: number;
  readonly unit: 'mm' | 'cm' | 'in' | 'm';
  /** False where another unit is plausible, too: then ask. */
  readonly sure: boolean;
}

const UNITS = { mm: 1, cm: 10, in: 25.4, m: 1000 } as const;

/** What this trade moulds, by its longest side. */
const LEAST_MILLIMETRES = 20;
const MOST_MILLIMETRES = 2000;

/**
 * The unit of a mesh, from the longest side of its box: models in this trade are 20 mm to 2 m long, and files are in
 * millimetres, inches or metres; centimetres are thought of only where millimetres would be too small. Sure where just one of
 * them fits, which are 0.02 to 0.79 (metres) and 79 to 2000 (millimetres). Our own rule: common practice, no source.
 */
export function guessUnit({ positions, indices }: Triangles): MeshUnit {
  const longest = longestSide(positions, indices);
  const fits = (unit: keyof typeof UNITS) =>
    longest * UNITS[unit] >= LEAST_MILLIMETRES && longest * UNITS[unit] <= MOST_MILLIMETRES;
  const plausible = (['mm', 'm', 'in'] as const).filter(fits);
  const rival = fits('cm') && !fits('mm');
  const unit = plausible[0] ?? (longest > MOST_MILLIMETRES ? 'mm' : 'm');
  return { millimetresPerUnit: UNITS[unit], unit, sure: plausible.length === 1 && !rival };
}

function longestSide(positions: Triangles['positions'], indices: Uint32Array | null): number {
  const least = [Infinity, Infinity, Infinity];
  const most = [-Infinity, -Infinity, -Infinity];
  const corners = indices?.length ?? positions.length / 3;
  for (let corner = 0; corner < corners; corner += 1) {
    const at = 3 * (indices ? (indices[corner] as number) : corner);
    for (let axis = 0; axis < 3; axis += 1) {
      const value = positions[at + axis] as number;
      if (value < (least[axis] as number)) least[axis] = value;
      if (value > (most[axis] as number)) most[axis] = value;
    }
  }
  return corners === 0 ? 0 : Math.max(...most.map((value, axis) => value - (least[axis] as number)));
}
