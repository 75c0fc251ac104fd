import { z } from 'zod';
import { recipeSchema } from '../job/recipe-schema.ts';
import { hoursText } from '../trade/time/calendar.ts';
import type { Studio } from './studio.ts';
import { withDropped, withSaved } from './studio-recipes.ts';
import { withHands, withHolidays, withHours, withoutHours } from './studio-staffing.ts';

const hours = z.object({ fromMinute: z.number(), untilMinute: z.number() });
const dropped = { from: z.number(), until: z.number(), exactly: z.boolean().optional() };
const stamp = { version: z.literal(1), at: z.number(), by: z.string() };

/** What a studio set from chat; it goes before what its configuration says. */
export const studioEvent = z.discriminatedUnion('type', [
  z.object({
    ...stamp,
    type: z.literal('ShiftsSet'),
    hours: z.array(hours).nullable(),
    days: z.array(z.number()).nullable(),
    zone: z.string().nullable(),
    graceMinutes: z.number().nullable(),
    /** `off` does away with quiet hours; null leaves them as they are. */
    quiet: z.union([hours, z.literal('off')]).nullable(),
  }),
  z.object({
    ...stamp,
    type: z.literal('StudioSet'),
    name: z.string().nullable(),
    units: z.enum(['metric', 'customary']).nullable(),
    scaleStepGrams: z.number().nullable(),
    /** What the scale can carry; `any` does away with the limit. */
    scaleMostGrams: z.union([z.number(), z.literal('any')]).nullable(),
    measureStepMillilitres: z.number().nullable(),
    snoozeMinutes: z.number().nullable(),
    wastePercent: z.number().nullable(),
  }),
  /** The text of a list of materials; null goes back to the program's. */
  z.object({ ...stamp, type: z.literal('MaterialsLoaded'), text: z.string().nullable() }),
  /** A recipe was changed, copied or taken back to: whole, as it is from then on. */
  z.object({
    ...stamp,
    type: z.literal('RecipeSaved'),
    recipe: recipeSchema,
    basedOn: z.object({ id: z.string(), version: z.number() }),
  }),
  /** The studio's own recipe of that id counts no more. */
  z.object({ ...stamp, type: z.literal('RecipeDropped'), recipe: z.string() }),
  /** What was learned of these materials' pace counts no more. */
  z.object({ ...stamp, type: z.literal('PaceReset'), materials: z.array(z.string()) }),
  z.object({ ...stamp, type: z.literal('DutySet'), people: z.array(z.string()), hours: hours.nullable() }),
  /** Of one shift, or of all where `hours` is null. A count of null: as many as are on duty. */
  z.object({ ...stamp, type: z.literal('HandsSet'), hours: hours.nullable(), count: z.number().nullable() }),
  /** ISO dates on which no shift begins from then on, and such on which they do again. */
  z.object({ ...stamp, type: z.literal('HolidaysSet'), add: z.array(z.string()), drop: z.array(z.string()) }),
  /** Staffed time beside the shifts. Of extra hours it takes the place of the very same only; with others hands add up. */
  z.object({ ...stamp, type: z.literal('ExtraHoursSet'), from: z.number(), until: z.number(), hands: z.number() }),
  /** What began in that time counts no more; or, `exactly`, only what has that beginning and end. */
  z.object({ ...stamp, type: z.literal('ExtraHoursDropped'), ...dropped }),
  /** So many pairs of hands fewer in the shifts than usual; as with extra hours. */
  z.object({ ...stamp, type: z.literal('HandsMissing'), from: z.number(), until: z.number(), hands: z.number() }),
  z.object({ ...stamp, type: z.literal('HandsBack'), ...dropped }),
]);
export type StudioEvent = z.infer<typeof studioEvent>;

/** The studio as configured, with what was set from chat since. */
export function studioAfter(configured: Studio, events: readonly StudioEvent[]): Studio {
  let studio = configured;
  for (const event of events) studio = after(studio, event);
  return studio;
}

const STAFFING: ReadonlySet<StudioEvent['type']> = new Set([
  'ShiftsSet',
  'DutySet',
  'HandsSet',
  'HolidaysSet',
  'ExtraHoursSet',
  'ExtraHoursDropped',
  'HandsMissing',
  'HandsBack',
]);

const after = (studio: Studio, event: StudioEvent): Studio => {
  const changed = changedBy(studio, event);
  return STAFFING.has(event.type) ? { ...changed, staffingToldAt: event.at } : changed;
};

function changedBy(studio: Studio, event: StudioEvent): Studio {
  if (event.type === 'MaterialsLoaded') return { ...studio, materialsText: event.text };
  if (event.type === 'RecipeSaved') {
    const { recipe, basedOn, at, by } = event;
    return { ...studio, recipes: withSaved(studio.recipes, { recipe, basedOn, at, by }) };
  }
  if (event.type === 'RecipeDropped')
    return { ...studio, recipes: withDropped(studio.recipes, event.recipe, { at: event.at, by: event.by }) };
  if (event.type === 'HandsSet') return withHands(studio, event);
  if (event.type === 'HolidaysSet') return withHolidays(studio, event);
  if (event.type === 'ExtraHoursSet') return withHours(studio, 'extras', event);
  if (event.type === 'ExtraHoursDropped') return withoutHours(studio, 'extras', event);
  if (event.type === 'HandsMissing') return withHours(studio, 'missing', event);
  if (event.type === 'HandsBack') return withoutHours(studio, 'missing', event);
  if (event.type === 'StudioSet') return withSettings(studio, event);
  if (event.type === 'PaceReset') {
    const resets = event.materials.map((material) => [material, event.at] as const);
    return { ...studio, paceResets: new Map([...studio.paceResets, ...resets]) };
  }
  if (event.type === 'DutySet') {
    if (event.hours === null) return { ...studio, duty: { ...studio.duty, always: event.people } };
    return { ...studio, duty: { ...studio.duty, byShift: { ...studio.duty.byShift, [hoursText(event.hours)]: event.people } } };
  }
  return {
    ...studio,
    zone: event.zone ?? studio.zone,
    graceMinutes: event.graceMinutes ?? studio.graceMinutes,
    quiet: event.quiet === 'off' ? null : (event.quiet ?? studio.quiet),
    shifts: { ...studio.shifts, hours: event.hours ?? studio.shifts.hours, days: event.days ?? studio.shifts.days },
    shiftsSince: event.hours || event.days || event.zone ? event.at : studio.shiftsSince,
  };
}

function withSettings(studio: Studio, event: Extract<StudioEvent, { type: 'StudioSet' }>): Studio {
  const { scale } = studio;
  const most = event.scaleMostGrams;
  return {
    ...studio,
    name: event.name ?? studio.name,
    units: event.units ?? studio.units,
    scale: {
      stepGrams: event.scaleStepGrams ?? scale.stepGrams,
      mostGrams: most === 'any' ? null : (most ?? scale.mostGrams),
    },
    measureStepMillilitres: event.measureStepMillilitres ?? studio.measureStepMillilitres,
    snoozeMinutes: event.snoozeMinutes ?? studio.snoozeMinutes,
    wastePercent: event.wastePercent ?? studio.wastePercent,
  };
}
