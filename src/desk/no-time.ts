import { conditionsOf } from '../bench/conditions.ts';
import type { BenchState } from '../bench/fold.ts';
import type { Trouble } from '../bench/planning/plan-bench.ts';
import type { Studio } from '../bench/studio.ts';
import { causeText } from '../cards/plan-trouble.ts';
import type { JobState } from '../job/state.ts';
import { isMissed, needsTouch, nextWindow } from '../job/window.ts';
import { say, type Text } from '../words/text.ts';
import { line } from './examples.ts';

/** A job whose steps have no time that can be told: why not, and the line that helps. */
interface NoTime {
  readonly name: string;
  readonly why: Text;
  readonly example: string;
}

interface Now {
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
}

export function noTimeOf(job: JobState, { state, studio, now }: Now, troubles: readonly Trouble[]): NoTime {
  const { id, name } = job;
  if (job.status === 'held') return { name, why: say`On hold.`, example: line('job resume', { job: id }) };
  const conditions = conditionsOf(state, studio);
  const window = nextWindow(job, conditions);
  if (isMissed(job, conditions, now))
    return {
      name,
      why: say`A window was missed: somebody must decide.`,
      example: line('missed', { choice: 'abrade', job: id }),
    };
  if (window !== null && needsTouch(window))
    return { name, why: say`Somebody must touch it first.`, example: line('check', { result: 'ready', job: id }) };
  const trouble = troubles.find((each) => each.job === id);
  const why = trouble ? causeText(trouble.title, trouble.cause, studio) : say`Nothing of it is still to be planned.`;
  return { name, why, example: line('plan', { job: id }) };
}
