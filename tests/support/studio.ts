import type { Studio } from '../../src/bench/studio.ts';
import type { Hours } from '../../src/trade/time/calendar.ts';

/** "06:00-14:00" */
export function hours(text: string): Hours {
  const [fromMinute = 0, untilMinute = 0] = text
    .split('-')
    .map((clock) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3)));
  return { fromMinute, untilMinute };
}

/** A studio in UTC without shifts, where ann and bob are on duty whatever the hours. */
export const studio = (more: Partial<Studio> = {}): Studio => ({
  name: 'An example',
  zone: 'Etc/UTC',
  units: 'metric',
  scale: { stepGrams: 1, mostGrams: null },
  measureStepMillilitres: 5,
  graceMinutes: 10,
  snoozeMinutes: 10,
  wastePercent: 10,
  shifts: { hours: [], days: [1, 2, 3, 4, 5, 6, 7] },
  duty: { always: ['ann', 'bob'], byShift: {} },
  hands: { all: null, byShift: {} },
  extras: [],
  missing: [],
  quiet: null,
  materialsText: null,
  recipes: new Map(),
  shiftsSince: 0,
  staffingToldAt: 0,
  paceResets: new Map(),
  paces: new Map(),
  ...more,
});
