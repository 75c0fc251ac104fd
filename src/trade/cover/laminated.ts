import { laminate } from '../laminate/laminate.ts';
import { isLaminatingResin, type Material } from '../material.ts';
import { mixedDensity } from '../mixing/parts.ts';

/** A resin that wets out mats flows; what is thicker, or of which nobody says how thick it is, counts as laid on without. */
const FLOWS_PASCAL_SECONDS = 5;

/** Whether a shell of it is built up with mats: a resin that flows, and does not hold on a wall by itself. */
const isLaminated = (role: string, material: Material): boolean =>
  role === 'shell' &&
  isLaminatingResin(material) &&
  material.yieldPascals === null &&
  material.parts.every(({ pascalSeconds }) => pascalSeconds !== null && pascalSeconds < FLOWS_PASCAL_SECONDS);

/** What a layer is made of, without waste. */
interface Filling {
  /** Of the mixed material. */
  readonly grams: number;
  /** Of glass mat; null where there is none in it. */
  readonly glassGrams: number | null;
}

/**
 * Grams in so many litres of a layer: of the material alone (density in g/mL is kg/L), or, in a laminated shell, of resin and
 * of glass mat at its usual share. Null where the material's density is not known.
 */
export function fillingOf(role: string, material: Material, litres: number): Filling | null {
  const density = mixedDensity(material);
  if (density === null) return null;
  if (!isLaminated(role, material)) return { grams: litres * density * 1000, glassGrams: null };
  const mats = [{ gramsPerSquareMetre: 1, count: 1, make: 'mat' as const }];
  const ply = laminate({ mats, areaSquareMetres: 1, fibre: 'glass', fibrePercent: null, resinGramsPerMillilitre: density });
  // Over a square metre a millimetre is a litre.
  const plies = litres / ply.thicknessMillimetres;
  return { grams: plies * ply.resinGrams, glassGrams: plies * ply.fibreGrams };
}
