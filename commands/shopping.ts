import { laidFor, openJobs } from '../src/bench/fold.ts';
import { shoppingCard } from '../src/cards/shopping-card.ts';
import { text } from '../src/chat/options.ts';
import { command } from '../src/desk/desk.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { shoppingOf } from '../src/desk/shopping.ts';
import { isOpen, nextIndex } from '../src/job/state.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

export default command({
  name: 'shopping',
  summary: 'What the open jobs still take: materials by part, release, mats, cups',
  options: {
    job: text({ about: 'Only this job; left out, every open job of this bench', complete: 'job' }).optional(),
  },
  examples: ['job:lion-head'],
  run: async (input, desk) => {
    const { now, studio } = desk;
    const state = await desk.bench.state();
    const open = openJobs(state);
    // On an empty bench it is asked for a job all the same, so that the answer says how one begins.
    const one = input.job === undefined && open.length > 0 ? null : jobNamed(state, input.job, { desk, command: 'shopping' });
    if (isRefusal(one)) return one;
    if (one && !isOpen(one))
      return new Refusal('job-closed', say`${one.name} is ${plain(one.status)}: nothing more goes into it.`, {
        example: open.length > 0 ? '/shopping' : '/job list',
      });
    const jobs = (one ? [one] : open).map((job) => {
      const steps = job.steps.slice(nextIndex(job)).map(({ plan }) => plan);
      const [next] = steps;
      const poured = next ? laidFor(state, job, next, now) : [];
      return { name: job.name, steps, areaSquareMetres: job.areaSquareMetres, poured };
    });
    return shoppingCard({ shopping: await shoppingOf(desk, jobs), studio });
  },
});
