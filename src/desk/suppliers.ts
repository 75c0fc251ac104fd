import { openCups, openJobs } from '../bench/fold.ts';
import type { Offer, Suppliers } from '../chat/complete.ts';
import type { Desk } from './desk.ts';

/** What can stand for an option just now: the things of the studio and of this bench, the people known to it. */
export async function suppliersFor(desk: Desk, people: Iterable<string>): Promise<Suppliers> {
  const state = await desk.bench.state();
  const { duty } = desk.studio;
  const jobs = openJobs(state);
  const onDuty = [...duty.always, ...Object.values(duty.byShift).flat()];
  const named = ({ id, name }: { id: string; name: string }): Offer => ({ value: id, title: name });
  const bare = (value: string): Offer => ({ value, title: value });
  const all: Record<string, Offer[]> = {
    command: [...desk.commands.declarations.keys()].map(bare),
    material: desk.materials.map(named),
    recipe: desk.recipes.map(named),
    job: jobs.map(named),
    step: jobs.flatMap(({ name, steps }) =>
      steps.flatMap(({ done, plan }) => (done === null ? [{ value: plan.id, title: `${plan.title}, ${name}` }] : [])),
    ),
    cup: openCups(state).map(({ id, material }) => ({ value: id, title: material.name })),
    person: [...onDuty, ...jobs.map(({ holder }) => holder), ...people].map(bare),
  };
  return Object.fromEntries(Object.entries(all).map(([word, offers]) => [word, () => once(offers)]));
}

const once = (offers: readonly Offer[]): Offer[] => [...new Map(offers.map((offer) => [offer.value, offer])).values()];
