import { distance } from 'fastest-levenshtein';
import { plainLetters } from './slug.ts';

const folded = (word: string) => word.toLowerCase().replace(/[\s_]+/g, '-');

/** The same letters in another order: fingers that came down one before the other. */
const swapped = (a: string, b: string) => [...a].sort().join('') === [...b].sort().join('');

/** The candidates that look like a slip of `typed`, nearest first, at most `most` of them; none that is far off. */
export function nearest(typed: string, candidates: Iterable<string>, most = 3): string[] {
  const word = plainLetters(folded(typed));
  const reach = Math.max(1, Math.min(4, Math.ceil(word.length / 3)));
  return [...candidates]
    .map((candidate) => {
      const other = plainLetters(folded(candidate));
      const part = word.length >= 3 && (other.includes(word) || word.includes(other));
      return { candidate, off: part ? 0.5 : swapped(word, other) ? 1 : distance(word, other) };
    })
    .filter(({ off }) => off <= reach)
    .sort((a, b) => a.off - b.off || a.candidate.localeCompare(b.candidate))
    .slice(0, most)
    .map(({ candidate }) => candidate);
}

/** The candidate that `typed` names, whatever its case, its spaces and, where none has just those, its accents; or undefined. */
export function named(typed: string, candidates: Iterable<string>): string | undefined {
  const all = [...candidates];
  const word = folded(typed.trim());
  const bare = plainLetters(word);
  return all.find((each) => folded(each) === word) ?? all.find((each) => plainLetters(folded(each)) === bare);
}
