import type { Card } from '../chat/card.ts';
import * as decide from '../job/decide.ts';
import { isRefusal, Refusal } from '../words/refusal.ts';
import { clock, say } from '../words/text.ts';
import { changeJob } from './change.ts';
import type { Desk } from './desk.ts';
import { line } from './examples.ts';
import { planAsked, STILL_STARTS } from './plan-options.ts';
import { job as jobNamed } from './resolve.ts';

interface KeptPlan {
  readonly job?: string | undefined;
  readonly start?: string | undefined;
  readonly 'ready-by'?: string | undefined;
}

const NO_PROMISE = ['none', 'no', 'off', '-'];

/** Another start, or another promise, for a job that is entered. */
export async function planJob(desk: Desk, input: KeptPlan): Promise<Card | Refusal> {
  const typed = { job: input.job, start: input.start, 'ready-by': input['ready-by'] };
  if (input.start === undefined && input['ready-by'] === undefined)
    return new Refusal('nothing-to-set', say`Say when it is to begin, or when it is to be ready.`, {
      example: line('job plan', { ...typed, 'ready-by': 'fri 16:00' }),
    });
  const job = jobNamed(await desk.bench.state(), input.job, { desk, command: 'job plan', options: typed });
  // Where both are wrong, an example is right in both.
  if (isRefusal(job)) {
    const times = planAsked(desk, typed, () => line('job plan', { job: input.job, 'ready-by': 'fri 16:00' }));
    return isRefusal(times) ? times : job;
  }
  const begun = input.start === undefined ? null : decide.begunAlready(job);
  if (begun) return begun;
  const none = NO_PROMISE.includes(input['ready-by']?.trim().toLowerCase() ?? '');
  const times = none ? { start: input.start } : { start: input.start, 'ready-by': input['ready-by'] };
  const ask = planAsked(desk, times, (more) => line('job plan', { ...typed, ...more }), STILL_STARTS);
  if (isRefusal(ask)) return ask;
  const readyBy = none ? null : (ask.readyBy ?? undefined);
  return changeJob(
    desk,
    job.id,
    undefined,
    (job, told) => decide.plan(job, { beginsAt: ask.start ?? undefined, readyBy }, told),
    ({ name, planned }) =>
      planned?.readyBy == null ? say`${name} is planned anew` : say`${name} is to be ready by ${clock(planned.readyBy)}`,
    { told: true },
  );
}
