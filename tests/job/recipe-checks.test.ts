import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { stringify } from 'yaml';
import { readDocument } from '../../src/adapters/yaml/document.ts';
import { loadConfiguration } from '../../src/adapters/yaml/load.ts';
import { recipesFile } from '../../src/adapters/yaml/recipes.ts';
import { type Recipe, type RecipeStep, STEP_KINDS } from '../../src/job/recipe.ts';
import { MOST_STEPS, recipeFaults } from '../../src/job/recipe-checks.ts';
import { USES } from '../../src/trade/material.ts';
import { COAT as coat, recipeOf as recipe } from '../support/recipes.ts';

const faults = (of: Recipe) => recipeFaults(of).map(({ step, fault }) => [step?.id ?? null, fault.at.join('.'), fault.message]);

it('finds nothing wrong with what is shipped', () => {
  const shipped = loadConfiguration({ shippedDir: fileURLToPath(new URL('../../config', import.meta.url)), ownDir: null });
  if (Array.isArray(shipped)) throw new Error('the shipped configuration has problems');
  expect(shipped.recipes.flatMap(recipeFaults)).toEqual([]);
  // What must be true before the next step is said of each, in a line that can be read at arm's length.
  for (const { check } of shipped.recipes.flatMap(({ steps }) => steps)) expect(check).toMatch(/^.{10,70}\.$/);
});

const fixed = (fromMinutes: number, untilMinutes: number | null) => ({ kind: 'fixed', fromMinutes, untilMinutes }) as const;
it.each<[Partial<RecipeStep>, string, RegExp]>([
  [{ role: null }, 'role', /a coat uses up a material$/],
  [{ layer: null }, 'layer', /a coat adds a layer$/],
  [{ layer: { blockWallMillimetres: 12 } }, 'block', /a step of the kind shell$/],
  [{ kind: 'shell', role: null, layer: { blockWallMillimetres: 12 }, wait: { kind: 'none' } }, 'role', /a block uses up/],
  [{ kind: 'finish', role: null, layer: null, wait: { kind: 'cure' } }, 'role', /a wait for cure takes its time/],
  [{ wait: fixed(240, 15) }, 'wait.until', /^expected until to be longer than from, got 15 min and 240 min$/],
  [{ wait: fixed(15, 15) }, 'wait.until', /longer than from/],
  [{ wait: fixed(600_000, null) }, 'wait', /at most a year/],
  [{ wait: fixed(0, null) }, 'wait', /more than nothing/],
  [{ handsMinutes: 1441 }, 'hands', /^expected at most 24 h of hands-on time, got 1 d$/],
  [{ handsMinutes: -1 }, 'hands', /no less than nothing/],
  [{ layer: { millimetres: 0 } }, 'layer', /more than nothing/],
  [{ title: ' ' }, 'title', /1 to 60 characters, got 0/],
  [{ title: 'x'.repeat(61) }, 'title', /got 61/],
])('a step with %j', (more, at, message) => {
  expect(faults(recipe({ ...coat, ...more }))).toEqual([['coat-1', at, expect.stringMatching(message)]]);
});

it('wants steps, not too many, and each with an id of its own', () => {
  expect(faults(recipe())).toEqual([[null, 'steps', 'expected at least one step, got none']]);
  const many = Array.from({ length: MOST_STEPS + 1 }, (_, index) => ({ ...coat, id: `coat-${index}` }));
  expect(faults(recipe(...many.slice(1)))).toEqual([]);
  expect(faults(recipe(...many))).toEqual([[null, 'steps', 'expected at most 60 steps, got 61']]);
  expect(faults(recipe(coat, { ...coat, title: 'Again' }))).toEqual([
    ['coat-1', 'id', expect.stringMatching(/taken further up/)],
  ]);
});

const minutes = fc.integer({ min: 1, max: 600 });
const anyStep = fc.record({
  kind: fc.constantFrom(...STEP_KINDS),
  handsMinutes: fc.integer({ min: 0, max: 2000 }),
  role: fc.constantFrom(null, ...USES),
  layer: fc.constantFrom(null, { millimetres: 1 }, { timesUsualCoat: 0.7 }, { blockWallMillimetres: 12 }),
  wait: fc.oneof(
    fc.constantFrom({ kind: 'none' as const }, { kind: 'recoat' as const }, { kind: 'cure' as const }),
    fc.record({ kind: fc.constant('fixed' as const), fromMinutes: minutes, untilMinutes: fc.option(minutes) }),
  ),
});

/** A step as somebody would write it in the file. */
const written = (
  id: string,
  { kind, handsMinutes, role, layer, wait }: Omit<RecipeStep, 'id' | 'title' | 'advice' | 'check'>,
) => ({
  id,
  title: `The step ${id}`,
  kind,
  hands: `${handsMinutes} min`,
  ...(role && { role }),
  ...(layer && 'millimetres' in layer && { layer: `${layer.millimetres} mm` }),
  ...(layer && 'timesUsualCoat' in layer && { layer: `${layer.timesUsualCoat} x` }),
  ...(layer && 'blockWallMillimetres' in layer && { block: `${layer.blockWallMillimetres} mm` }),
  wait:
    wait.kind === 'fixed'
      ? { from: `${wait.fromMinutes} min`, ...(wait.untilMinutes !== null && { until: `${wait.untilMinutes} min` }) }
      : wait.kind,
});

it('thinks of a recipe as the reader of its file does', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.constantFrom('a', 'b', 'c', 'd'), anyStep), { minLength: 1, maxLength: 4 }), (steps) => {
      const file = {
        recipes: [{ id: 'some', name: 'Some', summary: 'Some', steps: steps.map(([id, step]) => written(id, step)) }],
      };
      const read = readDocument(recipesFile, 'recipes.yaml', stringify(file));
      const found = recipeFaults(
        recipe(...steps.map(([id, step]) => ({ ...step, id, title: `The step ${id}`, advice: null, check: null }))),
      );
      const places = read.ok ? [] : read.problems.map(({ path }) => path.replace(/^recipes\[0\]\.steps\[\d+\]\./, ''));
      expect(read.ok).toBe(found.length === 0);
      // Of a field that is wrong already, the reader does not say what else is wrong with it.
      expect(found.map(({ fault }) => fault.at.join('.'))).toEqual(expect.arrayContaining(places));
    }),
    { numRuns: 300 },
  );
});
