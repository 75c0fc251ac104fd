import { z } from 'zod';
import { MOST_HANDS, type Studio } from '../../bench/studio.ts';
import { type Hours, hoursText } from '../../trade/time/calendar.ts';
import { parseDays, parseHours, parseHoursList, parsePeople, parseZone } from '../../trade/time/calendar-text.ts';
import { isoDates } from '../../trade/time/days.ts';
import { isRefusal, type Refusal } from '../../words/refusal.ts';
import type { Kind } from './document.ts';
import {
  check,
  duration,
  either,
  field,
  list,
  mass,
  name,
  number,
  oneOf,
  percent,
  type Report,
  strict,
  volume,
} from './fields.ts';

const EXAMPLE = `
studio:
  name: The studio
  zone: Europe/Berlin
  units: metric
  scale: { step: 1 g, most: 5 kg }
  measure: 5 mL
  grace: 10 min
  snooze: 10 min
  waste: 10 %
  shifts: { hours: ["06:00-14:00", "14:00-22:00"], days: [mon, tue, wed, thu, fri] }
  duty: { always: [dana], byShift: { "06:00-14:00": [kim] } }
  hands: { all: 1, "06:00-14:00": 2 }
  holidays: [2026-12-25, 2026-12-26..2027-01-01]
  quiet: "22:00-06:00"
`;

/** Text, or a list of texts, in the words that the chat commands take. */
const words = <T>(expected: string, parse: (text: string) => T | Refusal, empty?: T) =>
  field(expected, (value) => {
    const items: unknown[] = Array.isArray(value) ? value : [value];
    if (items.length === 0) return empty;
    return items.every((item) => typeof item === 'string') ? parse(items.join(', ')) : undefined;
  });

const person = field('the name of one person (an id in digits stands in quotes)', (value) => {
  const found = typeof value === 'string' ? parsePeople(value) : undefined;
  return found === undefined || isRefusal(found) ? found : found.length === 1 ? found[0] : undefined;
});

/** Keys as people write hours become keys as the program writes them. */
const keyed = <T>(entries: Readonly<Record<string, T>>, ctx: z.RefinementCtx): Record<string, T> => {
  const found: [string, T][] = [];
  for (const [key, value] of Object.entries(entries)) {
    const hours = parseHours(key);
    if (isRefusal(hours)) ctx.addIssue({ code: 'custom', path: [key], message: `expected hours as the key, got "${key}"` });
    else found.push([hoursText(hours), value]);
  }
  return Object.fromEntries(found);
};
const byShift = z
  .record(z.string(), list(person), { error: 'expected a mapping from hours to lists of people' })
  .transform(keyed);

const pairs = number(`a whole number of hands from 1 to ${MOST_HANDS}`, 1, MOST_HANDS).check((ctx) => {
  if (typeof ctx.value === 'number' && !Number.isInteger(ctx.value))
    ctx.issues.push({ code: 'custom', input: ctx.value, message: `expected a whole number of hands, got ${ctx.value}` });
});
const ofAll = pairs.transform((all) => ({ all, byShift: {} as Record<string, number> }));
const ofEach = z
  .record(z.string(), pairs, { error: 'expected a number of hands, or a mapping from hours to them' })
  .transform(({ all, ...others }, ctx) => ({ all: all ?? null, byShift: keyed(others, ctx) }));

/** "2026-12-25", and "2026-12-26..2027-01-01" for all from one to the other. */
const dates = field('an ISO date such as 2026-12-25, or two with .. between them', (value) =>
  typeof value === 'string' ? isoDates(value) : undefined,
);

const entry = strict({
  name: name('a name').optional(),
  zone: words('a time zone', parseZone),
  units: oneOf(['metric', 'customary']).optional(),
  scale: strict({ step: mass, most: mass.optional() }).optional(),
  measure: volume.optional(),
  grace: duration.optional(),
  snooze: duration.optional(),
  waste: percent(0, 100).optional(),
  shifts: strict({
    hours: words<Hours[]>('hours such as 06:00-14:00', parseHoursList, []).optional(),
    days: words('days of the week', parseDays).optional(),
  }).optional(),
  hands: either(ofAll, ofEach).optional(),
  holidays: list(dates).optional(),
  duty: strict({ always: list(person).optional(), byShift: byShift.optional() }).optional(),
  quiet: words('hours such as 22:00-06:00', parseHours).optional(),
});

type Entry = z.output<typeof entry>;

/** Reports what is said of hours that no shift has. */
function ofNoShift(hours: readonly Hours[] = [], byShift: object = {}, path: readonly string[], report: Report): void {
  const kept = hours.map(hoursText);
  for (const key of Object.keys(byShift))
    if (!kept.includes(key)) report([...path, key], `there is no shift ${key}; the shifts are ${kept.join(', ') || 'not set'}`);
}

const checks = [
  check<Entry>(['scale'], ({ scale }, report) => {
    if (scale?.most !== undefined && scale.most <= scale.step)
      report(
        ['scale', 'most'],
        `expected more than one step of the scale, ${scale.step} g, got ${scale.most} g`,
        `${scale.step * 1000} g`,
      );
  }),
  check<Entry>(['shifts', 'duty'], ({ shifts, duty }, report) =>
    ofNoShift(shifts?.hours, duty?.byShift, ['duty', 'byShift'], report),
  ),
  check<Entry>(['shifts', 'hands'], ({ shifts, hands }, report) => ofNoShift(shifts?.hours, hands?.byShift, ['hands'], report)),
] as const;

/**
 * What a studio that says nothing else works with: a bench scale, and shifts on weekdays once their hours are set. Shifts
 * from a file have always been kept, as a file does not say since when.
 */
const toStudio = (studio: Entry): Studio => ({
  name: studio.name ?? 'The studio',
  zone: studio.zone,
  units: studio.units ?? 'metric',
  scale: { stepGrams: studio.scale?.step ?? 1, mostGrams: studio.scale ? (studio.scale.most ?? null) : 5000 },
  measureStepMillilitres: studio.measure ?? 5,
  graceMinutes: studio.grace ?? 10,
  snoozeMinutes: studio.snooze ?? 10,
  wastePercent: studio.waste ?? 10,
  shifts: {
    hours: studio.shifts?.hours ?? [],
    days: studio.shifts?.days ?? [1, 2, 3, 4, 5],
    closed: [...new Set(studio.holidays?.flat())].sort(),
  },
  duty: { always: studio.duty?.always ?? [], byShift: studio.duty?.byShift ?? {} },
  hands: studio.hands ?? { all: null, byShift: {} },
  extras: [],
  missing: [],
  quiet: studio.quiet ?? null,
  materialsText: null,
  recipes: new Map(),
  shiftsSince: 0,
  staffingToldAt: 0,
  paceResets: new Map(),
  paces: new Map(),
});

/** studio.yaml: zone, scale, shifts and people. Everything but the zone may be left out. */
export const studioFile: Kind<Studio> = {
  schema: strict({ studio: entry.check(...checks).transform(toStudio) }).transform(({ studio }) => studio),
  example: EXAMPLE,
  short: 'studio: { zone: Europe/Berlin }',
  unique: [],
};
