import type { BenchState } from '../bench/fold.ts';
import { openJobs } from '../bench/fold.ts';
import type { Material } from '../trade/material.ts';
import { parseAmount, parseArea, parseLength } from '../trade/measures/quantity.ts';
import { named, nearest } from '../words/nearest.ts';
import { isRefusal } from '../words/refusal.ts';
import type { Desk } from './desk.ts';
import { nextMaterialId } from './next-material.ts';

/** Words around what is asked for. */
const AROUND =
  /^(?:mix(?:ing)?|how|much|many|for|of|the|an?|please|i|we|me|us|need|want|give|do|does|to|make|is|it|at|with|and|in|on|thick(?:ness)?|deep|coats?|layers?|cups?|some|what|\?)$/i;
/** More words than this are talk. */
const MOST_WORDS = 24;
const LONGEST_MEASURE = 6;

/**
 * What somebody wants mixed who says it in words of their own, as the options of /mix: "500 g of brush urethane", "3 sq ft 2mm
 * thick". Null where there is no amount and no area in it, or words that are no material of this studio.
 */
export function toldFreely(
  text: string,
  { materials }: Pick<Desk, 'materials'>,
  state: BenchState,
): Record<string, string> | null {
  const words = text
    .trim()
    .replace(/[?!.]+$/, '')
    .split(/[\s,;]+(?!\d)|\s+/)
    .filter((word) => word !== '');
  if (words.length > MOST_WORDS || /(?:^|\s)\p{L}+:/u.test(text)) return null;
  const thick = measureIn(words, (said, rest) => !isRefusal(parseLength(said)) && /^(?:thick|deep)/i.test(rest[0] ?? ''));
  const others = thick?.rest ?? words;
  const area = measureIn(others, (said) => !isRefusal(parseArea(said)));
  const found = area ? { options: { area: area.said }, rest: area.rest } : amountIn(others, materials);
  if (found === null) return null;
  const material = materialIn(found.rest, materials);
  if (material === null) return null;
  const next = openJobs(state).length === 1 ? nextMaterialId(openJobs(state)[0] ?? null) : undefined;
  const usual = next ?? materials.find(({ use }) => use.includes('skin'))?.id ?? materials[0]?.id ?? '';
  return {
    material: material?.id ?? usual,
    ...found.options,
    ...(area && thick ? { thickness: thick.said } : {}),
  };
}

interface Found {
  readonly said: string;
  readonly rest: readonly string[];
}

/** The longest run of words that begins with a digit and `fits`, and the words without it. */
function measureIn(words: readonly string[], fits: (said: string, after: readonly string[]) => boolean): Found | null {
  for (let length = LONGEST_MEASURE; length > 0; length -= 1)
    for (let from = 0; from + length <= words.length; from += 1) {
      const said = words.slice(from, from + length).join(' ');
      const after = words.slice(from + length);
      if (/^\d/.test(said) && fits(said, after)) return { said, rest: [...words.slice(0, from), ...after] };
    }
  return null;
}

/** An amount; of a part only where the material that the other words name has it. */
function amountIn(words: readonly string[], materials: readonly Material[]) {
  const found = measureIn(words, (said, after) => {
    const amount = parseAmount(said);
    if (isRefusal(amount) || amount.of === null) return !isRefusal(amount);
    const { of } = amount;
    return materialIn(after, materials)?.parts.some(({ name }) => named(of, [name]) !== undefined) ?? false;
  });
  return found && { options: { amount: found.said }, rest: found.rest };
}

/** The material that the words name; undefined where they name nothing, null where they are something else. */
function materialIn(words: readonly string[], materials: readonly Material[]): Material | undefined | null {
  const typed = words.filter((word) => !AROUND.test(word)).join(' ');
  if (typed === '') return undefined;
  const byName = (name: string | undefined) => materials.find((each) => each.id === name || each.name === name) ?? null;
  const all = materials.flatMap(({ id, name }) => [id, name]);
  return byName(named(typed, all) ?? nearest(typed, all)[0]);
}
