import { openJobs } from '../src/bench/fold.ts';
import { asFarAsItFits } from '../src/bench/planning/as-far-as-it-fits.ts';
import { planNow } from '../src/bench/planning/standing.ts';
import { calendarCard, whyNone } from '../src/cards/calendar-card.ts';
import { causeText } from '../src/cards/plan-trouble.ts';
import { text } from '../src/chat/options.ts';
import { type CalendarPlan, calendarOf } from '../src/desk/calendar-file.ts';
import { command } from '../src/desk/desk.ts';
import { noTimeOf } from '../src/desk/no-time.ts';
import { job as jobNamed } from '../src/desk/resolve.ts';
import { whyNotNow } from '../src/job/refusals.ts';
import { isRefusal, Refusal } from '../src/words/refusal.ts';
import { say } from '../src/words/text.ts';

export default command({
  name: 'calendar',
  summary: 'The coming steps as a calendar file, for the wall and the telephone',
  options: {
    job: text({ about: 'Only this job; left out, every open job of this bench', complete: 'job' }).optional(),
  },
  examples: ['job:lion-head'],
  run: async (input, desk) => {
    const { now, studio, channel } = desk;
    const state = await desk.bench.state();
    const open = openJobs(state);
    // On an empty bench it is asked for a job all the same, so that the answer says how one begins.
    const one = input.job === undefined && open.length > 0 ? null : jobNamed(state, input.job, { desk, command: 'calendar' });
    if (isRefusal(one)) return one;
    const refused = one && whyNotNow(one);
    if (refused) return refused;
    const jobs = one ? [one] : open;
    // One job's plan lies around those of the others.
    const bench = planNow(state, studio, now);
    const { troubles } = bench;
    const plans = jobs.flatMap((job): CalendarPlan[] => {
      const plan = bench.plans.get(job.id);
      if (plan) return [{ ...plan, holder: job.holder, misfit: null }];
      const trouble = troubles.find((each) => each.job === job.id);
      const part = trouble ? asFarAsItFits(bench, trouble) : null;
      if (!trouble || !part) return [];
      const { title, cause } = trouble;
      return [{ ...part, holder: job.holder, misfit: { title, why: causeText(title, cause, studio) } }];
    });
    const leftOut = jobs
      .filter(({ id }) => plans.every((plan) => plan.job !== id))
      .map((job) => noTimeOf(job, { state, studio, now }, troubles));
    const [first] = leftOut;
    if (plans.length === 0 && first)
      return new Refusal('no-time-known', say`No coming step has a time that can be told. ${whyNone(leftOut)}`, {
        example: first.example,
      });
    const file = calendarOf({ studioName: studio.name, zone: studio.zone, channel, plans, now });
    return calendarCard({
      plans,
      leftOut,
      zone: studio.zone,
      file: {
        name: one && /^[\w-]+$/.test(one.id) ? `${one.id}.ics` : 'coatbell.ics',
        about: 'A calendar of the coming steps',
        type: 'text/calendar',
        bytes: new TextEncoder().encode(file),
      },
    });
  },
});
