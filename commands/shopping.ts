import { laidFor, openJobs } from '../src/bench/fold.ts';
import { shoppingCard } from '../src/cards/shopping-card.ts';
import { text } from '../src/chat/options.ts';
import { command, type Desk } from '../src/desk/desk.ts';
import { type MakingInput, makingOf } from '../src/desk/making.ts';
import { makingOptions } from '../src/desk/making-options.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { shoppingOf } from '../src/desk/shopping.ts';
import { isOpen, nextIndex } from '../src/job/state.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { plain, say } from '../src/words/text.ts';

/** What a plan needs beside its size: for examples. */
const EXAMPLE = { skin: 'brush-urethane', shell: 'shell-paste' };

/** What a job takes that has not begun. */
async function shoppingFor(desk: Desk, input: MakingInput) {
  const making = await makingOf(desk, input, { command: 'shopping', options: {} });
  if (isRefusal(making)) return making;
  const { recipe, steps, cover } = making;
  const needs = { name: recipe.name, steps, areaSquareMetres: cover?.areaSquareMetres ?? null, poured: [] };
  return shoppingCard({ shopping: await shoppingOf(desk, [needs]), studio: desk.studio });
}

export default command({
  name: 'shopping',
  summary: 'What the open jobs, or a new one, still take: materials by part, release, mats, cups',
  options: {
    job: text({ about: 'Only this job; left out, every open job of this bench', complete: 'job' }).optional(),
    ...makingOptions('shopping', EXAMPLE),
  },
  examples: ['job:lion-head', 'skin:brush-urethane shell:shell-paste area:0.4 m2'],
  run: async ({ job: typedJob, ...making }, desk) => {
    if (typedJob === undefined && Object.values(making).some((value) => value !== undefined)) return shoppingFor(desk, making);
    const input = { job: typedJob };
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
