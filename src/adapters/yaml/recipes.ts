import type { z } from 'zod';
import { type Recipe, type RecipeStep, type RecipeWait, STEP_KINDS } from '../../job/recipe.ts';
import { MOST_LINE, MOST_STEPS, STEP_RULES, type StepFacts } from '../../job/recipe-checks.ts';
import { SHELL_KINDS, USES } from '../../trade/material.ts';
import { parseLength } from '../../trade/measures/quantity.ts';
import { isRefusal } from '../../words/refusal.ts';
import type { Kind } from './document.ts';
import { check, duration, either, field, handsOn, id, length, list, name, oneOf, strict, text } from './fields.ts';

const EXAMPLE = `
recipes:
  - id: two-coats
    name: Two coats
    summary: A skin of two brushed coats
    steps:
      - { id: coat-1, title: First coat, kind: coat, hands: 15 min, role: skin, layer: 0.7 x, wait: recoat, advice: Thin and without bubbles., check: Tacky; nothing on the glove. }
      - { id: coat-2, title: Second coat, kind: coat, hands: 15 min, role: skin, layer: 1 mm, wait: { from: 15 min, until: 4 h } }
  - id: one-pour
    name: One pour
    summary: A block around the boxed model
    steps:
      - { id: pour, title: Pour, kind: shell, hands: 25 min, role: skin, block: 12 mm, wait: cure }
`;

const layer = field('a thickness such as "1 mm", or times the usual coat such as "0.7 x"', (value) => {
  if (typeof value !== 'string') return undefined;
  const times = Number(/^(\d+(?:\.\d+)?)\s*[x×]$/.exec(value.trim())?.[1] ?? Number.NaN);
  if (times > 0) return { timesUsualCoat: times };
  const millimetres = /[^\d\s.,+-]/.test(value) ? parseLength(value) : undefined;
  return typeof millimetres === 'number' && !isRefusal(millimetres) && millimetres > 0 ? { millimetres } : undefined;
});

const named = field('recoat, cure, none or a mapping with from and until', (value): RecipeWait | undefined =>
  value === 'recoat' || value === 'cure' || value === 'none' ? { kind: value } : undefined,
);

const fixed = strict({ from: duration, until: duration.optional() }).transform(
  ({ from, until }): RecipeWait => ({ kind: 'fixed', fromMinutes: from, untilMinutes: until ?? null }),
);

const step = strict({
  id,
  title: name('a title'),
  kind: oneOf(STEP_KINDS),
  hands: handsOn,
  role: oneOf(USES).optional(),
  layer: layer.optional(),
  /** The wall of a block that is poured around the model. */
  block: length.optional(),
  wait: either(named, fixed),
  advice: text('a line of advice').optional(),
  check: name('what must be true before the next step', MOST_LINE).optional(),
});

type Entry = z.output<typeof step>;

const factsOf = ({ role, layer: added, block, ...entry }: Entry): StepFacts => ({
  ...entry,
  role: role ?? null,
  layer: added ?? null,
  block: block ?? null,
});

const needs = STEP_RULES.map(({ about, fault }) =>
  check<Entry>(about, (entry, report) => {
    const found = fault(factsOf(entry));
    if (found) report(found.at, found.message, found.example);
  }),
);

const toStep = (entry: Entry): RecipeStep => ({
  id: entry.id,
  title: entry.title,
  kind: entry.kind,
  handsMinutes: entry.hands,
  role: entry.role ?? null,
  layer: entry.block === undefined ? (entry.layer ?? null) : { blockWallMillimetres: entry.block },
  wait: entry.wait,
  advice: entry.advice ?? null,
  check: entry.check ?? null,
});

const recipe = strict({
  id,
  name: name('a name'),
  summary: text('a line that says what it is for'),
  shell: oneOf(SHELL_KINDS).optional(),
  steps: list(step.check(...needs).transform(toStep), 1).max(MOST_STEPS, { error: `expected at most ${MOST_STEPS} steps` }),
}).transform(({ shell, ...entry }): Recipe => ({ ...entry, version: 1, shell: shell ?? null }));

/** recipes.yaml: the steps that each kind of job follows. */
export const recipesFile: Kind<Recipe[]> = {
  schema: strict({ recipes: list(recipe, 1) }).transform(({ recipes }) => recipes),
  example: EXAMPLE,
  short: 'recipes: [ { id: two-coats, name: Two coats, … } ]',
  unique: ['recipes', 'recipes.*.steps'],
};
