import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll } from 'vitest';
import type { MessageObject } from '../../src/adapters/terminal/message.ts';
import { boxStl } from '../support/models.ts';

/** What `/area` says in numbers. */
interface Coverage {
  areaSquareMetres: number;
  bareAreaSquareMetres: number;
  volumeLitres: number | null;
  boxMillimetres: number[] | null;
  watertight: boolean | null;
  triangles: number | null;
  warnings: string[];
  layers: {
    material: string;
    title: string;
    thicknessMillimetres: number;
    grams: number;
    mixedGrams: number;
    parts: { grams: number }[];
  }[];
  totalGrams: number;
  totalMixedGrams: number;
  mouldGrams: number;
  block: { volumeLitres: number; grams: number } | null;
}
export const covered = (message: MessageObject | undefined) => message?.data['coverage'] as Coverage;

export const PAIR = 'skin:brush-urethane shell:shell-paste';

/** For all tests of a file: models of a box of 300 x 200 x 100, right and wrong; gives the path to each by its name. */
export function modelsAtHand(): (name: string) => string {
  let folder: string;
  const model = (name: string) => join(folder, name);
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'coatbell-area.'));
    writeFileSync(model('box.stl'), boxStl([300, 200, 100]));
    writeFileSync(model('open.stl'), boxStl([300, 200, 100], true));
    const flat = 'facet normal 0 0 0\nouter loop\nvertex 0 0 0\nvertex 150 0 0\nvertex 0 0 0\nendloop\nendfacet\n';
    writeFileSync(model('flat.stl'), boxStl([300, 200, 100]).replace('endsolid', `${flat}endsolid`));
    // The same in inches, to the tenth of a micrometre.
    writeFileSync(model('doubtful.stl'), boxStl([300 / 25.4, 200 / 25.4, 100 / 25.4]));
    writeFileSync(model('words.stl'), 'This is no mesh at all.\n');
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  return model;
}
