import type { BenchState } from '../bench/fold.ts';
import type { Studio } from '../bench/studio.ts';
import { shiftsBetween } from '../trade/time/calendar.ts';
import { USUAL_DAY } from '../trade/time/conditions.ts';

const EVERY_DAY = [1, 2, 3, 4, 5, 6, 7];

interface Between {
  readonly from: number;
  readonly until: number;
}

/** The nights between two instants, in milliseconds since the epoch: all outside of what this bench calls day. */
export function nightsBetween({ expectations }: BenchState, { zone }: Studio, { from, until }: Between): Between[] {
  const day = expectations.at(-1)?.day ?? USUAL_DAY;
  const nights: Between[] = [];
  let at = from;
  for (const light of shiftsBetween({ hours: [day], days: EVERY_DAY }, zone, from, until)) {
    if (light.from > at) nights.push({ from: at, until: light.from });
    at = Math.max(at, light.until);
  }
  return at < until ? [...nights, { from: at, until }] : nights;
}
