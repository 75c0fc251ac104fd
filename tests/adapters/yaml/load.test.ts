import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { loadConfiguration } from '../../../src/adapters/yaml/load.ts';
import { FAMILIES, USES } from '../../../src/trade/material.ts';

const shippedDir = join(import.meta.dirname, '../../../config');
const load = (ownDir: string | null, from = shippedDir) => {
  const result = loadConfiguration({ shippedDir: from, ownDir });
  return Array.isArray(result) ? { materials: [], recipes: [], studio: null, problems: result } : { ...result, problems: [] };
};

describe('the shipped configuration', () => {
  const { materials, recipes, studio, problems } = load(null);

  test('is right', () => {
    expect(problems).toEqual([]);
    expect(studio?.zone).toBe('Etc/UTC');
    expect(recipes.map(({ id }) => id)).toEqual(['skin-paste', 'skin-paste-fine', 'skin-laminate', 'skin-plaster', 'block-pour']);
  });

  test('has something for every use and family, and says where each value comes from', () => {
    expect(materials.length).toBeGreaterThanOrEqual(14);
    expect(new Set(materials.flatMap(({ use }) => use))).toEqual(new Set(USES));
    expect(new Set(materials.map(({ family }) => family))).toEqual(new Set(FAMILIES.filter((family) => family !== 'other')));
    for (const { source } of materials) expect(source).toMatch(/replace them with your data sheet/);
  });

  test('has for every role of a recipe a material that gives its times', () => {
    for (const { steps } of recipes)
      for (const { role, wait } of steps)
        if (role)
          expect(
            materials.some(
              ({ use, recoat, demouldMinutes }) => use.includes(role) && (wait.kind === 'recoat' ? recoat : demouldMinutes),
            ),
          ).toBeTruthy();
  });

  test('warns of what stops a platinum silicone', () => {
    for (const { family, inhibitedBy } of materials) expect(inhibitedBy.includes('sulphur')).toBe(family === 'silicone-platinum');
  });
});

describe('a folder of one’s own', () => {
  let dir: string;
  beforeEach(() => {
    dir = mkdtempSync(join(tmpdir(), 'own-config-'));
  });
  afterEach(() => rmSync(dir, { recursive: true }));

  test('a file in it replaces the shipped one, and a missing one falls back', () => {
    writeFileSync(join(dir, 'studio.yaml'), 'studio: { zone: Asia/Tokyo }');
    const { studio, materials } = load(dir);
    expect(studio?.zone).toBe('Asia/Tokyo');
    expect(materials).toEqual(load(null).materials);
    const result = loadConfiguration({ shippedDir, ownDir: dir });
    expect(result).toMatchObject({ own: ['studio.yaml'] });
  });

  test('a file that nobody would read is a problem, and so is a folder with none', () => {
    expect(load(dir).problems).toMatchObject([{ file: dir, message: expect.stringContaining('holds none of') }]);
    mkdirSync(join(dir, 'pictures'));
    writeFileSync(join(dir, 'material.yml'), '');
    expect(load(dir).problems).toMatchObject([
      { file: join(dir, 'material.yml'), message: expect.stringContaining('did you mean materials.yaml?') },
    ]);
  });

  test('a largest batch that the scale cannot hold is a problem of the material', () => {
    const text = readFileSync(join(shippedDir, 'materials.yaml'), 'utf8');
    writeFileSync(join(dir, 'materials.yaml'), text.replace('most: 1 kg', 'most: 50 g'));
    expect(load(dir).problems).toMatchObject([{ file: 'materials.yaml', line: 36, path: 'materials[0].most' }]);
    writeFileSync(join(dir, 'studio.yaml'), 'studio: { zone: UTC, scale: { step: 0.1 g } }');
    expect(load(dir).problems).toEqual([]);
  });

  test('problems of all files come at once', () => {
    writeFileSync(join(dir, 'studio.yaml'), 'studio: {}');
    writeFileSync(join(dir, 'recipes.yaml'), 'recipes: [');
    expect(load(dir).problems.map(({ file, path }) => [file, path])).toEqual([
      ['recipes.yaml', ''],
      ['studio.yaml', 'studio.zone'],
    ]);
  });

  test('a folder that is not there, or is a file, is a problem', () => {
    copyFileSync(join(shippedDir, 'studio.yaml'), join(dir, 'studio.yaml'));
    for (const name of ['nowhere', 'studio.yaml'])
      expect(load(join(dir, name)).problems).toMatchObject([{ file: join(dir, name), line: 0 }]);
  });

  test('a shipped file that is not there is a problem, not a crash', () => {
    expect(load(null, dir).problems.map(({ file }) => file)).toEqual(['materials.yaml', 'recipes.yaml', 'studio.yaml']);
  });
});
