import type { Material, Part } from '../trade/material.ts';
import { grams as gramsText } from '../trade/measures/format.ts';
import { parsePoured } from '../trade/measures/quantity.ts';
import { amountIn } from '../trade/mixing/limits.ts';
import { partNamed, pourOrder } from '../trade/mixing/parts.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { joined, say } from '../words/text.ts';
import { again, line } from './examples.ts';

/** An example of a cup is at least about so large, in grams. */
const ABOUT_GRAMS = 100;

/** The parts in pour order, with amounts that are right. */
export function examplePour(material: Material): { part: Part; grams: string }[] {
  const whole = material.parts.reduce((sum, { weightShare }) => sum + weightShare, 0);
  const times = Math.max(1, Math.ceil(ABOUT_GRAMS / whole));
  return pourOrder(material).map((part) => ({ part, grams: gramsText(part.weightShare * times, 0.1) }));
}

/** A whole line that says what is in the cup. */
export const fixLine = (material: Material): string =>
  line('fix', {
    material: material.id,
    poured: examplePour(material)
      .map(({ part, grams }) => `${grams} ${part.name}`)
      .join(', '),
  });

/** What was typed of a cup, in grams of the material's own parts; a refusal says which part it is about. */
export function readPour(typed: string, material: Material): { part: string; grams: number }[] | Refusal {
  const example = fixLine(material);
  const poured = parsePoured(typed);
  if (isRefusal(poured)) return partWithoutNumber(typed, material) ?? again(poured, { example });
  const read: { part: string; grams: number }[] = [];
  for (const { part: name, quantity } of poured) {
    const part = partNamed(material, name);
    if (isRefusal(part) && isStirredIn(material, name))
      return new Refusal(
        'additive-in-pour',
        say`“${name}” is stirred in beside the parts, and changes no ratio: leave it out. I expected only what is in the cup of ${listedParts(material)}.`,
        { example },
      );
    if (isRefusal(part)) return again(part, { example });
    const grams = amountIn('mass', quantity, material, part);
    if (isRefusal(grams)) return again(grams, { example });
    read.push({ part: part.name, grams });
  }
  return read;
}

/** What goes in beside the parts, whether the material names it or not. */
const isStirredIn = ({ additives }: Material, name: string): boolean =>
  additives.some((additive) => name.toLowerCase().includes(additive.name.toLowerCase())) ||
  /pigment|thickener|filler|retarder|colou?r|dye|thinner|powdered metal|microballoon/i.test(name);

const listedParts = ({ parts }: Material) =>
  joined(
    parts.map(({ name }) => say`${name}`),
    ', ',
    ' and ',
  );

/** A form joins its fields by commas, each with its part's name at the end: which of them holds no number? */
function partWithoutNumber(typed: string, material: Material): Refusal | null {
  for (const piece of typed.split(/[,;\n]/).map((each) => each.trim())) {
    const part = material.parts.find(({ name }) => new RegExp(`(?:^|\\s)${escaped(name)}$`, 'iu').test(piece));
    if (!part || /\d|[½¼¾⅓⅔⅛⅜⅝⅞]/.test(piece.slice(0, piece.length - part.name.length))) continue;
    const got = piece.slice(0, piece.length - part.name.length).trim();
    return new Refusal(
      'poured-unreadable',
      say`Expected a number for the grams of ${part.name}, got ${got === '' ? say`nothing` : say`“${got}”`}.`,
      { example: fixLine(material) },
    );
  }
  return null;
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
