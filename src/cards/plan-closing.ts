import type { BenchState } from '../bench/fold.ts';
import { type Later, lastCalls } from '../bench/planning/last-call.ts';
import type { Studio } from '../bench/studio.ts';
import { clock, say, type Text } from '../words/text.ts';
import { causeText } from './plan-trouble.ts';

/** By when the next step of a job must begin, and what becomes of it later; null where nothing presses. */
export function planCloses(job: string, state: BenchState, studio: Studio): { readonly by: number; readonly why: Text } | null {
  const call = lastCalls(state, studio).find((each) => each.job === job);
  return call ? { by: call.by, why: whyOf(job, call.later, studio) } : null;
}

function whyOf(job: string, later: Later, studio: Studio): Text {
  switch (later.kind) {
    case 'waits':
      return say`it waits until ${clock(later.startsAt)} and is ready ${clock(later.readyAt)}.`;
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
