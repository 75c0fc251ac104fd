import { neat } from '../trade/mixing/ratio.ts';
import type { PlannedStep } from './events.ts';
import { type Coating, coatingsOf } from './shopping-coatings.ts';
import { type Need, needOf, type ShoppingAsk, type ShoppingJob } from './shopping-needs.ts';

interface OfJob {
  readonly job: string;
  readonly grams: number;
}

export interface MaterialToBuy {
  readonly material: string;
  readonly name: string;
  /** To mix, waste counted and each cup as the scale shows it. */
  readonly grams: number;
  /** As declared; empty where the material is no longer in the list. They add up to `grams`. */
  readonly parts: readonly { readonly part: string; readonly grams: number }[];
  readonly jobs: readonly OfJob[];
}

export interface MatsToBuy {
  /** For an epoxy, which does not dissolve the binder of chopped strands. Common practice, no source. */
  readonly unbound: boolean;
  readonly gramsPerSquareMetre: number;
  readonly squareMetres: number;
  readonly grams: number;
  readonly jobs: readonly OfJob[];
}

/** Cups of one size; null: the density of what is mixed in them is not known. */
export interface CupsToBuy {
  readonly millilitres: number | null;
  readonly count: number;
}

/** `no-size`: nobody said how large the model is. `no-density`: nor can its size tell. `casting`: what the mould holds is not in the plan. */
export interface Unknown {
  readonly job: string;
  readonly step: string;
  readonly name: string | null;
  readonly why: 'no-material' | 'no-size' | 'no-density' | 'casting';
}

export interface Shopping {
  readonly jobs: readonly string[];
  readonly materials: readonly MaterialToBuy[];
  readonly release: readonly Coating[];
  readonly mats: readonly MatsToBuy[];
  /** The smallest first. */
  readonly cups: readonly CupsToBuy[];
  /** Pastes and resins of a shell whose cups may have to be smaller, and more: nobody knows yet how fast they are laid. */
  readonly cupsUnsure: readonly string[];
  readonly unknown: readonly Unknown[];
}

/** The commonest glass mat. Common practice, no source. */
const MAT_GRAMS_PER_SQUARE_METRE = 450;

/**
 * What jobs still take, summed up by material and part, in grams; and what goes with it: sealer, release and wax, glass mat,
 * cups. Nothing is rounded for buying, so that jobs add up; amounts that nobody can tell are named in `unknown`.
 */
export function shoppingFor(jobs: readonly ShoppingJob[], ask: ShoppingAsk): Shopping {
  const needs = jobs.flatMap((job) => job.steps.flatMap((step, index) => needOf(job, step, index === 0, ask)));
  const ids = [...new Set(needs.map(({ material }) => material.id))];
  return {
    jobs: jobs.map(({ name }) => name),
    materials: ids.map((id) => toBuy(needs.filter(({ material }) => material.id === id))),
    release: coatingsOf(jobs),
    mats: [false, true].flatMap((unbound) => matsOf(needs, unbound)),
    cups: bySize(needs),
    cupsUnsure: [...new Set(needs.filter(({ unsure }) => unsure).map(({ material }) => material.name))],
    unknown: jobs.flatMap((job) => job.steps.flatMap((step) => unknownOf(job, step))),
  };
}

function toBuy(needs: readonly Need[]): MaterialToBuy {
  const [first] = needs as [Need];
  return {
    material: first.material.id,
    name: first.material.name,
    grams: neat(sum(needs.map(({ grams }) => grams))),
    parts: first.parts.map(({ part }) => ({
      part,
      grams: neat(sum(needs.flatMap(({ parts }) => parts.filter((each) => each.part === part).map(({ grams }) => grams)))),
    })),
    jobs: byJob(needs, ({ grams }) => grams),
  };
}

const byJob = (needs: readonly Need[], of: (need: Need) => number): OfJob[] =>
  [...new Set(needs.map(({ job }) => job))].map((job) => ({
    job,
    grams: neat(sum(needs.filter((need) => need.job === job).map(of))),
  }));

function matsOf(needs: readonly Need[], unbound: boolean): MatsToBuy[] {
  const glass = needs.filter((need) => need.glassGrams > 0 && need.unbound === unbound);
  if (glass.length === 0) return [];
  const gramsPerSquareMetre = MAT_GRAMS_PER_SQUARE_METRE;
  const grams = neat(sum(glass.map(({ glassGrams }) => glassGrams)));
  const jobs = byJob(glass, ({ glassGrams }) => glassGrams);
  return [{ unbound, gramsPerSquareMetre, squareMetres: neat(grams / gramsPerSquareMetre), grams, jobs }];
}

function bySize(needs: readonly Need[]): CupsToBuy[] {
  const sizes = [...new Set(needs.map(({ cups }) => cups.millilitres))];
  return sizes
    .sort((one, other) => (one ?? Number.POSITIVE_INFINITY) - (other ?? Number.POSITIVE_INFINITY))
    .map((millilitres) => ({
      millilitres,
      count: sum(needs.filter(({ cups }) => cups.millilitres === millilitres).map(({ cups }) => cups.count)),
    }));
}

const TAKES_MATERIAL: readonly PlannedStep['kind'][] = ['coat', 'shell', 'cast'];

function unknownOf({ name: job, areaSquareMetres }: ShoppingJob, { title, kind, material, grams }: PlannedStep): Unknown[] {
  if (grams !== null || (material === null && !TAKES_MATERIAL.includes(kind))) return [];
  const sized = areaSquareMetres === null ? 'no-size' : 'no-density';
  return [
    {
      job,
      step: title,
      name: material?.name ?? null,
      why: material === null ? 'no-material' : kind === 'cast' ? 'casting' : sized,
    },
  ];
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
