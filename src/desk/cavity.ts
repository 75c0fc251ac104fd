import { celsiusOn } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import type { JobState } from '../job/state.ts';
import { leastArea, wallVolume } from '../trade/casting/wall.ts';
import { cavityFromWater } from '../trade/casting/water.ts';
import type { Material } from '../trade/material.ts';
import type { Quantity } from '../trade/measures/amount.ts';
import { massText, temperatureText } from '../trade/measures/format.ts';
import { areaText } from '../trade/measures/format-sizes.ts';
import { mixedDensity } from '../trade/mixing/parts.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { joined, plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, line, type Typed } from './examples.ts';
import { bodyOf, type SizeInput } from './sizing.ts';

/** What a mould holds, as far as it is known. */
export interface Cavity {
  readonly millilitres: number | null;
  /** Without the face that stays open. */
  readonly areaSquareMetres: number | null;
  readonly boxMillimetres: readonly [number, number, number] | null;
  /** Where the size is from, to be shown in the reason; null where it was given just so. */
  readonly spoken: Text | null;
  readonly warnings: readonly Text[];
}

export interface CavityInput extends SizeInput {
  /** Millilitres. */
  readonly volume?: { readonly value: number } | undefined;
  /** What water the mould holds: weighed, or measured. */
  readonly water?: { readonly value: Quantity } | undefined;
}

/** The temperature of water that nobody measured. */
const ROOM_CELSIUS = 20;
const HOLDING = ['volume', 'water', 'shape', 'model'] as const;

/**
 * What the options say that the mould holds, else what is known of the job; an area goes with a volume or a shape, for a
 * hollow casting. Refusals: `two-sizes`, `volume-missing`, and those of `bodyOf`.
 */
export async function cavityOf(
  desk: Desk,
  state: BenchState,
  input: CavityInput,
  job: JobState | null,
  options: Typed,
): Promise<Cavity | Refusal> {
  const { units } = desk.studio;
  const given = HOLDING.filter((name) => input[name] !== undefined);
  const [first] = given;
  if (first !== undefined && given.length > 1) return twoSizes(given, options);
  // A shape is smooth: beside it an area is that of the wall, with all its texture. A model has its own.
  const { area: wallArea, ...alone } = input;
  const sized = await bodyOf(desk, input.shape === undefined ? input : alone, { command: 'cast', options });
  if (isRefusal(sized)) return sized.code === 'one-size' ? modelAlone(sized, desk, options) : sized;
  const none = { millilitres: null, areaSquareMetres: null, boxMillimetres: null, warnings: [] };
  const area = input.area === undefined ? {} : { areaSquareMetres: input.area.value };
  const areaSpoken = input.area === undefined ? null : say`${plain(areaText(input.area.value, units))}`;

  if (input.volume !== undefined)
    return {
      ...none,
      ...area,
      millilitres: input.volume.value,
      spoken: areaSpoken,
    };
  if (input.water !== undefined) {
    const { value: water } = input.water;
    if (water.kind === 'volume')
      return {
        ...none,
        ...area,
        millilitres: water.millilitres,
        spoken: areaSpoken,
      };
    const celsius = celsiusOn(state, desk.now) ?? ROOM_CELSIUS;
    const millilitres = cavityFromWater(water.grams, celsius);
    const weight = plain(massText(water.grams, units, desk.studio.scale.stepGrams));
    return {
      ...none,
      ...area,
      millilitres,
      spoken: say`${weight} of water at ${plain(temperatureText(celsius, units))}${areaSpoken === null ? say`` : say`, ${areaSpoken}`}`,
    };
  }
  if (sized !== null) {
    const { areaSquareMetres, volumeLitres, boxMillimetres } = sized.body;
    const millilitres = volumeLitres === null ? null : volumeLitres * 1000;
    const warnings = [...sized.doubts, ...sized.warnings];
    if (input.shape === undefined || wallArea === undefined)
      return { millilitres, areaSquareMetres, boxMillimetres, spoken: sized.spoken, warnings };
    return {
      ...area,
      areaSquareMetres: wallArea.value,
      millilitres,
      boxMillimetres,
      spoken: say`${sized.spoken}, ${areaSpoken ?? say``}`,
      warnings,
    };
  }
  if (job !== null && (job.volumeLitres !== null || job.areaSquareMetres !== null)) {
    const { volumeLitres, areaSquareMetres } = job;
    const millilitres = volumeLitres === null ? null : volumeLitres * 1000;
    return { ...none, millilitres, areaSquareMetres, spoken: say`${job.name}` };
  }
  return volumeMissing(job, options);
}

