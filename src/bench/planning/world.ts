import { Clocks } from '../../job/chain.ts';
import { type Span, type Spans, spansOf } from '../../trade/plan/spans.ts';
import { DAY, MINUTE } from '../../trade/time/calendar.ts';
import type { Conditions } from '../../trade/time/conditions.ts';
import { type Staffed, staffedTime } from '../staffing.ts';
import type { Studio } from '../studio.ts';

/** Hands that are at work for a job; milliseconds since the epoch. */
export interface Taken {
  readonly from: number;
  readonly until: number;
  readonly job: string;
  readonly name: string;
  readonly title: string;
}

/** All that a plan depends on beside the job itself. */
export interface World {
  readonly now: number;
  /** Planning looks no further than this. */
  readonly until: number;
  readonly clocks: Clocks;
  /** Null: shifts are not kept, any time will do. */
  readonly staffed: readonly Staffed[] | null;
  /** How many pairs of hands there are where shifts are not kept. */
  readonly anyTimeHands: number;
  readonly taken: readonly Taken[];
}

/** Planning looks ahead so many days, and as many again as the waits take. */
export const HORIZON_DAYS = 60;

interface Reach {
  readonly now: number;
  /** The earliest instant at which a wait that still matters began. */
  readonly from?: number;
  /** When the last job that is to be planned begins. */
  readonly begins?: number;
  /** What all waits together take at most. */
  readonly longestMinutes: number;
}

export function worldOf(studio: Studio, conditions: Conditions, { now, from = now, begins = now, longestMinutes }: Reach): World {
  const anyTimeHands = studio.hands.all ?? Math.max(1, studio.duty.always.length);
  const until = Math.max(now, begins) + HORIZON_DAYS * DAY + 2 * longestMinutes * MINUTE;
  return {
    now,
    until,
    clocks: new Clocks(conditions, Math.min(from, now)),
    staffed: staffedTime(studio, now, until) ?? withExtras(studio.extras, { from: now, until, hands: anyTimeHands, hours: null }),
    anyTimeHands,
    taken: [],
  };
}

/** Also where shifts are not kept, somebody more is one more. */
const withExtras = (extras: Studio['extras'], anyTime: Staffed): Staffed[] | null =>
  extras.length === 0 ? null : [anyTime, ...extras.map((extra) => ({ ...extra, hours: null }))];

export const withTaken = (world: World, taken: readonly Taken[]): World => ({ ...world, taken: [...world.taken, ...taken] });

/** The minutes that are staffed, whoever works then. */
export const staffedSpans = (world: World): Spans => spansWith({ ...world, taken: [] });

/** The minutes in which a pair of hands is free. */
export const freeSpans = (world: World): Spans => spansWith(world);

const first = (at: number) => Math.ceil(at / MINUTE);
const last = (at: number) => Math.floor(at / MINUTE);

/** Sweeps over all comings and goings; a minute in which somebody leaves or is still at work does not count. */
function spansWith({ now, until, staffed, anyTimeHands, taken }: World): Spans {
  const there = staffed ?? [{ from: now, until, hands: anyTimeHands }];
  const changes = [
    ...there.flatMap(({ from, until: ends, hands }) => [
      { at: first(from), by: hands },
      { at: last(ends), by: -hands },
    ]),
    ...taken.flatMap(({ from, until: ends }) => [
      { at: last(from), by: -1 },
      { at: first(ends), by: 1 },
    ]),
  ].sort((a, b) => a.at - b.at);
  const free: Span[] = [];
  let hands = 0;
  changes.forEach(({ at, by }, index) => {
    hands += by;
    const next = changes[index + 1]?.at ?? at;
    if (hands > 0 && next > at) free.push({ from: at, until: next - 1 });
  });
  return spansOf(free);
}
