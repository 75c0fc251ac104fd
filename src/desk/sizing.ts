import { choice, file, typed } from '../chat/options.ts';
import { type Body, bareArea } from '../trade/body/body.ts';
import { guessUnit, type MeshReport, measuring, type Triangles, warningText } from '../trade/body/mesh.ts';
import { readShapes } from '../trade/body/shapes.ts';
import { areaText, lengthText } from '../trade/measures/format-sizes.ts';
import { parseArea } from '../trade/measures/quantity.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { joined, plain, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { again, givenOf, inLine, type Kept, kept, line, type Typed } from './examples.ts';
import { doubtsOf, outOfRange } from './size-limits.ts';

const MEBIBYTE = 1024 * 1024;
/** What a model may weigh: a scan of a few million triangles. */
const MOST_BYTES = 100 * MEBIBYTE;

export const MODEL_UNITS = ['mm', 'cm', 'in', 'm'] as const;
type ModelUnit = (typeof MODEL_UNITS)[number];
/** Which axis points up in the file: programs that build things say z, those that animate them y. */
const UP = ['z', 'y'] as const;
const MILLIMETRES: Readonly<Record<ModelUnit, number>> = { mm: 1, cm: 10, in: 25.4, m: 1000 };
const UNIT_NAMES: Readonly<Record<ModelUnit, string>> = { mm: 'Millimetres', cm: 'Centimetres', in: 'Inches', m: 'Metres' };

/** How big a thing is, as options give it. */
export interface SizeInput {
  readonly area?: Kept<number> | undefined;
  readonly shape?: Kept<{ readonly body: Body; readonly spoken: string }> | undefined;
  /** A path, or an address on the platform. */
  readonly model?: string | undefined;
  readonly unit?: ModelUnit | undefined;
  readonly up?: (typeof UP)[number] | undefined;
}

export interface Sized {
  readonly body: Body;
  readonly from: 'area' | 'shape' | 'model';
  /** What was measured, to be shown in the reason: "0.4 m²", "half sphere, radius 100 mm", "lion.stl, in inches". */
  readonly spoken: Text;
  /** So large that somebody should look at the unit first. */
  readonly doubts: readonly Text[];
  /** What is doubtful about a model, as far as it matters at the bench. */
  readonly warnings: readonly Text[];
  readonly mesh: {
    readonly triangles: number;
    readonly watertight: boolean;
    readonly openEdges: number;
    readonly unit: ModelUnit;
    /** All that was found, what is harmless too. */
    readonly warnings: readonly Text[];
  } | null;
}

/**
 * The options that say how big something is, for the command of that path; `others`: what its examples need beside them;
 * `more`: how an area is refused.
 */
export function sizeOptions(command: string, others: Typed = {}, more: { withRest?: true } = {}) {
  const option = <T>(name: string, parse: (text: string) => T | Refusal) =>
    kept(inLine(parse, (example) => line(command, { ...others, [name]: example })));
  return {
    area: typed(option('area', parseArea), { about: 'The area: 0.4 m2, 20 x 30 cm, 3 sq ft', ...more }).optional(),
    shape: typed(option('shape', readShapes), {
      about: 'Or shapes that come near it: half sphere 20 cm + cylinder 10 x 30 cm',
    }).optional(),
    model: file({ about: 'Or a model of it: an STL, OBJ or PLY file' }).optional(),
    unit: choice(MODEL_UNITS, { about: 'The unit that the model was drawn in' }).optional(),
    up: choice(UP, { about: 'What points up in the model’s file: z unless told; y in many animation programs' }).optional(),
  };
}

/** The size options as they were typed: what a button or an example carries on. */
export const sizeTyped = ({ area, shape, model, unit, up }: SizeInput): Typed => ({
  area: area?.typed,
  shape: shape?.typed,
  model,
  unit,
  up,
});

