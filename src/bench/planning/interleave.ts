import { type ChainStep, feasibleStarts, windowAfter } from '../../trade/plan/chain.ts';
import { intersect, type Span, type Spans, spansOf, startsWithin } from '../../trade/plan/spans.ts';
import { MINUTE } from '../../trade/time/calendar.ts';
import type { Demand } from './demand.ts';
import type { JobPlan } from './plan.ts';
import { askOf, isUnfit, planJob, takenBy, takenNow } from './plan-job.ts';
import { freeSpans, type Taken, type World, withTaken } from './world.ts';

/** A job on its way through its steps; all times in whole minutes since the epoch. */
interface Course {
  readonly demand: Demand;
  readonly steps: readonly ChainStep[];
  /** From which starts of each step the end can be reached, were nobody else at work. */
  readonly kept: readonly Spans[];
  readonly starts: number[];
  window: Span;
}

/**
 * Plans several jobs step by step instead of one job after the other: the step that closes first takes the first hands that
 * are free. Finds plans in which jobs give way to each other in turns; a rule of thumb, so that none is found proves nothing.
 * Null where a job finds no place, or not the start that was wished for.
 */
export function interleaved(world: World, demands: readonly Demand[]): Map<string, JobPlan> | null {
  for (let other = -1; other < MOST_OTHERS; other += 1) {
    const found = inTurns(world, demands, other);
    if (found) return found;
  }
  return null;
}

/** In so many places, one at a time, the step that closes second goes before the one that closes first. */
const MOST_OTHERS = 10;

/** `other`: which one of the choices falls on the second; below none, none does. */
function inTurns(world: World, demands: readonly Demand[], other: number): Map<string, JobPlan> | null {
  const courses: Course[] = [];
  const now = withTaken(world, demands.flatMap(takenNow));
  for (const demand of demands) {
    const { wish } = demand;
    const ask = askOf(now, wish === null ? demand : { ...demand, begin: { from: wish, until: wish } }, 0);
    const kept = feasibleStarts(ask);
    if (kept === null) return null;
    courses.push({ demand, steps: ask.steps, kept, starts: [], window: ask.begin });
  }
  let taken: Taken[] = [];
  for (let choice = 0; ; choice += 1) {
    const [first, second] = closingFirst(courses);
    const next = choice === other ? (second ?? first) : first;
    if (!next) break;
    const { demand, steps, starts } = next;
    const step = steps[starts.length] as ChainStep;
    const free = startsWithin(freeSpans(withTaken(now, taken)), step.handsMinutes);
    const start = intersect(openTo(next), free)[0]?.from;
    if (start === undefined) return null;
    starts.push(start);
    next.window = windowAfter(step, start);
    taken = [...taken, ...handsAt(demand, start, step.handsMinutes)];
  }
  return settled(world, courses);
}

/** When the next step of a job may start, as far as it alone is concerned. */
const openTo = ({ kept, starts, window }: Course): Spans => intersect(kept[starts.length] ?? [], spansOf([window]));

const handsAt = ({ job, name }: Demand, start: number, minutes: number): Taken[] =>
  minutes === 0 ? [] : [{ from: start * MINUTE, until: (start + minutes) * MINUTE, job: job ?? '', name, title: '' }];

/** Those that have steps left, by when their next step must begin at the latest; where that is the same, by when it can. */
function closingFirst(courses: readonly Course[]): Course[] {
  const left = courses.filter(({ steps, starts }) => starts.length < steps.length);
  const urgency = new Map(
    left.map((course) => {
      const open = openTo(course);
      return [course, { last: open.at(-1)?.until ?? 0, first: open[0]?.from ?? 0 }];
    }),
  );
  const of = (course: Course) => urgency.get(course) ?? { last: 0, first: 0 };
  return left.sort((a, b) => of(a).last - of(b).last || of(a).first - of(b).first);
}

/** Each job planned exactly around the others as they were found: none comes later than it was found, and all still fit. */
function settled(world: World, courses: readonly Course[]): Map<string, JobPlan> | null {
  const plans = new Map<string, JobPlan>();
  for (const { demand } of courses) {
    const others = courses.filter((each) => each.demand !== demand);
    const taken = others.flatMap(({ demand: other, steps, starts }) => {
      const plan = plans.get(other.job ?? '');
      if (plan) return takenBy(plan);
      const coming = starts.flatMap((start, index) => handsAt(other, start, steps[index]?.handsMinutes ?? 0));
      return [...takenNow(other), ...coming];
    });
    const around = withTaken(world, [...taken, ...takenNow(demand)]);
    const plan = planJob(around, demand.wish === null ? demand : { ...demand, begin: { from: demand.wish, until: demand.wish } });
    if (isUnfit(plan)) return null;
    plans.set(demand.job ?? '', plan);
  }
  return plans;
}
