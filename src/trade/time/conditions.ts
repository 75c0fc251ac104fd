import { type Hours, nextWallClock } from './calendar.ts';

/** What every clock of a bench goes by. */
export interface Conditions {
  /** In order of time. */
  readonly readings: readonly TemperatureReading[];
  /** In the order in which they were told. */
  readonly expectations: readonly Expectation[];
  /** By the material's id: how many times as long as its data sheet says it takes in this studio. Left out: just as long. */
  readonly paces: ReadonlyMap<string, number>;
}

/** What was read off the bench's thermometer. */
export interface TemperatureReading {
  readonly at: number;
  readonly celsius: number;
  /** What the hygrometer showed along with it; left out or null where nobody said. */
  readonly humidityPercent?: number | null;
  /** The number of the event that told it: of two of the same moment, the later told counts. */
  readonly seq?: number;
}

/** The temperatures of the days and nights to come, by the wall clock. Null: as it was read last. */
export interface Expectation {
  /** When it was told. */
  readonly at: number;
  readonly dayCelsius: number | null;
  readonly nightCelsius: number | null;
  /** The rest is night. */
  readonly day: Hours;
  readonly zone: string;
  readonly seq?: number;
}

/** Day, where nobody says otherwise: from seven to seven. Common practice, no source. */
export const USUAL_DAY: Hours = { fromMinute: 7 * 60, untilMinute: 19 * 60 };

type Told = Pick<Expectation, 'at' | 'seq'>;

/** A stretch of time at one temperature; null where nobody has said any. `read`: by a thermometer, not as expected. */
export interface Stretch {
  readonly until: number;
  readonly celsius: number | null;
  readonly read: boolean;
}

/** So many days and nights to come are looked ahead, two years; from there on the last temperature stays. */
const MOST_TURNS = 1500;

/**
 * The bench's temperature from `from` on, stretch after stretch, the last one without end (`until` is infinite). What was
 * said last counts: an expectation told after the last reading holds at once; a reading that came after it holds until day
 * or night begins next.
 */
export function* stretches({ readings, expectations }: Conditions, from: number): Generator<Stretch> {
  let [reading, expectation] = [lastUntil(readings, from), lastUntil(expectations, from)];
  let at = from;
  for (let turns = 0; ; ) {
    const held = readings[reading];
    const expected = expectations[expectation];
    const next = Math.min(
      readings[reading + 1]?.at ?? Number.POSITIVE_INFINITY,
      expectations[expectation + 1]?.at ?? Number.POSITIVE_INFINITY,
    );
    const part = expected && isSet(expected) ? partOfDay(expected, at) : null;
    const until = turns >= MOST_TURNS ? next : Math.min(next, part?.until ?? next);
    if (next === Number.POSITIVE_INFINITY) turns += 1;
    const foreseen = expected && part && !holds(held, expected, at) ? part.celsius : null;
    yield { until, celsius: foreseen ?? held?.celsius ?? null, read: foreseen === null && held !== undefined };
    if (until === Number.POSITIVE_INFINITY) return;
    at = until;
    while ((readings[reading + 1]?.at ?? Number.POSITIVE_INFINITY) <= at) reading += 1;
    while ((expectations[expectation + 1]?.at ?? Number.POSITIVE_INFINITY) <= at) expectation += 1;
  }
}

/** The bench's temperature at `at`, read or expected; null where nobody has said any. */
export const celsiusAt = (conditions: Conditions, at: number): number | null => stretchAt(conditions, at).celsius;

/** The same, with whether it was read. */
export function stretchAt(conditions: Conditions, at: number): Stretch {
  for (const stretch of stretches(conditions, at)) return stretch;
  throw new Error('time has no end');
}

const lastUntil = (list: readonly { readonly at: number }[], at: number): number => list.findLastIndex((each) => each.at <= at);
const isSet = ({ dayCelsius, nightCelsius }: Expectation): boolean => dayCelsius !== null || nightCelsius !== null;
/** What is expected of the day or night that `at` lies in, and when that ends. */
function partOfDay({ day, zone, dayCelsius, nightCelsius }: Expectation, at: number) {
  const [begins, ends] = [nextWallClock(zone, at, day.fromMinute), nextWallClock(zone, at, day.untilMinute)];
  // Where it ends before it begins again, it is day: so also on the two days with a clock that jumps, and always where it
  // ends just when it begins.
  return ends <= begins ? { celsius: dayCelsius, until: ends } : { celsius: nightCelsius, until: begins };
}
/** Whether a reading came after the expectation and day or night has not begun since. */
const holds = (held: TemperatureReading | undefined, expected: Expectation, at: number): boolean =>
  held !== undefined && isAfter(held, expected) && at < partOfDay(expected, held.at).until;
const isAfter = (one: Told, other: Told): boolean =>
  one.at > other.at || (one.at === other.at && (one.seq ?? 0) > (other.seq ?? 0));