/**
 * What the options of `sizeOptions` describe; null where none of them is given. `asked`: the command, and its other options
 * as they would be typed. Refusals: `one-size`, `unit-alone`, `up-alone`, `which-unit`, `area-too-small`, `area-absurd`, and those
 * of the file and of the mesh.
 */
export async function bodyOf(
  desk: Desk,
  input: SizeInput,
  asked: { readonly command: string; readonly options: Typed },
): Promise<Sized | null | Refusal> {
  const options = { ...asked.options, ...sizeTyped(input) };
  const given = (['area', 'shape', 'model'] as const).filter((name) => input[name] !== undefined);
  const lineWith = (more: Typed) => line(asked.command, { ...options, model: shownName(desk, input.model), ...more });
  const [first] = given;
  if (first !== undefined && given.length > 1) return oneSize(given, asked.command, options, lineWith);
  if (input.model === undefined) {
    const alone = (name: 'unit' | 'up', what: Text) =>
      new Refusal(`${name}-alone`, say`${what} is that of a model, and no model was given.`, {
        example: lineWith({
          unit: undefined,
          up: undefined,
          ...(first === undefined ? { area: usual(desk, '0.4 m2', '4 sq ft') } : {}),
        }),
      });
    if (input.unit !== undefined) return alone('unit', say`The unit ${plain(input.unit)}`);
    if (input.up !== undefined) return alone('up', say`The axis ${plain(input.up)} that points up`);
  }
  if (input.model !== undefined) return ofModel(desk, input.model, input, { command: asked.command, options, lineWith });
  const known = { warnings: [], mesh: null };
  if (input.area !== undefined) {
    const body = bareArea(input.area.value);
    const spoken = say`${plain(areaText(input.area.value, desk.studio.units))}`;
    return (
      outOfRange(desk, body, lineWith({ area: usual(desk, '0.4 m2', '4 sq ft') })) ?? {
        body,
        from: 'area',
        spoken,
        doubts: doubtsOf(desk, body),
        ...known,
      }
    );
  }
  if (input.shape === undefined) return null;
  const { body, spoken } = input.shape.value;
  const sized = { body, from: 'shape' as const, spoken: say`${plain(spoken)}`, doubts: doubtsOf(desk, body), ...known };
  return outOfRange(desk, body, lineWith({ shape: usual(desk, 'half sphere 20 cm', 'half sphere 8 in') })) ?? sized;
}

/** A size as this studio says it. */
const usual = ({ studio }: Desk, metric: string, customary: string): string => (studio.units === 'metric' ? metric : customary);

type LineWith = (more: Typed) => string;

/** Nobody can type a file's address on the platform: there the file's name stands for it. */
const shownName = (desk: Desk, model: string | undefined): string | undefined =>
  model !== undefined && URL.canParse(model) ? desk.files.nameOf(model) : model;

function oneSize(given: readonly ('area' | 'shape' | 'model')[], command: string, options: Typed, lineWith: LineWith): Refusal {
  const without = (name: string): Typed => ({
    ...Object.fromEntries(given.filter((other) => other !== name).map((other) => [other, undefined])),
    ...(name === 'model' ? {} : { unit: undefined, up: undefined }),
  });
  const names = joined(
    given.map((name) => say`${plain(name)}`),
    ', ',
    ' and ',
  );
  return new Refusal('one-size', say`One of area, shape and model says how big it is; I got ${names}. Which one counts?`, {
    example: lineWith(without(given[0] ?? 'area')),
    ways: given.map((name) => ({
      label: `Take the ${name}`,
      command,
      options: givenOf({ ...options, ...without(name) }),
    })),
  });
}

interface Ways {
  readonly command: string;
  readonly options: Typed;
  readonly lineWith: LineWith;
}

