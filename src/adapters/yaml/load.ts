import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Studio } from '../../bench/studio.ts';
import type { Recipe } from '../../job/recipe.ts';
import type { Material } from '../../trade/material.ts';
import { smallestBatchGrams } from '../../trade/mixing/ratio.ts';
import { nearest } from '../../words/nearest.ts';
import { type Kind, type ProblemAt, readDocument } from './document.ts';
import { materialsFile } from './materials.ts';
import type { Problem } from './problem.ts';
import { recipesFile } from './recipes.ts';
import { studioFile } from './studio.ts';

const NAMES = ['materials.yaml', 'recipes.yaml', 'studio.yaml'] as const;
export type FileName = (typeof NAMES)[number];

/** The three files, read and found right. */
export interface Configuration {
  readonly materials: Material[];
  /** The materials as they stand in their file. */
  readonly materialsText: string;
  readonly recipes: Recipe[];
  readonly studio: Studio;
  /** The files that are the studio's own; the others are the shipped ones. */
  readonly own: readonly FileName[];
}

/** Each file found in `ownDir` replaces the shipped one; a missing one falls back to it. All problems come back at once. */
export function loadConfiguration({
  shippedDir,
  ownDir,
}: {
  shippedDir: string;
  ownDir: string | null;
}): Configuration | Problem[] {
  if (ownDir !== null && !statSync(ownDir, { throwIfNoEntry: false })?.isDirectory())
    return [
      {
        file: ownDir,
        line: 0,
        path: '',
        message: 'expected a folder with configuration files, found none there',
        example: '--config ./my-config',
      },
    ];
  const own = ownDir === null ? [] : NAMES.filter((name) => statSync(join(ownDir, name), { throwIfNoEntry: false }));
  const problems: Problem[] = ownDir === null ? [] : strays(ownDir, own);
  let atMaterial: ProblemAt | undefined;
  let materialsText = '';
  const load = <T>(name: FileName, kind: Kind<T>): T => {
    try {
      const dir = ownDir !== null && own.includes(name) ? ownDir : shippedDir;
      const text = readFileSync(join(dir, name), 'utf8');
      const result = readDocument(kind, name, text);
      if (result.ok) {
        if (name === 'materials.yaml') {
          atMaterial = result.problemAt;
          materialsText = text;
        }
        return result.value;
      }
      problems.push(...result.problems);
    } catch (error) {
      problems.push({ file: name, line: 0, path: '', message: `cannot be read: ${(error as Error).message}`, example: '' });
    }
    return undefined as T;
  };
  const configuration = {
    materials: load('materials.yaml', materialsFile),
    recipes: load('recipes.yaml', recipesFile),
    studio: load('studio.yaml', studioFile),
    own,
  };
  const { materials, studio } = configuration;
  // Nobody can mend a shipped material; whoever has a coarser scale than it needs is told so when they mix it.
  if (atMaterial && studio && (own.includes('materials.yaml') || !own.includes('studio.yaml')))
    problems.push(...tooSmall(materials, studio, atMaterial));
  return problems.length > 0 ? problems : { ...configuration, materialsText };
}

/** Reads a list of materials that was handed in, or gives all its problems at once. */
export function readMaterials(text: string): Material[] | Problem[] {
  const result = readDocument(materialsFile, 'materials.yaml', text);
  return result.ok ? result.value : result.problems;
}

/** The files in a folder of one's own that nobody would read, and a folder with none that anybody would. */
function strays(ownDir: string, own: readonly FileName[]): Problem[] {
  const problem = (file: string, message: string, example: string): Problem => ({ file, line: 0, path: '', message, example });
  let found: string[];
  try {
    found = readdirSync(ownDir);
  } catch (error) {
    return [problem(ownDir, `cannot be read: ${(error as Error).message}`, '')];
  }
  const names = NAMES.join(', ');
  const stray = found.filter((name) => /\.ya?ml$/i.test(name) && !NAMES.some((known) => known === name)).sort();
  if (stray.length === 0 && own.length === 0) return [problem(ownDir, `holds none of ${names}`, join(ownDir, 'studio.yaml'))];
  return stray.map((name) => {
    const [stem] = nearest(
      name.replace(/\.ya?ml$/i, ''),
      NAMES.map((known) => known.replace('.yaml', '')),
      1,
    );
    const meant = stem === undefined ? '' : `; did you mean ${stem}.yaml?`;
    return problem(join(ownDir, name), `is not read: the names are ${names}${meant}`, '');
  });
}

/** The materials of which even the largest batch is too small to be weighed in their ratio on the studio's scale. */
function tooSmall(materials: readonly Material[], { scale }: Studio, problemAt: ProblemAt): Problem[] {
  return materials.flatMap((material, index) => {
    const least = smallestBatchGrams(material, scale.stepGrams);
    if (material.mostGrams === null || material.mostGrams >= least) return [];
    const message = `expected at least ${least} g, the smallest batch whose ratio a scale with steps of ${scale.stepGrams} g can hold, got ${material.mostGrams} g`;
    return [problemAt(['materials', index, 'most'], message, `${least} g`)];
  });
}
