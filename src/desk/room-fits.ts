import type { Studio } from '../bench/studio.ts';
import type { PlannedStep } from '../job/events.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { temperaturesText, temperatureText } from '../trade/measures/format.ts';
import { Refusal } from '../words/refusal.ts';
import { plain, say } from '../words/text.ts';

/**
 * Refusal `room-outside`: a room in which a material that waits by its cure is not to be used, for in that no time could be told;
 * null where all of them can be. `lineWith`: the line that an example would be, with that room.
 */
export function outsideRange(
  roomCelsius: number | null,
  steps: readonly PlannedStep[],
  { units }: Studio,
  lineWith: (room: string) => string,
): Refusal | null {
  if (roomCelsius === null) return null;
  const timed = steps.flatMap(({ usable, material, wait }) =>
    usable && material && wait && wait.kind !== 'fixed' ? [{ usable, material }] : [],
  );
  const wrong = timed.find(({ usable }) => roomCelsius < usable.fromCelsius || roomCelsius > usable.untilCelsius);
  if (!wrong) return null;
  const all = {
    from: Math.max(...timed.map(({ usable }) => usable.fromCelsius)),
    until: Math.min(...timed.map(({ usable }) => usable.untilCelsius)),
  };
  // Where no room suits all of them, it is said of the next one when that is typed.
  const { from, until } = all.from <= all.until ? all : { from: wrong.usable.fromCelsius, until: wrong.usable.untilCelsius };
  const range = temperaturesText(wrong.usable.fromCelsius, wrong.usable.untilCelsius, units);
  return new Refusal(
    'room-outside',
    say`${wrong.material.name} is made for ${plain(range)}: in a room at ${plain(temperatureText(roomCelsius, units))} nobody can tell when it is ready.`,
    { example: lineWith(roomIn(roomCelsius < from ? from : until, roomCelsius < from, units)) },
  );
}

/** The steps of a job that the room still matters to: what is to come, and what waits now. */
export const curing = (job: JobState): PlannedStep[] => job.steps.slice(Math.max(0, nextIndex(job) - 1)).map(({ plan }) => plan);

/** A whole degree at that end of a range, or inside of it. */
function roomIn(celsius: number, isLeast: boolean, units: Studio['units']): string {
  const degrees = units === 'customary' ? (celsius * 9) / 5 + 32 : celsius;
  return `${isLeast ? Math.ceil(degrees) : Math.floor(degrees)} ${units === 'customary' ? 'F' : 'C'}`;
}
