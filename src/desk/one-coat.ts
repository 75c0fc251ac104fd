import { mass } from '../cards/words.ts';
import { coatsFor } from '../trade/cover/coats.ts';
import { coverOf } from '../trade/cover/cover.ts';
import { layerGrams } from '../trade/cover/layers.ts';
import type { Material } from '../trade/material.ts';
import type { Amount } from '../trade/measures/amount.ts';
import { percentText } from '../trade/measures/format.ts';
import { areaText, lengthText } from '../trade/measures/format-sizes.ts';
import { cupsOf, truenessOf } from '../trade/mixing/batches.ts';
import { mixedDensity } from '../trade/mixing/parts.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { type Kept, line, type Typed } from './examples.ts';
import { bodyOf, type SizeInput } from './sizing.ts';

export interface OneCoat {
  readonly materialId: string;
  /** Of one cup, where the coat takes several. */
  readonly amount: Amount;
  readonly cups: number;
  readonly neededGrams: number;
  /** How the amount came about. */
  readonly reason: Text;
  /** What is doubtful about a model. */
  readonly warnings: readonly Text[];
}

/** A coat of a material that does not say how thick its usual one is. */
const USUAL_MILLIMETRES = 1;

/**
 * What one coat of this material takes over what the size options describe; null where none of them is given. `options`: all
 * of the command's, as they were typed. Refusals: `one-amount`, `thickness-alone`, `density-missing`, `coat-too-thick`, and
 * those of `bodyOf`.
 */
export async function oneCoat(
  desk: Desk,
  input: SizeInput & { readonly thickness?: Kept<number> | undefined; readonly amount?: unknown },
  material: Material,
  { command, options, stepGrams }: { command: string; options: Typed; stepGrams: number },
): Promise<OneCoat | null | Refusal> {
  const { units, wastePercent, scale } = desk.studio;
  const lineWith = (more: Typed) => line(command, { ...options, material: material.id, ...more });
  const sized = await bodyOf(desk, input, { command, options: { ...options, material: material.id } });
  if (isRefusal(sized)) return sized;
  if (sized === null)
    return input.thickness === undefined
      ? null
      : new Refusal('thickness-alone', say`How thick tells an amount only together with an area.`, {
          example: lineWith({ amount: undefined, area: '0.4 m2' }),
        });
  if (input.amount !== undefined)
    return new Refusal('one-amount', say`An amount and a size were given, and each says how much. Which one counts?`, {
      example: lineWith({ amount: undefined }),
    });
  const density = mixedDensity(material);
  if (density === null)
    return new Refusal(
      'density-missing',
      say`How much ${material.name} an area takes needs the densities of its parts, and one is missing.`,
      {
        example: lineWith({
          area: undefined,
          shape: undefined,
          model: undefined,
          unit: undefined,
          up: undefined,
          thickness: undefined,
          amount: '500 g',
        }),
      },
    );
  const { thicknessMillimetres: usual, mostMillimetres: most } = material.coat ?? {
    thicknessMillimetres: USUAL_MILLIMETRES,
    mostMillimetres: null,
  };
  const thick = input.thickness?.value ?? usual;
  if (most !== null && thick > most) {
    const coats = coatsFor(thick, usual, most, null)?.length;
    const takes = coats === undefined ? say`` : say` It takes ${coats} coats.`;
    return new Refusal(
      'coat-too-thick',
      say`One coat of ${material.name} holds ${plain(lengthText(most, units))} at most, and ${plain(lengthText(thick, units))} were wanted.${takes}`,
      { example: lineWith({ thickness: `${most} mm` }) },
    );
  }
  const none = { reliefFactor: 1, flangeMillimetres: null, partingMillimetres: null, edgePercent: 0 };
  const cover = coverOf(sized.body, none);
  if (isRefusal(cover)) return cover;
  const neededGrams = layerGrams(cover.areaSquareMetres, thick, density, wastePercent);
  const cups = cupsOf(neededGrams, material.mostGrams, truenessOf(material), { ...scale, stepGrams });
  const of = sized.from === 'area' ? say`` : say` (${sized.spoken})`;
  const several = cups.count === 1 ? say`` : say`, in ${cups.count} cups like this one`;
  return {
    materialId: material.id,
    amount: { quantity: { kind: 'mass', grams: cups.askGrams }, of: null },
    cups: cups.count,
    neededGrams,
    warnings: [...sized.doubts, ...sized.warnings],
    reason: say`One coat of ${plain(lengthText(thick, units))} over ${plain(areaText(cover.areaSquareMetres, units))}${of}: ${mass(neededGrams, desk.studio)} with ${plain(percentText(wastePercent))} waste${several}.`,
  };
}
