import type { NumberedEvent } from '../bench/fold.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import type { Desk } from './desk.ts';

/** A cup that is known to have been laid: how fast, and when it was used up. */
interface Laid {
  readonly at: number;
  readonly gramsPerMinute: number;
}

type Started = Extract<NumberedEvent, { type: 'CupStarted' }>;

/** With fewer cups than this nothing is learned; of more than the last ones, the older do not count. */
const CUPS = { least: 3, last: 12 };
/** A cup that was laid in less, or after this many of its pot lives, was logged late, or stood about. */
const POSSIBLE = { leastMinutes: 1, mostPotLives: 3 };

/**
 * How fast this studio lays a material, on all of its benches: the median of its last cups whose weight was told; null where
 * these are too few.
 */
export async function rateLearned(
  desk: Desk,
  materialId: string,
): Promise<{ readonly gramsPerMinute: number; readonly cups: number } | null> {
  const channels = await desk.house.channels();
  const logs = await Promise.all(channels.map((channel) => desk.house.bench(channel).log()));
  const laid = logs
    .flatMap((log) => laidIn(log, materialId))
    .sort((one, other) => one.at - other.at)
    .slice(-CUPS.last);
  if (laid.length < CUPS.least) return null;
  return { gramsPerMinute: median(laid.map(({ gramsPerMinute }) => gramsPerMinute)), cups: laid.length };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other);
  const [low = 0, high = low] = sorted.slice(Math.ceil(sorted.length / 2) - 1, Math.floor(sorted.length / 2) + 1);
  return (low + high) / 2;
}

/** The cups of one bench that were used up, by their own word or with their step. What was undone was never told. */
function laidIn(log: readonly NumberedEvent[], materialId: string): Laid[] {
  const undone = new Set(log.flatMap((event) => (event.type === 'Undone' ? [event.target] : [])));
  const open = new Map<string, Started>();
  const laid: Laid[] = [];
  for (const event of log.filter(({ seq }) => !undone.has(seq))) {
    if (event.type === 'CupStarted' && event.material.id === materialId) open.set(event.cup, event);
    if (event.type === 'CupEnded') {
      const cup = open.get(event.cup);
      open.delete(event.cup);
      if (cup && event.how === 'spent') laid.push(...laidTogether([cup], event.at));
    }
    if (event.type === 'StepDone') {
      const ofStep = [...open.values()].filter(({ job, step }) => job === event.job && step === event.step);
      for (const { cup } of ofStep) open.delete(cup);
      laid.push(...laidTogether(ofStep, event.at));
    }
  }
  return laid;
}

/**
 * Where a step used up several cups, nobody said when which of them was empty: their weight together went on between the
 * first stir and the end.
 */
function laidTogether(cups: readonly Started[], at: number): Laid[] {
  const grams = cups.reduce((sum, cup) => sum + (cup.grams ?? Number.NaN), 0);
  const minutes = (at - Math.min(...cups.map((cup) => cup.at))) / MINUTE;
  const each = minutes / cups.length;
  const mostMinutes = POSSIBLE.mostPotLives * Math.max(...cups.map(({ potLifeMinutes }) => potLifeMinutes));
  const possible = grams > 0 && each >= POSSIBLE.leastMinutes && each <= mostMinutes;
  return possible ? cups.map(() => ({ at, gramsPerMinute: grams / minutes })) : [];
}
