import fc from 'fast-check';
import { test } from 'vitest';
import { parse, stringify } from 'yaml';
import { type Kind, readDocument } from '../../../src/adapters/yaml/document.ts';
import { materialsFile } from '../../../src/adapters/yaml/materials.ts';
import { recipesFile } from '../../../src/adapters/yaml/recipes.ts';
import { studioFile } from '../../../src/adapters/yaml/studio.ts';

type Tree = Record<string, unknown>;

/** Every place in a tree: what holds it, and its key there. */
const places = (tree: unknown): [Tree, string][] =>
  typeof tree === 'object' && tree !== null
    ? Object.entries(tree).flatMap(([key, value]): [Tree, string][] => [[tree as Tree, key], ...places(value)])
    : [];

const kinds: [string, Kind<unknown>][] = [
  ['materials', materialsFile],
  ['recipes', recipesFile],
  ['studio', studioFile],
];

test.each(kinds)('%s: whatever stands anywhere in it, the answer is a value or located problems, never a crash', (_, kind) => {
  const odd = fc.oneof(
    fc.jsonValue(),
    fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, '', ' ', '-1 g', '1e9 kg', '__proto__', []),
  );
  fc.assert(
    fc.property(fc.nat(), odd, (at, value) => {
      const tree: unknown = parse(kind.example);
      const all = places(tree);
      const [holder, key] = all[at % all.length] as [Tree, string];
      holder[key] = value;
      const result = readDocument(kind, 'it.yaml', stringify(tree));
      if (result.ok) return true;
      return result.problems.length > 0 && result.problems.every(({ line, message }) => line > 0 && message !== '');
    }),
    { numRuns: 150 },
  );
});

test('text that is no YAML at all does not crash either', () =>
  fc.assert(fc.property(fc.string(), (text) => !readDocument(studioFile, 'studio.yaml', text).ok)));
