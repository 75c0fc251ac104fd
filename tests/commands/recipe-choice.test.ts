import { expect, test } from 'vitest';
import { recipeSchema } from '../../src/job/recipe-schema.ts';
import { roomEach } from '../support/room.ts';

const here = roomEach();
const last = async (...lines: string[]) => (await here.type(...lines)).at(-1);

// A laminating resin is rolled into mats, plaster is built up with scrim, a paste is spread. Common practice, no source.
test.each([
  ['shell-paste', 'skin-paste'],
  ['shell-epoxy', 'skin-paste'],
  ['laminate-polyester', 'skin-laminate'],
  ['laminate-epoxy', 'skin-laminate'],
  ['casting-plaster', 'skin-plaster'],
  ['polyester laminating resin', 'skin-laminate'],
])('a shell of %s takes %s, where no recipe is named', async (shell, recipe) => {
  const shown = await last(`/job start name:Lion skin:brush-urethane shell:${shell} area:0.4 m2`);
  expect(shown?.data['job']).toMatchObject({ recipe });
});

test('what a material is named for goes before how the shell is built', async () => {
  const shown = await last('/job start name:Lion detail:detail-urethane skin:brush-urethane shell:laminate-epoxy area:0.4 m2');
  expect(shown?.data['job']).toMatchObject({ recipe: 'skin-paste-fine' });
});

test('a recipe that is named is taken', async () => {
  const named = await last('/job start name:Lion recipe:skin-paste skin:brush-urethane shell:laminate-epoxy area:0.4 m2');
  expect(named?.data['job']).toMatchObject({ recipe: 'skin-paste' });
});

test('a recipe that was kept before recipes said so is read', () =>
  expect(recipeSchema.parse({ id: 'own', name: 'Own', summary: 'Some', version: 2, steps: [] }).shell).toBeNull());
