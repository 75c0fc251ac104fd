import { choice, text } from '../src/chat/options.ts';
import { changeJob } from '../src/desk/change.ts';
import { command } from '../src/desk/desk.ts';
import * as decide from '../src/job/decide.ts';
import { MISSED_CHOICES } from '../src/job/events.ts';
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
  run: (input, desk) =>
    changeJob(
      desk,
      input.job,
      input.at,
      (job, told) => decide.decideMissed(job, input.choice, told),
      (job) =>
        input.choice === 'abrade'
          ? say`${job.name}: abrade it, and go on`
          : say`${job.name}: take the last coat off, and do it again`,
      () => [say`Abrade all over, wipe off the dust (mask on), and try a small patch for bond first.`],
    ),
});
