import { expect, it } from 'vitest';
import { benchEvent } from '../../src/bench/events.ts';
import { StandingClock } from '../../src/bench/standing-clock.ts';
import { type StudioEvent, studioAfter, studioEvent } from '../../src/bench/studio-events.ts';
import { nextVersion, recipesOf } from '../../src/bench/studio-recipes.ts';
import { recipeText } from '../../src/cards/words.ts';
import type { Recipe } from '../../src/job/recipe.ts';
import { say } from '../../src/words/text.ts';
import { given, t } from '../support/given.ts';
import { Disk, openHouse } from '../support/house.ts';
import { studio } from '../support/studio.ts';

const recipe = (id: string, version: number, title = 'Wax'): Recipe => ({
  id,
  name: id,
  summary: 'Some',
  version,
  shell: null,
  steps: [
    {
      id: 'wax',
      title,
      kind: 'finish',
      handsMinutes: 15,
      role: null,
      layer: null,
      wait: { kind: 'none' },
      advice: null,
      check: null,
    },
  ],
});
const SHIPPED = [recipe('skin', 1), recipe('block', 1)];

const saved = (of: Recipe, from: Recipe, at = '08:00'): StudioEvent => ({
  version: 1,
  type: 'RecipeSaved',
  at: t(at),
  by: 'dana',
  recipe: of,
  basedOn: { id: from.id, version: from.version },
});
const dropped = (id: string): StudioEvent => ({ version: 1, type: 'RecipeDropped', at: t('09:00'), by: 'kim', recipe: id });
const after = (...events: StudioEvent[]) => studioAfter(studio(), events);
const counting = (...events: StudioEvent[]) => recipesOf(after(...events), SHIPPED).map(({ id, version }) => `${id} ${version}`);

it('a studio’s own recipe counts in place of the program’s, and one that it made comes last', () => {
  const [skin = recipe('skin', 1)] = SHIPPED;
  expect(counting()).toEqual(['skin 1', 'block 1']);
  expect(counting(saved(recipe('mine', 1), skin), saved(recipe('skin', 2), skin))).toEqual(['skin 2', 'block 1', 'mine 1']);
  expect(counting(saved(recipe('skin', 2), skin), dropped('skin'))).toEqual(['skin 1', 'block 1']);
  expect(counting(saved(recipe('mine', 1), skin), dropped('mine'))).toEqual(['skin 1', 'block 1']);
});

it('a version’s number never means anything else again', () => {
  const [skin = recipe('skin', 1)] = SHIPPED;
  const events = [saved(recipe('skin', 2), skin), saved(recipe('skin', 3), recipe('skin', 2)), dropped('skin')];
  expect(nextVersion(after().recipes, skin)).toBe(2);
  expect(nextVersion(after(...events).recipes, skin)).toBe(4);
  expect(
    after(...events)
      .recipes.get('skin')
      ?.saved.map((each) => [each.recipe.version, each.dropped?.by]),
  ).toEqual([
    [2, undefined],
    [3, 'kim'],
  ]);
});

it('recipes are kept whole, so they come back from the disk as they were', () => {
  const event = saved(recipe('skin', 2, 'Wax twice'), recipe('skin', 1));
  expect(studioEvent.parse(JSON.parse(JSON.stringify(event)))).toEqual(event);
});

it('of two who change a recipe at once, the second decides on what the first has made of it', async () => {
  const disk = new Disk();
  const open = () => openHouse(disk, new StandingClock(t('08:00')), studio(), async () => 'sent');
  const house = open();
  const add = (title: string) => (now: ReturnType<typeof studio>) => {
    const before = recipesOf(now, SHIPPED)[0] as Recipe;
    const step = { ...recipe('skin', 1, title).steps[0], id: title } as Recipe['steps'][number];
    return [saved({ ...before, version: nextVersion(now.recipes, before), steps: [...before.steps, step] }, before)];
  };
  await Promise.all(['a', 'b', 'c', 'd'].map((title) => house.changeStudio(add(title))));
  const [skin] = recipesOf(await open().studio(), SHIPPED);
  expect(skin?.version).toBe(5);
  expect(skin?.steps.map(({ id }) => id).sort()).toEqual(['a', 'b', 'c', 'd', 'wax']);
});

it('logs from before recipes had versions and checks are read as ever', () => {
  // As they were written then, field for field.
  const old = {
    version: 1,
    at: t('08:00'),
    enteredAt: t('08:00'),
    by: 'dana',
    job: 'lion',
    type: 'JobStarted',
    name: 'Lion head',
    recipe: { id: 'skin-paste', name: 'Brushed skin, paste shell' },
    steps: [
      { id: 'seal', title: 'Seal', kind: 'prepare', handsMinutes: 30, advice: 'Thinly.', material: null },
      { id: 'wax', title: 'Wax', kind: 'finish', handsMinutes: 15, advice: null, material: null },
    ].map((step) => ({ ...step, layerMillimetres: null, grams: null, wait: null })),
    areaSquareMetres: null,
    holder: 'dana',
  };
  const { job } = given(benchEvent.parse(JSON.parse(JSON.stringify(old))));
  expect(job.recipe).toEqual({ ...old.recipe, version: null });
  expect(job.steps.map(({ plan }) => plan.check)).toEqual([null, null]);
  expect(recipeText(job)).toEqual(say`${'Brushed skin, paste shell'}`);
  const set = studioEvent.parse({ version: 1, type: 'MaterialsLoaded', at: t('08:00'), by: 'dana', text: null });
  expect(studioAfter(studio(), [set]).recipes.size).toBe(0);
});
