import { type Configuration, readMaterials } from '../adapters/yaml/load.ts';
import { type Problem, problemText } from '../adapters/yaml/problem.ts';
import type { Lists } from '../desk/desk.ts';
import type { Material } from '../trade/material.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';

const MOST_PROBLEMS = 5;
/** How many lists are kept read; each is a few kilobytes, and each studio has one. */
const MOST_KEPT = 200;

/** Lists of materials through the reader of the configuration files, each text read once. */
export function listsFor({ materialsText }: Configuration): Lists {
  const kept = new Map<string, readonly Material[] | Refusal>();
  return {
    textOf: (studio) => studio.materialsText ?? materialsText,
    read(text) {
      const known = kept.get(text);
      if (known) return known;
      const found = readMaterials(text);
      const result = isProblems(found) ? refusalOf(found) : found;
      if (kept.size >= MOST_KEPT) kept.clear();
      kept.set(text, result);
      return result;
    },
  };
}

const isProblems = (found: Material[] | Problem[]): found is Problem[] => found[0] !== undefined && 'message' in found[0];

function refusalOf(problems: readonly Problem[]): Refusal {
  const rest = problems.length - MOST_PROBLEMS;
  const first = problems.slice(0, MOST_PROBLEMS).map(problemText).join(' — ');
  return new Refusal('bad-materials', say`${first}${plain(rest > 0 ? ` — and ${rest} more.` : '')}`, {
    example: '/material save gives a list that is right',
  });
}
