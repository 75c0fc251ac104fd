import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { loadConfiguration } from '../../src/adapters/yaml/load.ts';
import { plainText } from '../../src/chat/plain.ts';
import type { Recipe, RecipeStep, StepKind } from '../../src/job/recipe.ts';
import { oddOrderLines } from '../../src/job/recipe-order.ts';
import { recipeOf as recipe } from '../support/recipes.ts';

/** In which order a mould is made: sealed, coated, backed, opened, filled. Common practice, no source. */
const step = (id: string, kind: StepKind, wait: RecipeStep['wait'] = { kind: 'cure' }): RecipeStep => ({
  id,
  title: id,
  kind,
  handsMinutes: 15,
  role: kind === 'coat' ? 'skin' : kind === 'shell' ? 'shell' : null,
  layer: null,
  wait,
  advice: null,
  check: null,
});
const ALL = [
  step('seal', 'prepare'),
  step('one', 'coat', { kind: 'recoat' }),
  step('two', 'coat'),
  step('shell', 'shell'),
  step('open', 'demould'),
  step('cast', 'cast'),
];
const NAMED = new Map(ALL.map((each) => [each.id, each]));
const ordered = (ids: string) => recipe(...ids.split(' ').flatMap((id) => NAMED.get(id) ?? []));
const told = (before: Recipe, after: Recipe) =>
  oddOrderLines(before, after).map((line) => plainText(line, { zone: 'Etc/UTC', now: 0 }));
const from = (ids: string) => told(recipe(...ALL), ordered(ids));

describe('an order that nobody means', () => {
  test.each([
    ['seal one two shell open cast', []],
    ['seal one open two shell cast', ['open comes before two: the mould is opened before it is whole.']],
    ['seal one two open shell cast', ['open comes before shell: the mould is opened before it is whole.']],
    ['seal shell one two open cast', ['shell comes before one: a shell is built on the whole skin.']],
    [
      'one seal two shell open cast',
      ['Nothing is prepared before one: without a release the model may never come out. And 1 more like it.'],
    ],
    ['seal one two shell cast open', ['cast comes before open: the model is still in the mould.']],
    ['seal one two shell cast', ['No step opens the mould before cast: the model is still in it.']],
    ['one two shell open cast', ['Nothing is prepared before one: without a release the model may never come out.']],
    // What was left out is another matter: one coat may do.
    ['seal two shell open cast', []],
    ['seal one two open', []],
  ])('%s', (ids, lines) => expect(from(ids)).toEqual(lines));

  test('a coat that nothing waits for', () => {
    const hasty = (id: string) =>
      recipe(...ALL.map((each) => (each.id === id ? { ...each, wait: { kind: 'none' as const } } : each)));
    expect(told(recipe(...ALL), hasty('one'))).toEqual([
      'one has no wait, and two follows at once: on a wet coat it slides. Should it wait for recoat?',
    ]);
    expect(told(recipe(...ALL), hasty('shell'))).toEqual([
      'shell has no wait, and open follows at once: it is still wet then. Should it wait to cure?',
    ]);
  });

  test('is told beside another that is known', () => {
    expect(told(ordered('seal shell one two open cast'), ordered('shell one two open cast'))).toEqual([
      'Nothing is prepared before shell: without a release the model may never come out.',
    ]);
  });

  test('is told once, also where a step is called something else', () => {
    const wrong = ordered('seal one open two shell cast');
    const renamed = recipe(...wrong.steps.map((each) => ({ ...each, title: `${each.title} again` })));
    expect(told(wrong, renamed)).toEqual([]);
  });

  test('is none of the shipped recipes', () => {
    const config = loadConfiguration({ shippedDir: fileURLToPath(new URL('../../config', import.meta.url)), ownDir: null });
    for (const shipped of 'recipes' in config ? config.recipes : []) expect(told(recipe(), shipped), shipped.id).toEqual([]);
  });
});
