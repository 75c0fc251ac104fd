import { openJobs } from '../bench/fold.ts';
import type { JobPlan } from '../bench/planning/plan.ts';
import { takenBy } from '../bench/planning/plan-job.ts';
import { planNow } from '../bench/planning/standing.ts';
import { freeSpans, type Taken, type World } from '../bench/planning/world.ts';
import { intersect, spansOf } from '../trade/plan/spans.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, joined, say, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';

/** More times than these say no more. */
const MOST_TIMES = 3;

/**
 * Hands are a bench's own, but people walk: when another bench of the studio wants hands while these plans take all that there are.
 * `world`: with the hands of all plans taken. Of a channel that not everybody may see nothing else is told.
 */
export async function elsewhereLine(desk: Desk, world: World, plans: readonly JobPlan[]): Promise<Text[]> {
  const ours = plans.flatMap(takenBy);
  const free = freeSpans(world);
  const times = new Set<number>();
  for (const bench of desk.house.others(desk.channel)) {
    const state = await bench.state();
    if (openJobs(state).length === 0) continue;
    // As its own bell has it: worked out already.
    const theirs = [...planNow(state, desk.studio, desk.now).plans.values()]
      .flatMap(takenBy)
      .filter(({ until }) => until > desk.now);
    for (const { from, until } of theirs)
      for (const our of ours) {
        const both = { from: Math.max(from, our.from), until: Math.min(until, our.until) };
        if (both.from < both.until && !isFree(both, free)) times.add(both.from);
      }
  }
  const shown = [...times].sort((a, b) => a - b).slice(0, MOST_TIMES);
  if (shown.length === 0) return [];
  const when = joined(
    shown.map((at) => say`${clock(at)}`),
    ', ',
    ' and ',
  );
  const more = times.size > shown.length ? say` and at other times` : say``;
  return [say`Another bench of this studio wants hands at ${when}${more}, too: each bench counts its own.`];
}

/** Whether a pair of hands is free all the while. */
function isFree({ from, until }: Pick<Taken, 'from' | 'until'>, free: ReturnType<typeof freeSpans>): boolean {
  const minutes = { from: Math.floor(from / MINUTE), until: Math.ceil(until / MINUTE) - 1 };
  const covered = intersect(free, spansOf([minutes])).reduce((sum, span) => sum + span.until - span.from + 1, 0);
  return covered > minutes.until - minutes.from;
}
