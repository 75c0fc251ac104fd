import type { RecipeStep } from './recipe.ts';

const ORDINALS = [
  'first second third fourth fifth sixth seventh eighth ninth tenth',
  'eleventh twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth nineteenth twentieth',
]
  .join(' ')
  .split(' ');

/**
 * The coats of a recipe and so many more after them. What the last one waits for, is advised, and is checked for goes to the new last
 * one; those before it go on like the one before the last. `all`: the steps whose ids are taken.
 */
export function furtherCoats(coats: readonly RecipeStep[], more: number, all: readonly RecipeStep[]): readonly RecipeStep[] {
  const last = coats.at(-1);
  if (!last || more <= 0) return coats;
  const before = coats.at(-2);
  const taken = new Set(all.map(({ id }) => id));
  const going: RecipeStep = {
    ...last,
    wait: before?.wait ?? { kind: 'recoat' },
    advice: before?.advice ?? null,
    check: before?.check ?? null,
  };
  const added: RecipeStep[] = [];
  let named: Pick<RecipeStep, 'id' | 'title'> = last;
  for (let each = 1; each <= more; each += 1) {
    named = { id: nextId(named.id, taken), title: nextTitle(named.title) };
    taken.add(named.id);
    added.push({ ...(each === more ? last : going), ...named });
  }
  return [...coats.slice(0, -1), going, ...added];
}

/** "coat-5" after "coat-4", or the next one that is free. */
function nextId(id: string, taken: ReadonlySet<string>): string {
  const [, stem = id, number = '1'] = /^(.*?)-?(\d+)$/.exec(id) ?? [];
  for (let next = Number(number) + 1; ; next += 1) if (!taken.has(`${stem}-${next}`)) return `${stem}-${next}`;
}

/** "Fifth coat" after "Fourth coat", "Coat 5" after "Coat 4", and "Thick coat 2" after "Thick coat". */
function nextTitle(title: string): string {
  const [, word = '', rest = ''] = /^(\p{L}+)(.*)$/u.exec(title) ?? [];
  const next = ORDINALS[ORDINALS.indexOf(word.toLowerCase()) + 1];
  if (next !== undefined && ORDINALS.includes(word.toLowerCase()))
    return `${word[0] === word[0]?.toUpperCase() ? `${next[0]?.toUpperCase()}${next.slice(1)}` : next}${rest}`;
  const [, stem = title, number = '1'] = /^(.*?)\s*(\d{1,3})$/.exec(title) ?? [];
  return `${stem} ${Number(number) + 1}`;
}
