import { openJobs } from '../bench/fold.ts';
import { planBench } from '../bench/planning/plan-bench.ts';
import { planCard, planData } from '../cards/plan-card.ts';
import { tellTroubles } from '../cards/trouble-card.ts';
import { type Card, card } from '../chat/card.ts';
import type { JobState } from '../job/state.ts';
import { isRefusal, Refusal, type Way } from '../words/refusal.ts';
import { clock, code, plain, say, strong, type Text } from '../words/text.ts';
import { staffedAround } from './board.ts';
import type { Desk } from './desk.ts';
import { startLine } from './examples.ts';
import { boardPicture, planPicture } from './pictures.ts';
import { job as jobNamed } from './resolve.ts';

/** The plan of one job under way, or of all on this bench. */
export async function planShown(desk: Desk, { job: typed }: { readonly job?: string | undefined }): Promise<Card | Refusal> {
  const state = await desk.bench.state();
  const jobs = openJobs(state);
  if (typed === undefined && jobs.length === 0)
    return new Refusal('nothing-to-plan', say`Nothing is under way here. Say what is to be made, of what.`, {
      example: startLine(desk).replace('/job start', '/plan'),
    });
  const job = typed === undefined && jobs.length > 1 ? null : jobNamed(state, typed, { desk, command: 'plan' });
  if (isRefusal(job)) return job;
  const bench = planBench(state, desk.studio, desk.now);
  const told = tellTroubles(
    bench.troubles.filter((trouble) => job === null || trouble.job === job.id),
    bench,
    desk.studio,
    desk.now,
  );
  const plan = job === null ? undefined : bench.plans.get(job.id);
  const view = { state, studio: desk.studio, now: desk.now };
  if (plan) {
    const files = [await planPicture(plan, view, staffedAround(view), desk.painter)];
    return withTroubles(
      planCard({ plan, towards: 'early', reserveMinutes: 0, notes: [], buttons: fileWays(job), files, studio: desk.studio }),
      told,
    );
  }
  if (job !== null)
    return withTroubles(
      card(say`${job.name} cannot be planned now`, told.lines.length > 0 ? [] : [whyNot(job)], { data: { plan: null } }),
      told,
    );
  const plans = [...bench.plans.values()].sort((a, b) => a.readyAt - b.readyAt);
  const inTrouble = bench.troubles.map((trouble) => trouble.job);
  const unplanned = jobs.filter(({ id }) => !bench.plans.has(id) && !inTrouble.includes(id));
  return withTroubles(
    card(
      say`Plan of this bench: ${plain(`${jobs.length} jobs`)}`,
      [
        ...plans.map(
          ({ name, steps, readyAt }) =>
            say`${strong(say`${name}`)}: ${steps[0] ? say`${steps[0].title} at ${clock(steps[0].startsAt)}, ` : say``}ready ${clock(readyAt)}`,
        ),
        ...unplanned.map((each) => say`${strong(say`${each.name}`)}: ${whyNot(each)}`),
      ],
      {
        data: { plans: plans.map((each) => planData(each, desk.studio)) },
        buttons: fileWays(null),
        files: [await boardPicture(view, { plans: bench.plans, staffed: staffedAround(view) }, desk.painter)],
      },
    ),
    told,
  );
}

const fileWays = (job: JobState | null): Way[] => {
  const options: Readonly<Record<string, string>> = job === null ? {} : { job: job.id };
  return [
    { label: 'Shopping list', command: 'shopping', options },
    { label: 'Calendar file', command: 'calendar', options },
  ];
};

/** Why the clock has nothing to say of a job. */
function whyNot({ id, status }: JobState): Text {
  if (status === 'held') return say`on hold.`;
  if (status !== 'active') return say`${plain(status)}.`;
  return say`somebody must look at it first: ${code(`/job show job:${id}`)}`;
}

function withTroubles(shown: Card, { lines, ways, data }: ReturnType<typeof tellTroubles>): Card {
  if (lines.length === 0) return { ...shown, aside: true };
  return {
    ...shown,
    aside: true,
    lines: [...lines, ...shown.lines],
    buttons: [...ways, ...shown.buttons].slice(0, 3),
    data: { ...shown.data, troubles: data },
    tone: 'soon',
  };
}
