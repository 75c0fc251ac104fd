import { type BenchState, openJobs } from '../bench/fold.ts';
import { amountReason } from '../cards/area-card.ts';
import { startCard } from '../cards/start-card.ts';
import type { Card } from '../chat/card.ts';
import { laidOut, type Roles } from '../job/laid-out.ts';
import { layersOf, unknownBlock } from '../job/layers-of.ts';
import { plannedSteps } from '../job/planned.ts';
import { type Recipe, rolesOf } from '../job/recipe.ts';
import { coverageOf } from '../trade/cover/coverage.ts';
import type { Material, Use } from '../trade/material.ts';
import { named } from '../words/nearest.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { say } from '../words/text.ts';
import { concernsOfJob, onLiving } from './contacts.ts';
import { type CoverInput, coverFor, coverTyped } from './covering.ts';
import type { Desk } from './desk.ts';
import { again, type Kept, line, startLine, type Typed } from './examples.ts';
import { leftOutLines, recipeFor } from './recipe-for.ts';
import { materialFor } from './resolve.ts';
import { bodyOf, type SizeInput, sizeTyped } from './sizing.ts';

export interface StartInput extends SizeInput, CoverInput {
  readonly name: string;
  readonly recipe?: string | undefined;
  readonly detail?: string | undefined;
  readonly skin?: string | undefined;
  readonly shell?: string | undefined;
  readonly casting?: string | undefined;
  readonly thickness?: Kept<number> | undefined;
  readonly backing?: Kept<number> | undefined;
  readonly surface?: string | undefined;
  readonly holder?: string | undefined;
}

/** Begins a job: its steps are laid out once, with the amounts that they take, and stay so. */
export async function startJob(desk: Desk, input: StartInput): Promise<Card | Refusal> {
  const { name, detail, skin, shell, casting, surface, holder } = input;
  const typed: Typed = { detail, skin, shell, casting };
  const others: Typed = {
    name,
    recipe: input.recipe,
    ...typed,
    surface,
    holder,
    thickness: input.thickness?.typed,
    backing: input.backing?.typed,
    ...coverTyped(input),
  };
  const lineWith = (more: Typed) => line('job start', { ...others, ...sizeTyped(input), ...more });
  const recipe = recipeFor(desk, input.recipe, typed, (id) => lineWith({ recipe: id }));
  if (isRefusal(recipe)) return recipe;
  if (name.trim() === '') return new Refusal('name-missing', say`A job needs a name.`, { example: startLine(desk) });
  const living = onLiving(surface, lineWith({ surface: 'wood, shellac' }));
  if (living) return living;
  const roles = rolesFor(desk, recipe, typed);
  if (isRefusal(roles)) return roles;
  const sized = await bodyOf(desk, input, { command: 'job start', options: others });
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
  // All that may go wrong goes wrong before anything is stored.
  const coverage = sized && cover && coverageOf(sized.body, layersOf(laid, cover), wastePercent, desk.studio.scale);
  // Where a density is missing the amounts are nobody's to tell, and the job goes on without.
  const known = isRefusal(coverage) ? null : coverage;
  const reason = sized && cover && amountReason({ ...sized, cover, coverage: known, studio: desk.studio });
  const concerns = concernsOfJob({ surface: surface?.trim() || null, steps }, desk);
  const decided = await desk.bench.decide((state) => [
    {
      version: 1 as const,
      type: 'JobStarted' as const,
      at: desk.now,
      enteredAt: desk.now,
      by: desk.who,
      ...calledFor(name.trim(), state),
      recipe: { id: recipe.id, name: recipe.name },
      steps,
      areaSquareMetres: cover?.areaSquareMetres ?? null,
      volumeLitres: sized?.body.volumeLitres ?? null,
      surface: surface?.trim() || null,
      holder: holder ?? desk.who,
    },
  ]);
  if (isRefusal(decided)) return decided;
  const event = decided.events[0];
  const job = event?.type === 'JobStarted' ? decided.state.jobs.get(event.job) : undefined;
  if (!job) throw new Error('a job that was started is not on the bench');
  return startCard({
    job,
    state: decided.state,
    studio: desk.studio,
    now: desk.now,
    covered: sized && cover && reason && { ...sized, cover, coverage: known, reason },
    unknownBlock: unknownBlock(laid),
    splits: laid.splits,
    leftOut: leftOutLines(recipe, typed),
    concerns,
    who: desk.who,
  });
}

/** A detail coat may be of the skin's own material; the casting is often chosen only when the mould is open. */
const mayBeLeft = (role: Use) => role === 'detail' || role === 'casting';

/** The materials for a recipe's roles. Refusals: `skin-missing` and the like, `unknown-material`, `wrong-use`. */
function rolesFor(desk: Desk, recipe: Recipe, typed: Typed): Roles | Refusal {
  const roles: Partial<Record<Use, Material>> = {};
  for (const role of rolesOf(recipe)) {
    if (mayBeLeft(role) && typed[role] === undefined) continue;
    const material = materialFor(desk, role, typed[role]);
    if (isRefusal(material)) return material;
    roles[role] = material;
  }
  return roles;
}

/**
 * A short id that can be typed with gloves on: the name in small letters, numbered where it is taken. While an open job has
 * the name, the number belongs to the name as well: "Lion head 2".
 */
function calledFor(name: string, state: BenchState): { job: string; name: string } {
  const slug =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 24)
      .replace(/-+$/, '') || 'job';
  const isOpenName = (each: string) =>
    named(
      each,
      openJobs(state).map((job) => job.name),
    ) !== undefined;
  for (let number = 1; ; number += 1) {
    const job = number === 1 ? slug : `${slug}-${number}`;
    const numbered = number === 1 || !isOpenName(name) ? name : `${name} ${number}`;
    if (!state.jobs.has(job) && !isOpenName(numbered)) return { job, name: numbered };
  }
}
