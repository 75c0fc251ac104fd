import { openCups, openJobs } from '../../bench/fold.ts';
import type { House } from '../../bench/house.ts';
import type { Suppliers } from '../../chat/complete.ts';
import type { Registry } from '../../chat/registry.ts';
import type { Desk } from '../../desk/desk.ts';
import type { Recipe } from '../../job/recipe.ts';
import type { Material } from '../../trade/material.ts';

/** What can stand for an option just now: the things of the studio and of this bench, the people known to it. */
export async function suppliersFor(parts: {
  house: House;
  channel: string;
  speakers: Iterable<string>;
  materials: readonly Material[];
  recipes: readonly Recipe[];
  commands: Registry<Desk>;
}): Promise<Suppliers> {
  const [state, { duty }] = await Promise.all([parts.house.bench(parts.channel).state(), parts.house.studio()]);
  const jobs = openJobs(state);
  const onDuty = [...duty.always, ...Object.values(duty.byShift).flat()];
  const all = {
    command: [...parts.commands.declarations.keys()],
    material: parts.materials.map(({ id }) => id),
    recipe: parts.recipes.map(({ id }) => id),
    job: jobs.map(({ id }) => id),
    step: jobs.flatMap(({ steps }) => steps.filter(({ done }) => done === null).map(({ plan }) => plan.id)),
    cup: openCups(state).map(({ id }) => id),
    person: [...onDuty, ...jobs.map(({ holder }) => holder), ...parts.speakers],
  };
  return Object.fromEntries(Object.entries(all).map(([word, values]) => [word, () => [...new Set(values)]]));
}
