import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Recipe, RecipeStep } from '../../src/job/recipe.ts';
import { code, room } from '../support/room.ts';

/** What is typed of recipes, right and wrong, in any order. */

const STEPS = ['seal', 'coat-1', 'coat-2', 'coat-4', 'trim', 'shell', 'cast', '1', '3', '12', 'first coat', 'Look', 'nonsense'];
const HANDS = ['0 min', '15 min', '1,5 h', '25 h', '20', 'soon'];
const WAITS = ['recoat', 'cure', 'none', '15 min', '15 min to 4 h', '4 h - 15 min', '10-20 min', 'overnight'];
const THICKNESSES = ['0.8 mm', '0,5 x', '1 x', 'block 12 mm', 'none', '0,8', '-1 mm'];
const ROLES = ['detail', 'skin', 'shell', 'casting', 'none', 'lid'];
const KINDS = ['prepare', 'coat', 'shell', 'finish', 'demould', 'cast'];

const maybe = (name: string, values: readonly string[]) =>
  fc.option(fc.constantFrom(...values), { freq: 2 }).map((value) => (value === null ? '' : ` ${name}:${value}`));
const must = (name: string, values: readonly string[]) => fc.constantFrom(...values).map((value) => ` ${name}:${value}`);
const joined = (command: string, ...options: fc.Arbitrary<string>[]) =>
  fc.tuple(...options).map((each) => `/recipe ${command} recipe:skin-paste${each.join('')}`);

const edit = fc.oneof(
  {
    weight: 4,
    arbitrary: joined(
      'step',
      must('step', STEPS),
      maybe('hands', HANDS),
      maybe('wait', WAITS),
      maybe('thickness', THICKNESSES),
      maybe('role', ROLES),
    ),
  },
  {
    weight: 3,
    arbitrary: joined(
      'add',
      must('title', ['Look', 'Second wax', '!!', 'First coat']),
      must('kind', KINDS),
      must('hands', HANDS),
      maybe('after', [...STEPS, 'start']),
      maybe('wait', WAITS),
      maybe('thickness', THICKNESSES),
      maybe('role', ROLES),
    ),
  },
  { weight: 3, arbitrary: joined('remove', must('step', STEPS)) },
  { weight: 2, arbitrary: joined('move', must('step', STEPS), must('after', [...STEPS, 'start'])) },
  { weight: 1, arbitrary: joined('back', must('to', ['1', '2', '3', '9'])) },
  { weight: 1, arbitrary: joined('drop') },
);

/** What a recipe must be, said apart from the program: after the words of the head of config/recipes.yaml. */
function sound({ steps }: Recipe): string[] {
  const wrong = ({ kind, handsMinutes, role, layer, wait }: RecipeStep): string[] => [
    ...(kind === 'coat' && (role === null || layer === null) ? ['a coat lays something'] : []),
    ...(layer && 'blockWallMillimetres' in layer && (kind !== 'shell' || role === null) ? ['a block is poured'] : []),
    ...(layer && role === null ? ['a layer is of something'] : []),
    ...((wait.kind === 'recoat' || wait.kind === 'cure') && role === null ? ['what cures is a material'] : []),
    ...(wait.kind === 'fixed' && !((wait.untilMinutes ?? Infinity) > wait.fromMinutes && wait.fromMinutes > 0)
      ? ['a window opens']
      : []),
    ...(handsMinutes >= 0 && handsMinutes <= 24 * 60 ? [] : ['hands take up to a day']),
  ];
  const ids = steps.map(({ id }) => id);
  return [
    ...(steps.length === 0 ? ['no step'] : []),
    ...(new Set(ids).size === ids.length ? [] : ['an id twice']),
    ...steps.flatMap(wrong),
  ];
}

it('whatever is taken gives a recipe that a job can follow; whatever is refused changes nothing', async () => {
  let taken = 0;
  let refused = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 4, maxLength: 12 }), async (lines) => {
      const { type, close, troubles } = await room();
      const look = async () => {
        const [shown] = await type('/recipe show skin-paste');
        const [history] = await type('/recipe history skin-paste');
        return { recipe: shown?.data['recipe'] as Recipe, text: `${shown?.text}\n${history?.text}` };
      };
      let before = await look();
      const seen = [before.recipe.version];
      for (const line of lines) {
        const [answer] = await type(line);
        const after = await look();
        if (answer?.kind === 'refusal') {
          refused += 1;
          expect(after, line).toEqual(before);
        } else {
          taken += 1;
          expect(sound(after.recipe), line).toEqual([]);
          // A number means one recipe; only a drop goes back to the program's.
          if (line.startsWith('/recipe drop')) expect(after.recipe.version).toBe(1);
          else expect(after.recipe.version, line).toBe(Math.max(...seen) + 1);
        }
        seen.push(after.recipe.version);
        before = after;
      }
      const materials = 'detail:detail-urethane skin:brush-urethane shell:shell-paste casting:cast-resin-fast';
      const [started] = await type(`/job start name:Fox recipe:skin-paste ${materials} area:0.4 m2`);
      // What a material cannot do is said when the job begins, of that material.
      if (started?.kind === 'refusal') expect(['time-missing', 'coat-too-thick']).toContain(code(started));
      else expect(started?.data['job']).toMatchObject({ recipe: 'skin-paste', recipeVersion: before.recipe.version });
      expect(troubles).toEqual([]);
      await close();
    }),
    { numRuns: 25 },
  );
  // Neither of them all the time.
  expect(Math.min(taken, refused)).toBeGreaterThan(20);
}, 120_000);
