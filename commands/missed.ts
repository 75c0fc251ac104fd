import { choice, text } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command } from '../src/desk/desk.ts';
import { line } from '../src/desk/examples.ts';
import { atText, job as jobNamed, moment } from '../src/desk/resolve.ts';
import * as decide from '../src/job/decide.ts';
import { MISSED_CHOICES } from '../src/job/events.ts';
import { isRefusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

export default command({
  name: 'missed',
  summary: 'A window was missed: abrade and go on, or scrap the coat',
  options: {
    choice: choice(MISSED_CHOICES, { about: 'abrade: key the surface and go on. scrap: take the last coat off and do it again' }),
    job: text({ about: 'Which job; may be left out where there is only one', complete: 'job' }).optional(),
    at: text({ about: 'When it was done, if not just now: 10m ago, 14:05' }).optional(),
  },
  examples: ['choice:abrade', 'choice:scrap job:lion-head'],
  run: async (input, desk) => {
    const when = moment(desk, input.at, (at) => line('missed', { ...input, at }));
    if (isRefusal(when)) return when;
    const options = { choice: input.choice, at: input.at === undefined ? undefined : atText(desk, when) };
    const job = jobNamed(await desk.bench.state(), input.job, { desk, command: 'missed', options });
    if (isRefusal(job)) return job;
    return changeJob(
      desk,
      job.id,
      input.at,
      (each, told) => decide.decideMissed(each, input.choice, told),
      (each) =>
        input.choice === 'abrade'
          ? say`${each.name}: abrade it, and go on`
          : say`${each.name}: take the last coat off, and do it again`,
      {
        lines: () => [
          input.choice === 'abrade'
            ? say`Abrade all over, wipe off the dust (mask on), and try a small patch for bond first.`
            : say`What is left below must be clean, dry and released as it was before.`,
        ],
      },
    );
  },
});
