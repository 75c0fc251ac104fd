import type { BenchState } from '../bench/fold.ts';
import { type LastCall, lastCalls } from '../bench/planning/last-call.ts';
import { planBench } from '../bench/planning/plan-bench.ts';
import type { Studio } from '../bench/studio.ts';
import { MINUTE } from '../trade/time/calendar.ts';
import { clock, say, type Text } from '../words/text.ts';
import { causeText } from './plan-trouble.ts';

/** By when the next step of a job must begin, as it looks at `now`, and what becomes of it later; null where nothing presses. */
export function planCloses(job: string, { state, studio, now }: PingTime): { readonly by: number; readonly why: Text } | null {
  const [call] = lastCalls(state, studio)
    .filter((each) => each.job === job && each.by >= now)
    .sort((a, b) => a.by - b.by);
  return call ? { by: call.by, why: whyOf(call, { state, studio }) } : null;
}

interface PingTime {
  readonly state: BenchState;
  readonly studio: Studio;
  readonly now: number;
}

function whyOf({ job, by, later }: LastCall, { state, studio }: Omit<PingTime, 'now'>): Text {
  switch (later.kind) {
    case 'waits': {
      // The call is the job's own; when it would be done then, the whole bench says.
      const plan = planBench(state, studio, by + MINUTE).plans.get(job);
      const [startsAt, readyAt] = [plan?.steps[0]?.startsAt ?? later.startsAt, plan?.readyAt ?? later.readyAt];
      return say`it waits until ${clock(startsAt)} and is ready ${clock(readyAt)}.`;
    }
    case 'misfit':
      if (later.cause.kind === 'late') return say`it is not ready by ${clock(later.cause.readyBy)}.`;
      return say`the rest does not fit. ${causeText(later.title, later.cause, studio)}`;
    case 'clash': {
      const { trouble } = later;
      if (trouble.cause.kind === 'late') return say`${trouble.name} is not ready by ${clock(trouble.cause.readyBy)}.`;
      const whose = trouble.job === job ? say`` : say` of ${trouble.name}`;
      const step = say`${trouble.title}${whose}`;
      return say`${step} does not fit beside it. ${causeText(trouble.title, trouble.cause, studio)}`;
    }
  }
}
