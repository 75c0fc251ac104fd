import { conditionsOf } from '../bench/conditions.ts';
import type { PlannedStep } from '../job/events.ts';
import { type JobState, nextIndex } from '../job/state.ts';
import { pacedWait } from '../job/wait.ts';
import { hasOpened, needsTouch, nextWindow } from '../job/window.ts';
import type { CurePicture } from '../picture/models.ts';
import { goneThrough } from '../trade/time/cure.ts';
import { stateOf } from './bars-view.ts';
import { dueWords, momentText } from './board-view.ts';
import { type BenchView, byUrgency } from './brief-card.ts';

/** The waits of all open jobs: how much of each is over, and what comes when it is. */
export function cureModel(view: BenchView): CurePicture {
  const all = byUrgency(view).flatMap((job) => waitOf(job, view));
  const isOver = ({ sharePercent }: { readonly sharePercent: number | null }) => sharePercent !== null && sharePercent >= 100;
  // What is over waits for somebody; what goes on is what this picture is looked at for.
  const waits = [...all.filter((wait) => !isOver(wait)), ...all.filter(isOver)];
  const [first] = waits;
  return {
    title: `Waits, ${momentText(view.now, view.studio.zone)}`,
    headline: first ? `${first.job}: ${first.words}` : 'Nothing is curing here',
    waits,
  };
}

function waitOf(job: JobState, view: BenchView): (CurePicture['waits'][number] & { job: string })[] {
  const before = job.steps[nextIndex(job) - 1];
  const window = nextWindow(job, conditionsOf(view.state, view.studio));
  if (!before?.done || before.plan.wait === null || window === null || nextIndex(job) >= job.steps.length) return [];
  const share = needsTouch(window) ? null : hasOpened(window, view.now) ? 100 : shareOf(before.plan, before.done.at, view);
  return [
    {
      job: job.name,
      name: `${job.name}: ${before.plan.title}`,
      words: dueWords(job, view),
      sharePercent: share,
      state: stateOf(job, view),
    },
  ];
}

/** In percent of the data sheet's time at this bench's temperatures: a cold hour counts for less than a warm one. */
function shareOf(plan: PlannedStep, begun: number, { state, studio, now }: BenchView): number {
  const conditions = conditionsOf(state, studio);
  const wait = pacedWait(plan, conditions);
  if (wait === null || wait.fromMinutes <= 0) return 100;
  return Math.min(99, (goneThrough(conditions, wait.speed, begun, now) / wait.fromMinutes) * 100);
}
