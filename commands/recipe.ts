import { recipeCard, recipeListCard } from '../src/cards/recipe-card.ts';
import { choice, text, whole } from '../src/chat/options.ts';
import { group, part } from '../src/desk/desk.ts';
import { line } from '../src/desk/examples.ts';
import { recipeNamed, versionNamed, viewOf } from '../src/desk/recipe-finding.ts';
import { copyRecipe, dropRecipe, goBack, historyOf, renameRecipe } from '../src/desk/recipe-keeping.ts';
import * as option from '../src/desk/recipe-options.ts';
import { addStep, editStep, moveStep, removeStep } from '../src/desk/recipe-stepping.ts';
import { STEP_KINDS } from '../src/job/recipe.ts';
import { USES } from '../src/trade/material.ts';
import { isRefusal } from '../src/words/refusal.ts';

const recipe = option.which;
const step = option.whichStep;
const version = option.meant;
const role = choice([...USES, 'none'], { about: 'The role whose material it uses up; none for bare handiwork' });

export default group({
  name: 'recipe',
  summary: 'The steps that jobs follow: look at them, and make them this studio’s own',
  commands: {
    list: part({
      summary: 'All recipes: how many steps, how much hands-on time, whose',
      options: {},
      examples: [],
      run: async (_, desk) => recipeListCard(desk.recipes.map((each) => viewOf(desk, desk.studio, each))),
    }),
    show: part({
      summary: 'All steps of a recipe: hands-on time, material and layer, wait, check',
      options: { recipe, version: whole({ least: 1, about: 'An earlier version; left out, the one that counts' }).optional() },
      examples: ['recipe:skin-paste', 'recipe:skin-paste version:1'],
      run: async (input, desk) => {
        const found = recipeNamed(desk, desk.studio, input.recipe, (more) =>
          line('recipe show', { recipe: input.recipe, ...more }),
        );
        if (isRefusal(found)) return found;
        if (input.version === undefined || input.version === found.version)
          return recipeCard(viewOf(desk, desk.studio, found), null);
        const asked = versionNamed(desk, desk.studio, found, input.version, (each) =>
          line('recipe show', { recipe: found.id, version: each }),
        );
        return isRefusal(asked) ? asked : recipeCard(viewOf(desk, desk.studio, asked), found);
      },
    }),
    copy: part({
      summary: 'Make a recipe of your own out of another',
      options: { recipe, name: option.name('What the new one is called') },
      examples: ['recipe:skin-paste name:Thin skin, paste shell'],
      run: (input, desk) => copyRecipe(desk, input),
    }),
    step: part({
      summary: 'Change one step: what is left out stays as it is',
      options: {
        recipe,
        step,
        hands: option.hands.optional(),
        wait: option.wait.optional(),
        thickness: option.thickness.optional(),
        check: option.check.optional(),
        advice: option.advice.optional(),
        title: option.name('What the step is called').optional(),
        role: role.optional(),
        version,
      },
      examples: [
        'recipe:skin-paste step:coat-1 hands:20 min check:tacky, no smear on the glove; no bubbles',
        'recipe:skin-paste step:wax wait:15 min to 4 h',
        'recipe:skin-paste step:shell thickness:8 mm role:shell title:Lay the thick shell advice:small cups',
      ],
      run: (input, desk) => editStep(desk, input),
    }),
    add: part({
      summary: 'Add a step; left out, its material, layer and wait are the usual ones of its kind',
      options: {
        recipe,
        title: option.name('What the step is called'),
        kind: choice(STEP_KINDS, { about: 'What kind of work it is' }),
        hands: option.hands,
        after: option.afterStep.optional(),
        wait: option.wait.optional(),
        thickness: option.thickness.optional(),
        role: role.optional(),
        check: option.check.optional(),
        advice: option.advice.optional(),
        version,
      },
      examples: [
        'recipe:skin-paste title:Second wax kind:finish hands:10 min after:wax wait:10 min',
        'recipe:skin-paste title:Fifth coat kind:coat hands:15 min after:coat-3 role:skin thickness:1 x check:tacky advice:thin',
      ],
      run: (input, desk) => addStep(desk, input),
    }),
    remove: part({
      summary: 'Take a step out',
      options: { recipe, step, version },
      examples: ['recipe:skin-paste step:wash'],
      run: (input, desk) => removeStep(desk, input),
    }),
    move: part({
      summary: 'Put a step to another place',
      options: { recipe, step, after: option.afterStep, version },
      examples: ['recipe:skin-paste step:trim after:wax'],
      run: (input, desk) => moveStep(desk, input),
    }),
    rename: part({
      summary: 'Call a recipe something else, or say anew what it is for; its id stays',
      options: {
        recipe,
        name: option.name('What it is called').optional(),
        summary: option.summary.optional(),
        version,
      },
      examples: ['recipe:skin-paste name:Our skin, paste shell', 'recipe:skin-paste summary:What we do for busts.'],
      run: (input, desk) => renameRecipe(desk, input),
    }),
    history: part({
      summary: 'Who changed a recipe, when, and what',
      options: { recipe },
      examples: ['recipe:skin-paste'],
      run: async (input, desk) => historyOf(desk, input.recipe),
    }),
    back: part({
      summary: 'Go back to an earlier version: it becomes the newest one',
      options: {
        recipe: text({ about: 'Which recipe; one that was dropped, too', complete: 'recipe' }),
        to: whole({ least: 1, about: 'Which version is to count again' }),
        version,
      },
      examples: ['recipe:skin-paste to:1'],
      run: (input, desk) => goBack(desk, input),
    }),
    drop: part({
      summary: 'Do away with the studio’s own recipe; the program’s counts again, if it has one',
      manage: true,
      options: { recipe: text({ about: 'Which of the studio’s own', complete: 'own-recipe' }), version },
      examples: ['recipe:skin-paste'],
      run: (input, desk) => dropRecipe(desk, input),
    }),
  },
});
