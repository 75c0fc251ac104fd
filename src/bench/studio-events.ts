import { z } from 'zod';
import { hoursText } from '../trade/calendar.ts';
import type { Studio } from './studio.ts';

const hours = z.object({ fromMinute: z.number(), untilMinute: z.number() });
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
  z.object({ ...stamp, type: z.literal('DutySet'), people: z.array(z.string()), hours: hours.nullable() }),
]);
export type StudioEvent = z.infer<typeof studioEvent>;

/** The studio as configured, with what was set from chat since. */
export function studioAfter(configured: Studio, events: readonly StudioEvent[]): Studio {
  let studio = configured;
  for (const event of events) studio = after(studio, event);
  return studio;
}

function after(studio: Studio, event: StudioEvent): Studio {
  if (event.type === 'DutySet') {
    if (event.hours === null) return { ...studio, duty: { ...studio.duty, always: event.people } };
    return { ...studio, duty: { ...studio.duty, byShift: { ...studio.duty.byShift, [hoursText(event.hours)]: event.people } } };
  }
  return {
    ...studio,
    zone: event.zone ?? studio.zone,
    graceMinutes: event.graceMinutes ?? studio.graceMinutes,
    quiet: event.quiet === 'off' ? null : (event.quiet ?? studio.quiet),
    shifts: { hours: event.hours ?? studio.shifts.hours, days: event.days ?? studio.shifts.days },
    shiftsSince: event.hours || event.days || event.zone ? event.at : studio.shiftsSince,
  };
}
