import { describe, expect, test } from 'vitest';
import type { Recipe, RecipeStep } from '../../src/job/recipe.ts';
import { recipeFaults, STEP_RULES, type StepFacts } from '../../src/job/recipe-checks.ts';
import { freeId, isSame, withAddedCoat, withMoved } from '../../src/job/recipe-edit.ts';
import { COAT as coat, recipeOf as recipe } from '../support/recipes.ts';

const faults = (of: Recipe) => recipeFaults(of).map(({ fault }) => fault.at.join('.'));
const fixed = (fromMinutes: number, untilMinutes: number | null = null) =>
  ({ kind: 'fixed', fromMinutes, untilMinutes }) as const;

describe('limits', () => {
  // A leap year has 366 days.
  const YEAR = 366 * 24 * 60;
  test.each<[Partial<RecipeStep>, string[]]>([
    [{ layer: { millimetres: 20 } }, []],
    [{ layer: { millimetres: 20.1 } }, ['layer']],
    [{ handsMinutes: 24 * 60 }, []],
    [{ handsMinutes: 24 * 60 + 1 }, ['hands']],
    [{ wait: fixed(YEAR) }, []],
    [{ wait: fixed(YEAR + 1) }, ['wait']],
    [{ wait: fixed(60, YEAR) }, []],
    [{ wait: fixed(60, YEAR + 1) }, ['wait']],
    [{ kind: 'finish', role: null, layer: null, wait: { kind: 'recoat' } }, ['role']],
    [{ kind: 'finish', role: null, layer: null, wait: fixed(60) }, []],
    // Sixty letters, each of two code units.
    [{ title: '𝔸'.repeat(60) }, []],
    [{ title: '𝔸'.repeat(61) }, ['title']],
  ])('%j', (more, expected) => expect(faults(recipe({ ...coat, ...more }))).toEqual(expected));

  test('of a recipe’s own name', () => {
    expect(faults({ ...recipe(coat), name: '𝔸'.repeat(60) })).toEqual([]);
    expect(faults({ ...recipe(coat), name: '𝔸'.repeat(61) })).toEqual(['name']);
    expect(faults({ ...recipe(coat), name: '  ' })).toEqual(['name']);
  });
  test('what is offered for an end that comes too soon is longer than the beginning', () => {
    const [found] = recipeFaults(recipe({ ...coat, wait: fixed(40, 40) }));
    expect(Number.parseFloat(found?.fault.example ?? '')).toBeGreaterThan(40);
  });
  test('a layer and a block in one step', () => {
    const both: StepFacts = {
      kind: 'shell',
      hands: 15,
      role: 'shell',
      layer: { millimetres: 3 },
      block: 12,
      wait: { kind: 'none' },
    };
    expect(STEP_RULES.flatMap(({ fault }) => fault(both) ?? [])).toMatchObject([{ at: ['block'] }]);
    expect(STEP_RULES.flatMap(({ fault }) => fault({ ...both, layer: null }) ?? [])).toEqual([]);
  });
});

describe('one more coat', () => {
  const steps = [
    { ...coat, id: 'coat-1' },
    { ...coat, id: 'coat-2', wait: { kind: 'cure' as const } },
    { ...coat, id: 'wax', kind: 'finish' as const, layer: null, wait: { kind: 'none' as const } },
    { ...coat, id: 'bed', kind: 'shell' as const, wait: { kind: 'cure' as const } },
  ];
  const more: RecipeStep = { ...coat, id: 'more', wait: fixed(30) };
  const added = (step: RecipeStep, after: string) =>
    withAddedCoat(recipe(...steps), step, after).steps.map(({ id, wait }) => `${id} ${wait.kind}`);
  test('right after the last one of its role, it waits as that one did, and that one for recoat', () =>
    // The step of the same role that comes later is no coat.
    expect(added(more, 'coat-2')).toEqual(['coat-1 recoat', 'coat-2 recoat', 'more cure', 'wax none', 'bed cure']));
  test('anywhere else, of another role, or what is no coat: it waits as it says', () => {
    expect(added(more, 'coat-1')).toEqual(['coat-1 recoat', 'more fixed', 'coat-2 cure', 'wax none', 'bed cure']);
    expect(added({ ...more, role: 'shell' }, 'coat-2')).toEqual([
      'coat-1 recoat',
      'coat-2 cure',
      'more fixed',
      'wax none',
      'bed cure',
    ]);
    expect(added({ ...more, kind: 'finish' }, 'coat-2')).toEqual([
      'coat-1 recoat',
      'coat-2 cure',
      'more fixed',
      'wax none',
      'bed cure',
    ]);
  });
});

test('a step that is moved behind itself stays where it is', () => {
  const three = recipe(...['a', 'b', 'c'].map((id) => ({ ...coat, id })));
  const order = (id: string, after: string | null) =>
    withMoved(three, id, after)
      .steps.map((step) => step.id)
      .join('');
  expect([order('b', 'b'), order('b', null), order('b', 'c'), order('x', 'a')]).toEqual(['abc', 'bac', 'acb', 'abc']);
});

describe('an id', () => {
  test('of a long title leaves room for its number within forty letters', () => {
    const first = freeId('x'.repeat(80), [], 'step');
    const many = [first, ...Array.from({ length: 98 }, (_, index) => `${first}-${index + 2}`)];
    const next = freeId('x'.repeat(80), many, 'step');
    expect([next, next.length]).toEqual([`${first}-100`, 40]);
  });
  test('never ends, or begins, with a hyphen', () => {
    expect(freeId('  Sand & wax!  ', [], 'step')).toBe('sand-wax');
    expect(freeId('&', ['step'], 'step')).toBe('step-2');
    expect(freeId(`${'x'.repeat(35)} yes`, [], 'step')).toBe('x'.repeat(35));
  });
});

test('versions are the same whatever their numbers, and others where a word is', () => {
  expect(isSame(recipe(coat), { ...recipe(coat), version: 7 })).toBe(true);
  expect(isSame(recipe(coat), { ...recipe(coat), summary: 'Another' })).toBe(false);
});
