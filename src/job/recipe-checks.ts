import type { LayerRule } from '../trade/cover/skin.ts';
import { USES, type Use } from '../trade/material.ts';
import { minutesText } from '../trade/measures/format.ts';
import type { Recipe, RecipeStep, RecipeWait, StepKind } from './recipe.ts';

/** What decides whether a step can be, under the names that it has in recipes.yaml and in the chat. */
export interface StepFacts {
  readonly kind: StepKind;
  /** Minutes. */
  readonly hands: number;
  readonly role: Use | null;
  readonly layer: LayerRule | null;
  /** The wall of a poured block, in millimetres. */
  readonly block: number | null;
  readonly wait: RecipeWait;
}

/** What is wrong, in words of ours alone. */
export interface Fault {
  /** The field: `role`, `wait.until`. */
  readonly at: readonly string[];
  readonly message: string;
  /** What would do there, where that can be worked out. */
  readonly example?: string;
}

interface StepRule {
  /** The fields that it looks at: it can be asked as soon as these are right. */
  readonly about: readonly (keyof StepFacts)[];
  readonly fault: (step: StepFacts) => Fault | null;
}

/** Longer names do not fit in a line of a card. */
export const MOST_NAME = 60;
/** Longer lines are not read with gloves on. */
export const MOST_LINE = 200;
/** More steps than anybody follows, and than one card can show. */
export const MOST_STEPS = 60;
/** More than a day of hands-on time is two steps. */
const MOST_HANDS_MINUTES = 24 * 60;
/** A coat runs off long before; what is thicker is a shell, or poured. Common practice, no source. */
const MOST_COAT_MILLIMETRES = 20;
/** Plaster may dry for weeks; beyond a year it is a slip. */
const MOST_WAIT_MINUTES = 366 * 24 * 60;

const oneOfTheRoles = `expected one of ${USES.join(', ')}, got nothing`;

/** What a step must be by itself: the same for a file and for a line of chat. */
export const STEP_RULES: readonly StepRule[] = [
  {
    about: ['kind', 'role'],
    fault: ({ kind, role }) =>
      kind === 'coat' && role === null ? { at: ['role'], message: `${oneOfTheRoles}: a coat uses up a material` } : null,
  },
  {
    about: ['kind', 'layer'],
    fault: ({ kind, layer, block }) =>
      kind === 'coat' && layer === null && block === null
        ? { at: ['layer'], message: 'expected a thickness, got nothing: a coat adds a layer' }
        : null,
  },
  {
    about: ['kind', 'layer'],
    fault: ({ kind, layer }) =>
      kind === 'coat' && layer !== null && 'millimetres' in layer && layer.millimetres > MOST_COAT_MILLIMETRES
        ? {
            at: ['layer'],
            message: `expected a coat of at most ${MOST_COAT_MILLIMETRES} mm, got ${Number(layer.millimetres.toPrecision(4))} mm`,
            example: '1 mm',
          }
        : null,
  },
  {
    about: ['kind', 'layer', 'role', 'block'],
    fault: ({ kind, layer, role, block }) => {
      if (block === null) return null;
      if (layer !== null) return { at: ['block'], message: 'expected a layer or a block, got both: a step adds one of them' };
      if (kind !== 'shell')
        return { at: ['block'], message: 'expected a layer, got a block: a block is poured in a step of the kind shell' };
      return role === null ? { at: ['role'], message: `${oneOfTheRoles}: a block uses up a material` } : null;
    },
  },
  {
    about: ['kind', 'role', 'wait'],
    fault: ({ kind, role, wait }) =>
      kind !== 'coat' && role === null && (wait.kind === 'recoat' || wait.kind === 'cure')
        ? {
            at: ['role'],
            message: `${oneOfTheRoles}: a wait for ${wait.kind} takes its time from that role's material`,
          }
        : null,
  },
  {
    about: ['wait'],
    fault: ({ wait }) => {
      if (wait.kind !== 'fixed') return null;
      const { fromMinutes, untilMinutes } = wait;
      if (untilMinutes === null || untilMinutes > fromMinutes) return null;
      return {
        at: ['wait', 'until'],
        message: `expected until to be longer than from, got ${untilMinutes} min and ${fromMinutes} min`,
        example: `${fromMinutes * 2} min`,
      };
    },
  },
  {
    about: ['wait'],
    fault: ({ wait }) =>
      wait.kind === 'fixed' && Math.max(wait.fromMinutes, wait.untilMinutes ?? 0) > MOST_WAIT_MINUTES
        ? { at: ['wait'], message: `expected a wait of at most a year, got ${longest(wait)}`, example: '24 h' }
        : null,
  },
  {
    about: ['hands'],
    fault: ({ hands }) =>
      hands > MOST_HANDS_MINUTES
        ? { at: ['hands'], message: `expected at most 24 h of hands-on time, got ${minutesText(hands)}`, example: '2 h' }
        : null,
  },
];

const longest = (wait: Extract<RecipeWait, { kind: 'fixed' }>) => minutesText(Math.max(wait.fromMinutes, wait.untilMinutes ?? 0));

/** A step in the names of its file. */
const factsOf = ({ kind, handsMinutes, role, layer, wait }: RecipeStep): StepFacts => ({
  kind,
  hands: handsMinutes,
  role,
  layer: layer !== null && !('blockWallMillimetres' in layer) ? layer : null,
  block: layer !== null && 'blockWallMillimetres' in layer ? layer.blockWallMillimetres : null,
  wait,
});

/** All that is wrong with a recipe, of which step; `step` is null where it is the recipe itself. Empty: it can be followed. */
export function recipeFaults({ name, steps }: Recipe): { step: RecipeStep | null; fault: Fault }[] {
  const whole: Fault[] = [
    ...(name.trim() === '' || [...name].length > MOST_NAME ? [sized('name', name)] : []),
    ...(steps.length === 0 ? [{ at: ['steps'], message: 'expected at least one step, got none' }] : []),
    ...(steps.length > MOST_STEPS
      ? [{ at: ['steps'], message: `expected at most ${MOST_STEPS} steps, got ${steps.length}` }]
      : []),
  ];
  return [
    ...whole.map((fault) => ({ step: null, fault })),
    ...steps.flatMap((step, index) =>
      faultsOfStep(step, steps.findIndex(({ id }) => id === step.id) < index).map((fault) => ({ step, fault })),
    ),
  ];
}

function faultsOfStep(step: RecipeStep, isTaken: boolean): Fault[] {
  const { handsMinutes, layer, wait } = step;
  const sizes = [
    handsMinutes >= 0,
    wait.kind !== 'fixed' || wait.fromMinutes > 0,
    layer === null || Object.values(layer).every((size: number) => size > 0),
  ];
  return [
    ...(isTaken ? [{ at: ['id'], message: 'expected an id of its own, got one that is taken further up' }] : []),
    ...(step.title.trim() === '' || [...step.title].length > MOST_NAME ? [sized('title', step.title)] : []),
    ...(['hands', 'wait', 'layer'] as const).flatMap((at, index) =>
      sizes[index] ? [] : [{ at: [at], message: `expected ${at === 'hands' ? 'no less than nothing' : 'more than nothing'}` }],
    ),
    ...STEP_RULES.flatMap(({ fault }) => fault(factsOf(step)) ?? []),
  ];
}

const sized = (at: string, text: string): Fault => ({
  at: [at],
  message: `expected 1 to ${MOST_NAME} characters, got ${[...text.trim()].length}`,
});
