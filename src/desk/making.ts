import { amountReason } from '../cards/area-card.ts';
import type { PlannedStep } from '../job/events.ts';
import { type LaidOut, laidOut, type Roles } from '../job/laid-out.ts';
import { layersOf } from '../job/layers-of.ts';
import { plannedSteps } from '../job/planned.ts';
import { type Recipe, rolesOf } from '../job/recipe.ts';
import type { Concern } from '../trade/compatibility/concerns.ts';
import type { Cover } from '../trade/cover/cover.ts';
import { type Coverage, coverageOf } from '../trade/cover/coverage.ts';
import type { Material, Use } from '../trade/material.ts';
import { isRefusal, type Refusal } from '../words/refusal.ts';
import type { Text } from '../words/text.ts';
import { concernsOfJob, onLiving } from './contacts.ts';
import { type CoverInput, coverFor, coverTyped } from './covering.ts';
import type { Desk } from './desk.ts';
import { again, type Kept, line, type Typed } from './examples.ts';
import { leftOutLines, recipeFor } from './recipe-for.ts';
import { materialFor } from './resolve.ts';
import { bodyOf, type Sized, type SizeInput, sizeTyped } from './sizing.ts';

/** What is to be made, of what, and how big: as `/job start` and `/plan` are told. */
export interface MakingInput extends SizeInput, CoverInput {
  readonly recipe?: string | undefined;
  readonly detail?: string | undefined;
  readonly skin?: string | undefined;
  readonly shell?: string | undefined;
  readonly casting?: string | undefined;
  readonly thickness?: Kept<number> | undefined;
  readonly backing?: Kept<number> | undefined;
  readonly surface?: string | undefined;
}

/** A job that could begin: its steps, laid out with the amounts that they take. */
export interface Making {
  readonly recipe: Recipe;
  readonly laid: LaidOut;
  readonly steps: readonly PlannedStep[];
  readonly sized: Sized | null;
  readonly cover: Cover | null;
  /** Null where no size is known, or where a density is missing. */
  readonly coverage: Coverage | null;
  /** Why it takes so much; null where no size is known. */
  readonly reason: Text | null;
  readonly surface: string | null;
  readonly concerns: readonly Concern[];
  /** A line for each material that the recipe has no use for. */
  readonly leftOut: readonly Text[];
}

/** The options of a making as they were typed. */
export const makingTyped = (input: MakingInput): Typed => ({
  recipe: input.recipe,
  detail: input.detail,
  skin: input.skin,
  shell: input.shell,
  casting: input.casting,
  surface: input.surface,
  thickness: input.thickness?.typed,
  backing: input.backing?.typed,
  ...coverTyped(input),
  ...sizeTyped(input),
});

/**
 * Reads and lays out what is to be made; stores nothing. `asked`: the command, and what else its examples need. Refusals: those of the
 * recipe, of its materials, of the size, and of what would harm.
 */
export async function makingOf(
  desk: Desk,
  input: MakingInput,
  asked: { readonly command: string; readonly options: Typed },
): Promise<Making | Refusal> {
  const { detail, skin, shell, casting } = input;
  const typed: Typed = { detail, skin, shell, casting };
  const others: Typed = { ...asked.options, ...makingTyped(input) };
  const lineWith = (more: Typed) => line(asked.command, { ...others, ...more });
  const recipe = recipeFor(desk, input.recipe, typed, (id) => lineWith({ recipe: id }));
  if (isRefusal(recipe)) return recipe;
  const surface = input.surface?.trim() || null;
  const living = onLiving(input.surface, lineWith({ surface: 'wood, shellac' }));
  if (living) return living;
  const roles = rolesFor(desk, recipe, typed, lineWith);
  if (isRefusal(roles)) return roles;
  const sized = await bodyOf(desk, input, { command: asked.command, options: others });
  if (isRefusal(sized)) return sized;
  const cover = sized && coverFor(sized, input, lineWith);
  if (isRefusal(cover)) return cover;
  const wastePercent = input.waste?.value ?? desk.studio.wastePercent;
  const laid = laidOut(recipe, roles, {
    skinMillimetres: input.thickness?.value ?? null,
    shellMillimetres: input.backing?.value ?? null,
    body: sized?.body ?? null,
  });
  if (isRefusal(laid)) return again(laid, { example: lineWith({ thickness: laid.example }) });
  const steps = plannedSteps(laid, { cover, wastePercent });
  if (isRefusal(steps)) return steps;
  const coverage = sized && cover && coverageOf(sized.body, layersOf(laid, cover), wastePercent, desk.studio.scale);
  // Where a density is missing the amounts are nobody's to tell, and the job goes on without.
  const known = isRefusal(coverage) ? null : coverage;
  return {
    recipe,
    laid,
    steps,
    sized,
    cover,
    coverage: known,
    reason: sized && cover && amountReason({ ...sized, cover, coverage: known, studio: desk.studio }),
    surface,
    concerns: concernsOfJob({ surface, steps }, desk),
    leftOut: leftOutLines(recipe, typed),
  };
}

/** A detail coat may be of the skin's own material; the casting is often chosen only when the mould is open. */
const mayBeLeft = (role: Use) => role === 'detail' || role === 'casting';

/** A material that would do, so that an example is whole. */
const anyFor = ({ materials }: Desk, role: Use): string | undefined => materials.find(({ use }) => use.includes(role))?.id;

/** The materials for a recipe's roles. Refusals: `skin-missing` and the like, `unknown-material`, `wrong-use`. */
function rolesFor(desk: Desk, recipe: Recipe, typed: Typed, lineWith: (more: Typed) => string): Roles | Refusal {
  const roles: Partial<Record<Use, Material>> = {};
  for (const role of rolesOf(recipe)) {
    if (mayBeLeft(role) && typed[role] === undefined) continue;
    const others = Object.fromEntries(
      rolesOf(recipe).flatMap((other) =>
        other === role || mayBeLeft(other) || typed[other] !== undefined ? [] : [[other, anyFor(desk, other)]],
      ),
    );
    const material = materialFor(desk, role, typed[role], (id) => lineWith({ ...others, [role]: id }));
    if (isRefusal(material)) return material;
    roles[role] = material;
  }
  return roles;
}
