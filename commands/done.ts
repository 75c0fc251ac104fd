import { text, yesNo } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command } from '../src/desk/desk.ts';
import { line } from '../src/desk/examples.ts';
import { atText, job as jobNamed, moment } from '../src/desk/resolve.ts';
import * as decide from '../src/job/decide.ts';
import { nextIndex } from '../src/job/state.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { clock, say } from '../src/words/text.ts';

export default command({
  name: 'done',
  summary: 'A step is done: start its wait, and hear what comes next',
  options: {
    job: text({ about: 'Which job; may be left out where there is only one', complete: 'job' }).optional(),
    step: text({ about: 'Which step; left out, the next one', complete: 'step' }).optional(),
    at: text({ about: 'When it was finished, if not just now: 10m ago, 14:05' }).optional(),
    note: text({ about: 'Anything to remember', free: true }).optional(),
    early: yesNo({ about: 'Log it although its window had not opened' }).optional(),
  },
  examples: ['job:lion-head', 'step:coat-2 at:10m ago note:thin on the nose'],
  run: async (input, desk) => {
    const early = input.early === undefined ? undefined : input.early ? 'yes' : 'no';
    const when = moment(desk, input.at, (at) => line('done', { ...input, early, at }));
    if (isRefusal(when)) return when;
    const at = input.at === undefined ? undefined : atText(desk, when);
    const options = { step: input.step, at, note: input.note, early };
    const job = jobNamed(await desk.bench.state(), input.job, { desk, command: 'done', options });
    if (isRefusal(job)) return job;
    return changeJob(
      desk,
      job.id,
      input.at,
      (each, told) =>
        decide.done(each, { step: input.step ?? null, note: input.note ?? null, early: input.early ?? false }, told),
      (after, before) => {
        const logged = before.steps[nextIndex(before)]?.plan;
        const doneAt = after.steps[nextIndex(before)]?.done?.at ?? desk.now;
        if (after.status === 'finished') return say`${after.name} is finished: ${logged?.title ?? ''} done at ${clock(doneAt)}`;
        return say`${after.name}: ${logged?.title ?? ''} done at ${clock(doneAt)}`;
      },
    );
  },
});
