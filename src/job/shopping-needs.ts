import { fillingOf } from '../trade/cover/laminated.ts';
import { OFFCUT_PERCENT } from '../trade/laminate/mats.ts';
import type { Material } from '../trade/material.ts';
import type { UnitSystem } from '../trade/measures/format-sizes.ts';
import { MILLILITRES_PER_US_GALLON } from '../trade/measures/units.ts';
import { cupsOf, LEFT_BY_ROUNDING } from '../trade/mixing/batches.ts';
import { mixedDensity } from '../trade/mixing/parts.ts';
import { above } from '../trade/mixing/ratio.ts';
import { roundParts } from '../trade/mixing/rounding.ts';
import type { PlannedStep } from './events.ts';

/** A job, begun or not, as far as it still takes something. */
export interface ShoppingJob {
  readonly name: string;
  /** Those that are not done. */
  readonly steps: readonly PlannedStep[];
  /** What is covered; null where nobody said. */
  readonly areaSquareMetres: number | null;
  /** The cups that are on the first of the steps already; one whose weight nobody told counts as one of those planned. */
  readonly poured: readonly { readonly grams: number | null }[];
}

export interface ShoppingAsk {
  /** The studio's list as it is now. */
  readonly materials: readonly Material[];
  /** What cups are sold in here. */
  readonly units: UnitSystem;
  readonly scale: { readonly stepGrams: number; readonly mostGrams: number | null };
  /** What stays in cup and brush, counted in the steps' amounts; no mat is lost with it. */
  readonly wastePercent: number;
  /** The largest cup of a material, by its id, that this studio lays in time; where it is not there, nobody knows yet. */
  readonly laidInTimeGrams: ReadonlyMap<string, number>;
}

/** What one step of a job still takes. */
export interface Need {
  readonly job: string;
  readonly material: { readonly id: string; readonly name: string };
  readonly grams: number;
  readonly parts: readonly { readonly part: string; readonly grams: number }[];
  readonly glassGrams: number;
  /** Whether that glass must come without a binder. */
  readonly unbound: boolean;
  readonly cups: { readonly millilitres: number | null; readonly count: number };
  readonly unsure: boolean;
}

/** A cup is filled so far, so that it can be stirred and scraped. Common practice, no source. */
const FILLED = 2 / 3;
const GALLON = MILLILITRES_PER_US_GALLON;
/**
 * What cups, tubs and buckets are sold in, in millilitres, and by how much the larger ones grow; customary ones are of 2, 5, 8,
 * 16 and 32 American fluid ounces, and of 1, 2 and 5 gallons. Common practice, no source.
 */
const SIZES = {
  metric: { sizes: [50, 100, 250, 500, 1000, 2500, 5000, 10_000, 20_000], larger: 10_000 },
  customary: {
    sizes: [...[2, 5, 8, 16, 32].map((ounces) => (ounces * GALLON) / 128), GALLON, 2 * GALLON, 5 * GALLON],
    larger: 5 * GALLON,
  },
};

/** Nothing, or one need: with what is poured for the step at hand off. */
export function needOf(job: ShoppingJob, step: PlannedStep, atHand: boolean, ask: ShoppingAsk): Need[] {
  if (step.material === null || step.grams === null || step.grams <= 0) return [];
  const cups = cupsOf(step.grams, step.mostGrams, step.ratio, ask.scale);
  const whole = cups.count * cups.grams;
  const poured = atHand ? sum(job.poured.map(({ grams }) => grams ?? cups.grams)) : 0;
  const grams = whole - poured;
  if (grams <= whole * LEFT_BY_ROUNDING) return [];
  const { id } = step.material;
  const material = ask.materials.find((each) => each.id === id);
  const inTime = step.layerMillimetres === null ? null : (ask.laidInTimeGrams.get(id) ?? null);
  const count = Math.ceil(grams / Math.min(cups.grams, inTime ?? cups.grams) - 1e-9);
  return [
    {
      job: job.name,
      material: step.material,
      grams,
      parts: material ? partsOf(material, step, cups.askGrams, grams, ask) : [],
      glassGrams: material ? glassIn(material, step, (step.grams * grams) / whole, ask) : 0,
      unbound: material?.family === 'epoxy',
      cups: { count, millilitres: material ? sizeFor(material, grams / count, ask.units) : null },
      unsure: step.kind === 'shell' && step.layerMillimetres !== null && inTime === null,
    },
  ];
}

/** The parts as one cup weighs them out, in as many cups as make `grams`. */
function partsOf(material: Material, step: PlannedStep, askGrams: number, grams: number, { scale }: ShoppingAsk): Need['parts'] {
  const most = Math.min(step.mostGrams ?? Number.POSITIVE_INFINITY, scale.mostGrams ?? Number.POSITIVE_INFINITY);
  const shares = material.parts.map(({ weightShare }) => weightShare);
  const cup = roundParts(askGrams, shares, scale.stepGrams, null, (amounts) => !above(sum(amounts), most));
  return material.parts.map((part, index) => ({ part: part.name, grams: ((cup[index] ?? 0) * grams) / sum(cup) }));
}

/** Mat in a laminated shell that takes so much resin. */
function glassIn(material: Material, step: PlannedStep, resinGrams: number, { wastePercent }: ShoppingAsk): number {
  const filling = step.layerMillimetres === null ? null : fillingOf(step.kind, material, 1);
  if (filling === null || filling.glassGrams === null) return 0;
  const laid = resinGrams / (1 + wastePercent / 100);
  return ((laid * filling.glassGrams) / filling.grams) * (1 + OFFCUT_PERCENT / 100);
}

function sizeFor(material: Material, grams: number, units: UnitSystem): number | null {
  const density = mixedDensity(material);
  if (density === null) return null;
  const holds = grams / density / FILLED;
  const { sizes, larger } = SIZES[units];
  return sizes.find((size) => size >= holds - 1e-9) ?? Math.ceil(holds / larger - 1e-9) * larger;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
