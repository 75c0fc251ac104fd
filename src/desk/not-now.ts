import { conditionsOf } from '../bench/conditions.ts';
import { type BenchState, pouredFor } from '../bench/fold.ts';
import { potOverAt } from '../bench/pings.ts';
import { missedWays } from '../job/refusals.ts';
import type { JobState } from '../job/state.ts';
import { hasOpened, isMissed, needsTouch, nextWindow } from '../job/window.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { Refusal } from '../words/refusal.ts';
import { away, clock, say, strong, type Text } from '../words/text.ts';
import type { Desk } from './desk.ts';

interface Wish {
  /** The job's next step, for which the cup would be. */
  readonly step: string;
  /** How many cups that step takes. */
  readonly cups: number;
  /** How long a cup mixed now is good for; null where nobody can tell. */
  readonly potLifeMinutes: number | null;
}

/**
 * Why no cup should be mixed for a job's next step just now; null where nothing speaks against it. Refusal `window-missed`:
 * it would not bond, and somebody must decide first.
 */
export function notNow(
  state: BenchState,
  job: JobState,
  { step, cups, potLifeMinutes }: Wish,
  desk: Desk,
): Text | null | Refusal {
  const { now, studio } = desk;
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  const title = job.steps.find(({ plan }) => plan.id === step)?.plan.title ?? step;
  if (isMissed(job, conditions, now))
    return new Refusal(
      'window-missed',
      say`Do not mix: the window for ${title} closed at ${clock(window?.closesAt ?? now)}, so it would not bond. Decide first: abrade and go on, or scrap the coat.`,
      { ways: missedWays(job), example: `/missed choice:abrade job:${job.id}` },
    );
  const poured = pouredFor(state, job, step);
  const good = poured.find((cup) => cup.ended === null && potOverAt(state, cup) > now);
  if (good && poured.length >= cups)
    return say`${strong(say`${good.id} is poured for it already`)}, good until ${clock(potOverAt(state, good))}.`;
  if (window === null || needsTouch(window) || hasOpened(window, now) || potLifeMinutes === null) return null;
  // Whoever mixes now and finds it still tacky by then is in time.
  if (window.opensAt - now < potLifeMinutes * MINUTE) return null;
  return say`${strong(say`Too early`)}: ${title} opens at ${clock(window.opensAt)} (${away(window.opensAt)}), and this would be over by then.`;
}
