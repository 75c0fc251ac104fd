import { typed } from '../chat/options.ts';
import { type Cover, coverOf } from '../trade/cover/cover.ts';
import { parseRelief } from '../trade/cover/relief.ts';
import { parseLength, parsePercent } from '../trade/measures/quantity.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import { again, inLine, type Kept, kept, line, type Typed } from './examples.ts';
import type { Sized } from './sizing.ts';

/** How wide a flange is that nobody gave a width for. Common practice, no source: 30 to 50 mm. */
export const USUAL_FLANGE = '40 mm';

/** What there is to cover beside the bare surface, as options give it. */
export interface CoverInput {
  readonly relief?: Kept<number> | undefined;
  readonly flange?: Kept<number> | undefined;
  readonly parting?: Kept<number> | undefined;
  readonly edges?: Kept<number> | undefined;
  readonly waste?: Kept<number> | undefined;
}

/** Beyond this a percentage is a slip of the fingers. */
const MOST_PERCENT = 100;

/** Percent, at most 100. Refusals: `percent-too-large`, and those of `parsePercent`. */
export function parseShare(text: string): number | Refusal {
  const percent = parsePercent(text);
  if (isRefusal(percent) || percent <= MOST_PERCENT) return percent;
  return new Refusal('percent-too-large', say`I expected at most ${MOST_PERCENT} %, and got “${text}”.`, { example: '15 %' });
}

/** The options of what is covered beside the surface, and of what is mixed beside that; `others`: what their examples need beside them. */
export function coverOptions(command: string, others: Typed) {
  const option = <T>(name: string, parse: (text: string) => T | Refusal, more: Typed = {}) =>
    kept(inLine(parse, (example) => line(command, { ...others, ...more, [name]: example })));
  const parting = { parting: '1.2 m' };
  return {
    relief: typed(option('relief', parseRelief), {
      about: 'Texture: smooth, skin, wood, folds, deep, fur, or 1 to 3',
    }).optional(),
    flange: typed(option('flange', parseLength, parting), {
      about: 'Its width: 40 mm; it runs around the resting face, or along a parting line',
    }).optional(),
    parting: typed(option('parting', parseLength, { flange: USUAL_FLANGE }), {
      about: 'The length of a parting line, for a flange on both its sides',
    }).optional(),
    edges: typed(option('edges', parseShare), { about: 'More for edges and undercuts: 15 %' }).optional(),
    waste: typed(option('waste', parseShare), { about: 'What stays in cup and brush, if not the studio’s: 10 %' }).optional(),
  };
}

/** The same as they were typed. */
export const coverTyped = ({ relief, flange, parting, edges, waste }: CoverInput): Typed => ({
  relief: relief?.typed,
  flange: flange?.typed,
  parting: parting?.typed,
  edges: edges?.typed,
  waste: waste?.typed,
});

/** What of it is to be covered. `lineWith`: the line that was typed, with other options. Refusals: `flange-missing`, and those of `coverOf`. */
export function coverFor({ body }: Sized, input: CoverInput, lineWith: (more: Typed) => string): Cover | Refusal {
  if (input.parting !== undefined && input.flange === undefined)
    return new Refusal('flange-missing', say`Along the parting line runs a flange: how wide is it?`, {
      example: lineWith({ flange: USUAL_FLANGE }),
    });
  const cover = coverOf(body, {
    reliefFactor: input.relief?.value ?? 1,
    flangeMillimetres: input.flange?.value ?? null,
    partingMillimetres: input.parting?.value ?? null,
    edgePercent: input.edges?.value ?? 0,
  });
  if (!isRefusal(cover)) return cover;
  const option = cover.code === 'no-outline' ? 'parting' : 'flange';
  return again(cover, { example: lineWith({ [option]: cover.example }) });
}