/** Of an area and a model the model counts, which says both. */
const modelAlone = (refusal: Refusal, desk: Desk, { model = '', ...options }: Typed): Refusal =>
  again(refusal, {
    example: line('cast', { ...options, area: undefined, model: URL.canParse(model) ? desk.files.nameOf(model) : model }),
    ways: refusal.ways.toReversed(),
  });

/** Nobody said how much it holds. */
const volumeMissing = (job: { readonly name: string } | null, options: Typed): Refusal =>
  new Refusal(
    'volume-missing',
    say`How much does the mould hold? ${job === null ? say`` : say`${job.name} was started without a volume. `}Fill it with water and weigh that, or give its volume, a shape or a model.`,
    { example: line('cast', { ...options, area: undefined, water: '412 g' }) },
  );

/** What one casting takes up: all that the mould holds, or the wall of a hollow one. */
export function solidOrHollow(
  desk: Desk,
  cavity: Cavity,
  wallMillimetres: number | null,
  material: Material,
  job: JobState | null,
  options: Typed,
): { millilitres: number; leastMillilitres: number | null } | Refusal {
  const { millilitres, areaSquareMetres, boxMillimetres } = cavity;
  const { units, scale } = desk.studio;
  if (wallMillimetres === null) {
    if (options['area'] !== undefined)
      return new Refusal('wall-missing', say`An area says how much a hollow casting takes, once its wall is known. How thick?`, {
        example: line('cast', { ...options, wall: '3 mm' }),
      });
    return millilitres === null ? volumeMissing(job, options) : { millilitres, leastMillilitres: null };
  }
  if (areaSquareMetres === null) {
    const ball = { areaSquareMetres: leastArea(millilitres ?? 0), millilitres, boxMillimetres };
    const least = wallVolume(ball, wallMillimetres, units);
    if (isRefusal(least)) return again(least, { example: line('cast', { ...options, wall: undefined }) });
    const grams = massText((least.leastMillilitres ?? 0) * (mixedDensity(material) ?? 1), units, scale.stepGrams);
    return new Refusal(
      'area-missing',
      say`A wall takes what its area says, and a volume does not tell that: closed all round even a ball would take ${plain(grams)}, anything else more. Give the area as well, a shape or a model.`,
      { example: line('cast', { ...options, area: '0.1 m2' }) },
    );
  }
  const wall = wallVolume({ areaSquareMetres, millilitres, boxMillimetres }, wallMillimetres, units);
  return isRefusal(wall) ? again(wall, { example: line('cast', { ...options, wall: wall.example }) }) : wall;
}

function twoSizes(given: readonly (typeof HOLDING)[number][], options: Typed): Refusal {
  const only = (name: string): Typed => ({
    ...options,
    ...Object.fromEntries(HOLDING.filter((other) => other !== name).map((other) => [other, undefined])),
    ...(name === 'model' ? {} : { unit: undefined, up: undefined }),
  });
  const names = joined(
    given.map((name) => say`${plain(name)}`),
    ', ',
    ' and ',
  );
  return new Refusal('two-sizes', say`One of them says how much the mould holds; I got ${names}. Which one counts?`, {
    example: line('cast', only(given.find((name) => name !== 'model') ?? 'volume')),
    ways: given.map((name) => ({ label: `Take the ${name}`, command: 'cast', options: givenOf(only(name)) })),
  });
}
