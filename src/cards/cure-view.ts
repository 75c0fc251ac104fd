import { conditionsOf } from '../bench/conditions.ts';
import { plainText } from '../chat/plain.ts';
import type { PlannedStep } from '../job/events.ts';
import { type JobState, nextIndex, nextStep } from '../job/state.ts';
import { pacedWait } from '../job/wait.ts';
import { hasOpened, needsTouch, nextWindow, timesOf, type Window } from '../job/window.ts';
import type { CurePicture } from '../picture/models.ts';
import { goneThrough } from '../trade/time/cure.ts';
import { away, clock, type Sayable, say } from '../words/text.ts';
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
      words: waitWords(job, window, view),
      sharePercent: share,
      state: stateOf(job, view),
    },
  ];
}

/** From when what comes next can go on: of the wait alone, whatever is planned. */
function waitWords(job: JobState, window: Window, view: BenchView): string {
  const { studio, now } = view;
  const words = (ours: TemplateStringsArray, ...theirs: Sayable[]) => plainText(say(ours, ...theirs), { zone: studio.zone, now });
  const state = stateOf(job, view);
  if (state !== 'hands' && state !== 'go') return dueWords(job, view);
  const { closesAt } = timesOf(window);
  const from = state === 'go' ? say`can go on` : say`from ${clock(window.opensAt)} (${away(window.opensAt)})`;
  const by = closesAt === null ? say`` : say`, by ${clock(closesAt)}`;
  return words`${nextStep(job)?.plan.title ?? ''} ${from}${by}`;
}

/** In percent of the data sheet's time at this bench's temperatures: a cold hour counts for less than a warm one. */
function shareOf(plan: PlannedStep, begun: number, { state, studio, now }: BenchView): number {
  const conditions = conditionsOf(state, studio);
  const wait = pacedWait(plan, conditions);
  if (wait === null || wait.fromMinutes <= 0) return 100;
  return Math.min(99, (goneThrough(conditions, wait.speed, begun, now) / wait.fromMinutes) * 100);
}
