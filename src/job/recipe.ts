import type { BlockRule, LayerRule } from '../trade/cover/skin.ts';
import type { ShellKind, Use } from '../trade/material.ts';

/** The list of steps that a kind of job follows. */
export interface Recipe {
  readonly id: string;
  readonly name: string;
  readonly summary: string;
  /** 1 as the files have it; each change from chat makes the next one. */
  readonly version: number;
  /** How its shell is built: what a recipe is chosen by where nobody names one. Null: it has none, or nobody said. */
  readonly shell: ShellKind | null;
  readonly steps: readonly RecipeStep[];
}

export const STEP_KINDS = ['prepare', 'coat', 'shell', 'finish', 'demould', 'cast'] as const;
/**
 * `prepare`: before the first coat. `coat`: adds one layer of skin. `shell`: adds rigid backing. `finish`: trimming,
 * waxing, washing. `demould`: the mould opens. `cast`: a casting is poured (a block pour of the mould itself is a `shell`).
 */
export type StepKind = (typeof STEP_KINDS)[number];

/** One piece of work: hands-on minutes, then a wait. */
export interface RecipeStep {
  readonly id: string;
  readonly title: string;
  readonly kind: StepKind;
  readonly handsMinutes: number;
  /** The role whose material this step uses up; null for bare handiwork. */
  readonly role: Use | null;
  /** How thick a layer it adds; null where it adds none. */
  readonly layer: LayerRule | BlockRule | null;
  /** What must pass before the next step; `recoat` and `cure` take the material's own times. */
  readonly wait: RecipeWait;
  /** What to have in mind while doing it. */
  readonly advice: string | null;
  /** What must be true before the next step begins. */
  readonly check: string | null;
}

/** The hands-on time of all steps. */
export const handsOnMinutes = ({ steps }: Pick<Recipe, 'steps'>): number =>
  steps.reduce((sum, { handsMinutes }) => sum + handsMinutes, 0);

/** The roles whose material a recipe uses up, in the order of their first use. */
export const rolesOf = (recipe: Recipe): Use[] => [
  ...new Set(recipe.steps.flatMap((step) => (step.role === null ? [] : [step.role]))),
];

export type RecipeWait =
  | { readonly kind: 'none' }
  | { readonly kind: 'recoat' }
  | { readonly kind: 'cure' }
  | { readonly kind: 'fixed'; readonly fromMinutes: number; readonly untilMinutes: number | null };
