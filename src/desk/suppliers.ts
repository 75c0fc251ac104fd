import { type BenchState, openCups, openJobs } from '../bench/fold.ts';
import type { Asking, Offer, Suppliers } from '../chat/complete.ts';
import { plainText } from '../chat/plain.ts';
import { isOpen, type JobState } from '../job/state.ts';
import { isCastable, isGypsum, isLaminatingResin, type Material, USES, type Use } from '../trade/material.ts';
import { named } from '../words/nearest.ts';
import { clock } from '../words/text.ts';
import type { Desk } from './desk.ts';
import { pingOffers } from './offered-pings.ts';
import { undoOffers } from './offered-undos.ts';

/** What a person is called, where it is known. */
type Called = (id: string) => string | undefined;

/**
 * What can stand for an option just now, the likeliest first: the things of the studio and of this bench, the people known
 * to it. What the other options say narrows it. These are the words that an option may `complete` with.
 */
export async function suppliersFor(desk: Desk, people: Iterable<string>, called: Called = () => undefined): Promise<Suppliers> {
  const [state, log] = await Promise.all([desk.bench.state(), desk.bench.log()]);
  const { duty, zone } = desk.studio;
  const jobs = openJobs(state);
  const all = [...state.jobs.values()];
  const closed = all.filter((job) => !isOpen(job)).reverse();
  const onDuty = [...duty.always, ...Object.values(duty.byShift).flat()];
  const materials = (fits: (material: Material) => boolean) => (asking: Asking) =>
    materialsFor(desk.materials.filter(fits), jobMeant(state, asking), asking).map(thing);
  const at = (when: number) => plainText([clock(when)], { zone, now: desk.now });
  return {
    command: ({ typed }) => topics(desk, typed).map(bare),
    material: materials(() => true),
    gypsum: materials(isGypsum),
    'laminating-resin': materials(isLaminatingResin),
    castable: materials(isCastable),
    recipe: () => desk.recipes.map(thing),
    'own-recipe': () => desk.recipes.filter((recipe) => !desk.shippedRecipes.includes(recipe)).map(thing),
    'recipe-step': ({ others }) => stepsOfRecipe(desk, others['recipe']),
    job: () => jobs.map(jobOffer),
    'active-job': () => jobs.filter(({ status }) => status === 'active').map(jobOffer),
    'held-job': () => jobs.filter(({ status }) => status === 'held').map(thing),
    'any-job': () => [...jobs, ...closed].map(jobOffer),
    step: (asking) => stepsOf(jobMeant(state, asking), jobs),
    cup: (asking) => cupsFor(state, asking, at),
    person: () => once([...onDuty, ...jobs.map(({ holder }) => holder), ...people].map(bare)),
    ping: () => pingOffers(state, desk, at),
    entry: (asking) => undoOffers(log, state, { desk, job: asking.others['job'] ? jobMeant(state, asking) : null, at, called }),
  };
}

const bare = (value: string): Offer => ({ value, title: value });
const thing = ({ id, name }: { id: string; name: string }): Offer => ({ value: id, title: name });

const STATUS = { active: '', held: ', on hold', finished: ', finished', closed: ', closed' } as const;
const jobOffer = ({ id, name, status }: JobState): Offer => ({ value: id, title: `${name}${STATUS[status]}` });

const once = (offers: readonly Offer[]): Offer[] =>
  offers.filter(({ value }, index) => offers.findIndex((other) => other.value === value) === index);

/** The job that the line names, or the only open one. */
function jobMeant(state: BenchState, { others }: Asking): JobState | null {
  const typed = others['job'];
  const open = openJobs(state);
  if (typed === undefined) return (open.length === 1 ? open[0] : undefined) ?? null;
  const jobs = [...open, ...[...state.jobs.values()].filter((job) => !isOpen(job))];
  return jobs.find(({ id }) => named(typed, [id])) ?? jobs.find(({ name }) => named(typed, [name])) ?? null;
}

/** All commands and groups; their parts, which are many more, only once something is typed. */
function topics({ commands: { entries } }: Desk, typed: string): string[] {
  const parts = entries.flatMap(({ grouped, declarations }) => (grouped ? declarations.map(({ path }) => path) : []));
  return [...entries.map(({ name }) => name), ...(typed.trim() === '' ? [] : parts)];
}

/** An option that is called like a use takes the materials for it; what a job needs next stands before the others. */
function materialsFor(materials: readonly Material[], job: JobState | null, { name }: Asking): Material[] {
  const use = USES.find((each: Use) => each === name);
  if (use !== undefined) return materials.filter((material) => material.use.includes(use));
  const next = job?.steps.find(({ done, plan }) => done === null && plan.material !== null)?.plan.material?.id;
  return [...materials.filter(({ id }) => id === next), ...materials.filter(({ id }) => id !== next)];
}

/** The open steps of the job; without one those of all, what comes next in each first. A step of several names them all. */
function stepsOf(job: JobState | null, jobs: readonly JobState[]): Offer[] {
  const open = (job ? [job] : jobs).map(({ name, steps }) => ({
    name,
    plans: steps.flatMap(({ done, plan }) => (done === null ? [plan] : [])),
  }));
  const next = open.flatMap(({ plans }) => plans.slice(0, 1));
  const rest = open.flatMap(({ plans }) => plans.slice(1));
  const offers = [...next, ...rest].map(({ id, title }) => {
    const names = open.flatMap(({ name, plans }) => (plans.some((plan) => plan.id === id) ? [name] : []));
    return { value: id, title: [title, ...names].join(', ') };
  });
  return once(offers);
}

/** The steps of the recipe that the line names, by their numbers. */
function stepsOfRecipe({ recipes }: Desk, typed: string | undefined): Offer[] {
  const recipe = recipes.find(({ id, name }) => typed !== undefined && named(typed, [id, name]) !== undefined);
  return (recipe?.steps ?? []).map(({ id, title }, index) => ({ value: id, title: `${index + 1}. ${title}` }));
}

/** The open cups, but for those of another job or material than the line names; the last mixed first. */
function cupsFor(state: BenchState, asking: Asking, at: (when: number) => string): Offer[] {
  const { job, material } = asking.others;
  const owner = job === undefined ? null : jobMeant(state, asking);
  return openCups(state)
    .filter((cup) => owner === null || cup.job === owner.id)
    .filter((cup) => material === undefined || named(material, [cup.material.id, cup.material.name]) !== undefined)
    .reverse()
    .map((cup) => {
      const name = cup.job === null ? undefined : state.jobs.get(cup.job)?.name;
      return { value: cup.id, title: [cup.material.name, ...(name === undefined ? [] : [name]), at(cup.startedAt)].join(', ') };
    });
}
