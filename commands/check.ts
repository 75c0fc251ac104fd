import { conditionsOf } from '../src/bench/conditions.ts';
import { card } from '../src/chat/card.ts';
import { saying, text } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command } from '../src/desk/desk.ts';
import { givenOf, line } from '../src/desk/examples.ts';
import { atText, job as jobNamed, moment } from '../src/desk/resolve.ts';
import * as decide from '../src/job/decide.ts';
import { TACK_RESULTS, type TackResult } from '../src/job/events.ts';
import { type JobState, nextIndex } from '../src/job/state.ts';
import { nextWindow } from '../src/job/window.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { clock, plain, say } from '../src/words/text.ts';

const LABELS = { 'not-yet': 'Not yet', ready: 'Ready', past: 'Past' } as const;

/** What people say instead, in the card's own words. `tacky` and `hard` say one thing of a coat, another of what cures. */
const WORDS: Readonly<Record<string, TackResult | 'tacky' | 'hard'>> = {
  wet: 'not-yet',
  stringy: 'not-yet',
  strings: 'not-yet',
  sticky: 'not-yet',
  soft: 'not-yet',
  dent: 'not-yet',
  tacky: 'tacky',
  hard: 'hard',
  cured: 'hard',
  dry: 'past',
  'no-tack': 'past',
};

/** What a coat of that feel is: one that must harden is not ready while it is tacky, and one that is hard takes no other. */
function resultOf(typed: string, job: JobState): TackResult {
  const said = TACK_RESULTS.find((each) => each === typed) ?? WORDS[typed];
  if (said === 'tacky') return decide.isCure(job) ? 'not-yet' : 'ready';
  if (said === 'hard') return decide.hasEnd(job) && !decide.isCure(job) ? 'past' : 'ready';
  return said ?? 'not-yet';
}

export default command({
  name: 'check',
  summary: 'Somebody touched the coat: not yet, ready, or past',
  options: {
    job: text({ about: 'Which job; may be left out where there is only one', complete: 'job' }).optional(),
    result: saying((word) => word.toLowerCase(), {
      about: 'not-yet: wet or stringy. ready: tacky, nothing on the glove. past: no tack left',
      values: TACK_RESULTS,
      also: Object.keys(WORDS),
    }).optional(),
    at: text({ about: 'When it was touched, if not just now: 10m ago, 14:05' }).optional(),
  },
  examples: ['result:ready', 'job:lion-head result:not-yet at:5m ago'],
  run: async (input, desk) => {
    const touchedAt = moment(desk, input.at, (at) => line('check', { ...input, at }));
    if (isRefusal(touchedAt)) return touchedAt;
    // A button is pressed later, and must still mean the moment that was said.
    const at = input.at === undefined ? undefined : atText(desk, touchedAt);
    const state = await desk.bench.state();
    const job = jobNamed(state, input.job, { desk, command: 'check', options: { result: input.result, at } });
    if (isRefusal(job)) return job;
    const result = input.result === undefined ? undefined : resultOf(input.result, job);
    if (result !== undefined)
      return changeJob(
        desk,
        job.id,
        input.at,
        (each, told) => decide.check(each, result, told),
        (each) => say`${each.name}: touched, ${plain(LABELS[result].toLowerCase())}`,
        {
          lines: (after) => {
            const window = nextWindow(after, conditionsOf(state, desk.studio));
            return window?.why === 'touched-late' && window.closesAt !== null
              ? [
                  say`Its window was over by the clock, and the finger goes before it. Touch it again after ${clock(window.closesAt)}.`,
                ]
              : [];
          },
        },
      );
    const refusal = decide.whyNoCheck(job, touchedAt);
    if (refusal) return refusal;
    const last = job.steps[nextIndex(job) - 1];
    const results = TACK_RESULTS.filter((each) => each !== 'past' || decide.hasEnd(job));
    return card(
      say`${job.name}: how does ${last?.plan.title ?? 'it'} feel?`,
      [
        decide.isCure(job)
          ? say`Not yet: it takes a dent, or is tacky. Ready: hard right through, also what is left in the last cup.`
          : say`Not yet: wet, or it pulls strings. Ready: tacky, and nothing stays on the glove.${decide.hasEnd(job) ? say` Past: no tack left.` : say``}`,
      ],
      {
        buttons: results.map((each) => ({
          label: LABELS[each],
          command: 'check',
          options: givenOf({ job: job.id, result: each, at }),
        })),
        aside: true,
      },
    );
  },
});