async function ofModel(desk: Desk, model: string, { unit, up = 'z' }: SizeInput, ways: Ways): Promise<Sized | Refusal> {
  const name = desk.files.nameOf(model);
  // An attached file cannot be typed: what can be done is to attach it again.
  const attached = URL.canParse(model);
  const instead = (refusal: Refusal) =>
    attached
      ? new Refusal(refusal.code, [...refusal.message, ...say` Then attach it again.`], { example: ways.lineWith({}) })
      : again(refusal, { example: line(ways.command, { ...ways.options, model: './lion.stl' }), ways: refusal.ways });
  const bytes = await desk.files.read(model, MOST_BYTES);
  if (isRefusal(bytes)) return instead(bytes);
  const triangles = await desk.meshes.read(name, bytes);
  if (isRefusal(triangles)) return instead(triangles);
  const guess = unit === undefined ? guessUnit(triangles) : { unit, millimetresPerUnit: MILLIMETRES[unit], sure: true };
  const measured = await measure(desk, triangles, guess.millimetresPerUnit, up);
  const longest = measured.body.longestMillimetres ?? 0;
  if (measured.body.areaSquareMetres * 1e6 <= NO_AREA * longest ** 2)
    return instead(
      new Refusal('mesh-empty', say`I expected a surface, and none of the ${measured.triangles} triangles has an area.`),
    );
  if (!guess.sure) return whichUnit(desk, longest / guess.millimetresPerUnit, guess.unit, ways);
  const likely = likelyUnit(longest / guess.millimetresPerUnit);
  const wrong = outOfRange(desk, measured.body, ways.lineWith({ unit: likely }));
  if (wrong) return wrong;
  return {
    body: measured.body,
    from: 'model',
    spoken: say`${name}, in ${plain(UNIT_NAMES[guess.unit].toLowerCase())}`,
    doubts: doubtsOf(desk, measured.body),
    warnings: measured.warnings.filter(({ code }) => code !== 'degenerate').map(warningText),
    mesh: {
      triangles: measured.triangles,
      watertight: measured.watertight,
      openEdges: measured.openEdges,
      unit: guess.unit,
      warnings: measured.warnings.map(warningText),
    },
  };
}

/** Of the square of the longest side: less is rounding. */
const NO_AREA = 1e-9;

/** Others are answered meanwhile. */
async function measure(desk: Desk, triangles: Triangles, millimetresPerUnit: number, up: 'y' | 'z'): Promise<MeshReport> {
  const work = measuring(triangles, millimetresPerUnit, up);
  for (;;) {
    await desk.meshes.pause();
    const step = work.next();
    if (step.done) return step.value;
  }
}

/** What is brushed is seldom smaller than a thumb or longer than a van. */
const LIKELY_MILLIMETRES = { from: 20, until: 5000 };

const isLikely = (longest: number, unit: ModelUnit): boolean => {
  const millimetres = longest * MILLIMETRES[unit];
  return millimetres >= LIKELY_MILLIMETRES.from && millimetres <= LIKELY_MILLIMETRES.until;
};
const likelyUnit = (longest: number): ModelUnit => MODEL_UNITS.find((unit) => isLikely(longest, unit)) ?? 'mm';

/** Refusal `which-unit`: a button for each likely unit, with the size that it would mean. */
function whichUnit(desk: Desk, longest: number, guessed: ModelUnit, { command, options, lineWith }: Ways): Refusal {
  const longIn = (unit: ModelUnit) => longest * MILLIMETRES[unit];
  const rank = (unit: ModelUnit) => (unit === guessed ? 0 : isLikely(longest, unit) ? 1 : 2);
  const units = [...MODEL_UNITS].sort((a, b) => rank(a) - rank(b)).slice(0, 3);
  const size = (unit: ModelUnit) => lengthText(longIn(unit), desk.studio.units);
  return new Refusal(
    'which-unit',
    say`Which unit is the model in? Its file does not say; it measures ${Number(longest.toPrecision(3))} along its longest side.`,
    {
      example: lineWith({ unit: units[0] }),
      ways: units.map(
        (unit): Way => ({
          label: `${UNIT_NAMES[unit]}: ${size(unit)} long`,
          command,
          options: givenOf({ ...options, unit }),
        }),
      ),
    },
  );
}
