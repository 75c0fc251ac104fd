import { z } from 'zod';
import { STEP_KINDS } from './recipe.ts';

/**
 * What happened to one job, in the past tense. Times are milliseconds since the epoch: `at` is when it happened, `enteredAt`
 * when it was told. A field may be added with a default; anything else is a new version with an upgrade from the old one.
 */
export const stamp = { version: z.literal(1), at: z.number(), enteredAt: z.number(), by: z.string() };
const ofJob = { ...stamp, job: z.string() };

const cureLaw = z.discriminatedUnion('law', [
  z.object({ law: z.literal('q10'), q10: z.number() }),
  z.object({ law: z.literal('arrhenius'), joulesPerMole: z.number() }),
]);
export const speed = z.object({ law: cureLaw, referenceCelsius: z.number() }).nullable();
/** The temperatures that a material is made for. */
export const usable = z.object({ fromCelsius: z.number(), untilCelsius: z.number() }).nullable().default(null);

/**
 * A step as this job will do it: the recipe's step with the material's own times and amounts filled in. It is kept whole
 * in the event, so that a running job is untouched by later changes to recipes and materials.
 */
export const plannedStep = z.object({
  id: z.string(),
  title: z.string(),
  kind: z.enum(STEP_KINDS),
  handsMinutes: z.number(),
  advice: z.string().nullable(),
  /** What must be true before the next step begins. */
  check: z.string().nullable().default(null),
  material: z.object({ id: z.string(), name: z.string() }).nullable(),
  layerMillimetres: z.number().nullable(),
  grams: z.number().nullable(),
  /** The largest batch that may be mixed at once. */
  mostGrams: z.number().nullable().default(null),
  /** What decides which amounts of its material can be weighed true. */
  ratio: z
    .object({ shares: z.array(z.number()), tolerancePercent: z.number() })
    .nullable()
    .default(null),
  usable,
  wait: z
    .object({
      kind: z.enum(['recoat', 'cure', 'fixed']),
      fromMinutes: z.number(),
      untilMinutes: z.number().nullable(),
      speed,
    })
    .nullable(),
});
export type PlannedStep = z.infer<typeof plannedStep>;

/** Hands beside the shifts that a plan counts on; they are told to the studio as well. */
const extras = z.array(z.object({ from: z.number(), until: z.number(), hands: z.number() })).default([]);

export const TACK_RESULTS = ['not-yet', 'ready', 'past'] as const;
export const MISSED_CHOICES = ['abrade', 'scrap'] as const;

export const jobEvent = z.discriminatedUnion('type', [
  z.object({
    ...ofJob,
    type: z.literal('JobStarted'),
    name: z.string(),
    /** With the version that it began with; null where that was not kept yet. */
    recipe: z.object({ id: z.string(), name: z.string(), version: z.number().nullable().default(null) }),
    steps: z.array(plannedStep).min(1),
    /** What is covered, relief, flange and edges counted. */
    areaSquareMetres: z.number().nullable(),
    /** Of the model: what a casting from the mould will hold. */
    volumeLitres: z.number().nullable().default(null),
    /** What the model is of, in somebody's own words. */
    surface: z.string().nullable().default(null),
    holder: z.string(),
    /** Where it follows a plan: when its first step is to begin, and when it is to be ready. */
    planned: z.object({ beginsAt: z.number(), readyBy: z.number().nullable() }).nullable().default(null),
    extras,
  }),
  z.object({
    ...ofJob,
    type: z.literal('StepDone'),
    step: z.string(),
    note: z.string().nullable(),
    offPlan: z.enum(['early']).nullable(),
  }),
  z.object({ ...ofJob, type: z.literal('TackChecked'), step: z.string(), result: z.enum(TACK_RESULTS) }),
  z.object({ ...ofJob, type: z.literal('MissedWindowDecided'), step: z.string(), choice: z.enum(MISSED_CHOICES) }),
  /** When its first step is to begin from now on, and when it is to be ready. */
  z.object({ ...ofJob, type: z.literal('JobPlanned'), beginsAt: z.number(), readyBy: z.number().nullable(), extras }),
  /** Its plan counts on more hands, and stays as it is. */
  z.object({ ...ofJob, type: z.literal('HandsAsked'), extras }),
  z.object({ ...ofJob, type: z.literal('NoteAdded'), text: z.string() }),
  z.object({ ...ofJob, type: z.literal('JobHeld'), reason: z.string().nullable() }),
  z.object({ ...ofJob, type: z.literal('JobResumed') }),
  z.object({ ...ofJob, type: z.literal('JobClosed'), text: z.string().nullable() }),
]);
export type JobEvent = z.infer<typeof jobEvent>;
export type TackResult = (typeof TACK_RESULTS)[number];
export type MissedChoice = (typeof MISSED_CHOICES)[number];
