import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Studio } from '../../bench/studio.ts';
import type { Recipe } from '../../job/recipe.ts';
import type { Material } from '../../trade/material.ts';
import { type Kind, readDocument } from './document.ts';
import { materialsFile } from './materials.ts';
import type { Problem } from './problem.ts';
import { recipesFile } from './recipes.ts';
import { studioFile } from './studio.ts';

/** The three files, read and found right. */
export interface Configuration {
  readonly materials: Material[];
  readonly recipes: Recipe[];
  readonly studio: Studio;
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
  const problems: Problem[] = [];
  const load = <T>(name: string, kind: Kind<T>): T => {
    try {
      const text = (ownDir === null ? null : textOf(join(ownDir, name))) ?? readFileSync(join(shippedDir, name), 'utf8');
      const result = readDocument(kind, name, text);
      if (result.ok) return result.value;
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
  };
  return problems.length > 0 ? problems : configuration;
}

/** The text of a file, or null where there is none. */
function textOf(path: string): string | null {
  return statSync(path, { throwIfNoEntry: false }) ? readFileSync(path, 'utf8') : null;
}
