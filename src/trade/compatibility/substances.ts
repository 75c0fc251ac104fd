import type { Material } from '../material.ts';

/** What people call the same thing. */
const SAME: readonly (readonly [string, RegExp])[] = [
  ['sulphur', /^sul(?:ph|f)ur/],
  ['amines', /^amine/],
  ['tin', /^(?:organo)?-?tin\b/],
  ['moisture', /^(?:moisture|damp|water|wet)/],
  ['uncured acrylate', /acrylate/],
  ['styrene', /^styrene/],
  ['latex', /^latex/],
];

/** A substance in the word that this program compares by; a word of somebody's own stays as it is. */
const substance = (word: string): string => {
  const plainWord = word.trim().toLowerCase();
  return SAME.find(([, pattern]) => pattern.test(plainWord))?.[0] ?? plainWord;
};

/** What of all that lies there keeps the material from curing, in the words of its entry. */
export const inhibitorsAmong = ({ inhibitedBy }: Pick<Material, 'inhibitedBy'>, there: readonly string[]): string[] => {
  const known = new Set(there.map(substance));
  return inhibitedBy.filter((word) => known.has(substance(word)));
};

/** Whether that word means damp, which spoils in a way of its own. */
export const isMoisture = (word: string): boolean => substance(word) === 'moisture';
