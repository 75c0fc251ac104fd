import { card } from '../src/chat/card.ts';
import { choice, text } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command } from '../src/desk/desk.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import * as decide from '../src/job/decide.ts';
import { TACK_RESULTS } from '../src/job/events.ts';
import { nextIndex } from '../src/job/state.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

const LABELS = { 'not-yet': 'Not yet', ready: 'Ready', past: 'Past' } as const;

export default command({
  name: 'check',
  summary: 'Somebody touched the coat: not yet, ready, or past',
  options: {
    job: text({ about: 'Which job; may be left out where there is only one', complete: 'job' }).optional(),
    result: choice(TACK_RESULTS, {
      about: 'not-yet: wet or stringy. ready: tacky, nothing on the glove. past: no tack left',
    }).optional(),
    at: text({ about: 'When it was touched, if not just now: 10m ago, 14:05' }).optional(),
  },
  examples: ['result:ready', 'job:lion-head result:not-yet at:5m ago'],
  run: async (input, desk) => {
    const { result } = input;
    if (result !== undefined)
      return changeJob(
        desk,
        input.job,
        input.at,
        (job, told) => decide.check(job, result, told),
        (job) => say`${job.name}: touched, ${plain(LABELS[result].toLowerCase())}`,
      );
    const job = jobNamed(await desk.bench.state(), input.job);
    if (isRefusal(job)) return job;
    const last = job.steps[nextIndex(job) - 1];
    return card(
      say`${job.name}: how does ${last?.plan.title ?? 'it'} feel?`,
      [say`Not yet: wet, or it pulls strings. Ready: tacky, and nothing stays on the glove. Past: no tack left.`],
      {
        buttons: TACK_RESULTS.map((each) => ({ label: LABELS[each], command: 'check', options: { job: job.id, result: each } })),
        aside: true,
      },
    );
  },
});
